"""Copies of a register: consistent while others write, complete or absent."""

import sqlite3
from contextlib import closing, suppress
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

from sqlalchemy import Engine

from db.place import RegisterPlace, Where, place_of
from fleet.errors import RegisterError

_FOLDER_ENDING = "-backups"


@dataclass(frozen=True, slots=True)
class Backup:
    """One copy of a register."""

    path: Path
    made_at: datetime
    size_bytes: int


def backup_folder(path: Path) -> Path:
    """Return the folder beside a register in which its copies lie."""
    return path.with_name(path.name + _FOLDER_ENDING)


def make_backup(where: Where, *, now: datetime, why: str) -> Path | None:
    """Copy a register beside itself and return the copy's path; None for one on a server.

    The copy is taken by SQLite's own backup, so one made while somebody writes is still consistent;
    it gets its name only when it is complete.
    """
    place = place_of(where)
    if place.path is None:
        return None
    folder = backup_folder(place.path)
    target = _free_name(folder, f"{now:%Y-%m-%d-%H%M%S}-{why}")
    unfinished = target.with_suffix(".unfinished")
    try:
        folder.mkdir(exist_ok=True)
        _copy(place, unfinished)
        unfinished.replace(target)
    except (OSError, sqlite3.Error) as error:
        with suppress(OSError):
            unfinished.unlink(missing_ok=True)
        raise RegisterError(
            f"No backup of {place.name} could be written to {target}: {error}. Nothing was changed.",
            where=str(target),
        ) from error
    return target


def _free_name(folder: Path, stem: str) -> Path:
    target = folder / f"{stem}.register"
    number = 2
    while target.exists():
        target = folder / f"{stem}-{number}.register"
        number += 1
    return target


def _copy(place: RegisterPlace, target: Path) -> None:
    with (
        closing(sqlite3.connect(place.file_uri("ro"), uri=True)) as source,
        closing(sqlite3.connect(target)) as copy,
    ):
        source.backup(copy)
        # The copy must be one file: WAL would leave side files behind.
        copy.execute("PRAGMA journal_mode = DELETE")


def find_backups(engine: Engine) -> tuple[Backup, ...]:
    """Return the copies that lie beside a register, the newest first."""
    if engine.url.get_backend_name() != "sqlite" or not engine.url.database:
        return ()
    found = []
    for path in backup_folder(Path(engine.url.database)).glob("*.register"):
        facts = path.stat()
        found.append(Backup(path, datetime.fromtimestamp(facts.st_mtime), facts.st_size))
    return tuple(sorted(found, key=lambda backup: backup.path.name, reverse=True))
