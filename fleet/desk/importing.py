"""Bringing files into a register: all or nothing, and what would change before it does."""

import os
import sqlite3
import tempfile
from collections.abc import Mapping, Sequence
from dataclasses import replace
from datetime import date, datetime
from pathlib import Path

from sqlalchemy import update

from db.engine import open_register, writer
from db.models import Act
from db.place import Where, place_of
from db.schema import create, publish
from fleet.checks.catalogue import CATALOGUE
from fleet.desk.documents import Document, Json
from fleet.desk.opened import open_desk
from fleet.errors import RegisterError, RegisterReadOnlyError
from fleet.exchange.apply import import_gathered
from fleet.exchange.gathering import Gathered, read_files, read_row_sets
from fleet.exchange.outcome import Result
from fleet.exchange.progress import Progress, Step, silent

CHECK_CODES = tuple(kind.code for kind in CATALOGUE)
DIFFERENCES_LISTED = 500


def import_files(
    where: Where,
    files: Sequence[Path],
    *,
    today: date,
    by: str | None = None,
    dry_run: bool = False,
    progress: Progress = silent,
) -> Result:
    """Read files into a register, making it if it is absent; nothing stays of a refused import.

    Raises:
        ImportRefusedError: every bad row, field and value is named.
        RegisterError: the register cannot be used.
    """
    gathered = read_files(files, progress)
    return _import(where, gathered, today=today, by=by, dry_run=dry_run, progress=progress)


def import_rows(
    where: Where,
    rows: Mapping[str, Sequence[Mapping[str, str]]],
    *,
    today: date,
    progress: Progress = silent,
) -> Result:
    """The same for rows of text that are at hand, as the demo's are."""
    return _import(where, read_row_sets(rows), today=today, by=None, dry_run=False, progress=progress)


def _import(
    where: Where, gathered: Gathered, *, today: date, by: str | None, dry_run: bool, progress: Progress
) -> Result:
    path = place_of(where).path
    if path is None or os.path.exists(path):
        return _into(where, gathered, today=today, by=by, dry_run=dry_run, progress=progress)
    gathered.problems.refuse_if_any()
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        with tempfile.TemporaryDirectory(prefix=".new-register-", dir=path.parent) as folder:
            fresh = Path(folder) / path.name
            create(fresh)
            result = _into(fresh, gathered, today=today, by=None, dry_run=dry_run, progress=progress)
            if by is not None:
                _sign(fresh, by, today)
            if dry_run:
                return result
            publish(fresh, path)
    except (OSError, sqlite3.OperationalError) as error:  # a full disk, say
        raise RegisterReadOnlyError(
            f"{path} cannot be made: {getattr(error, 'strerror', None) or error}.", where=str(path)
        ) from error
    except RegisterError as error:
        raise _said_of(path, error) from error
    return replace(result, written=True)


def _said_of(path: Path, error: RegisterError) -> RegisterError:
    """Return an error of the register in the making with the name that the person gave."""
    if not error.where or ".new-register-" not in error.where:
        return error
    return type(error)(error.message.replace(error.where, str(path)), where=str(path))


def _sign(fresh: Path, by: str, today: date) -> None:
    """Put a name to the act that made a register: only after it are its people known.

    Raises:
        UnknownNameError: nobody of that name came with the files.
    """
    desk = open_desk(fresh, today=today, by=by)
    try:
        with writer(desk.engine).begin() as connection:
            connection.execute(update(Act).values(by_id=desk.person_id()))
    finally:
        desk.close()


def _into(
    where: Where, gathered: Gathered, *, today: date, by: str | None, dry_run: bool, progress: Progress
) -> Result:
    if by is not None:
        desk = open_desk(where, today=today, by=by, read_only=dry_run)
        person, engine = desk.person_id(), desk.engine
    else:
        person, engine = None, open_register(where, read_only=dry_run)
    try:
        return import_gathered(
            engine,
            gathered,
            check_codes=CHECK_CODES,
            by=person,
            today=today,
            now=datetime.now(),
            dry_run=dry_run,
            progress=progress,
        )
    finally:
        engine.dispose()


def make_empty(where: Where) -> None:
    """Make a register with nothing in it.

    Raises:
        UsageError: something of that name exists.
    """
    create(where)


def import_document(result: Result) -> Document:
    """Return what `coldround import --json` prints."""
    counts: Document = {
        name: {"new": c.new, "changed": c.changed, "unchanged": c.unchanged}
        for name, c in result.counts.items()
    }
    listed: list[Json] = [
        {"table": d.table, "key": list(d.key), "column": d.column, "before": d.before, "after": d.after}
        for d in result.differences[:DIFFERENCES_LISTED]
    ]
    return {
        "written": result.written,
        "counts": counts,
        "settings_recorded": result.settings_recorded,
        "differences": listed,
        "differences_total": len(result.differences),
    }


__all__ = ["Result", "Step", "import_document", "import_files", "import_rows", "make_empty", "silent"]
