"""Checks of a whole register: the file, the schema, and that what was derived follows from the records."""

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import Any, cast

from sqlalchemy import Connection, Engine, Table, select

from db.backup import Backup, find_backups
from db.current import checks_from_history, settings_from_history
from db.driver import chunks
from db.models import Base, CurrentCheck, CurrentSettings, System
from db.revisions import HEAD, read_revision

_MOST_NAMED = 20


@dataclass(frozen=True, slots=True)
class Report:
    """What was found; ``sound`` where nothing was."""

    revision: str | None
    expected_revision: str
    file_problems: tuple[str, ...]
    orphans: tuple[str, ...]
    """Tables with rows that refer to nothing."""
    wrong_settings: tuple[tuple[int, str], ...]
    """System and part whose current settings do not follow from the records; the first ones."""
    wrong_checks: tuple[tuple[int, str], ...]
    systems: int
    changed_since_audit: int
    never_audited: int
    findings: int
    backups: tuple[Backup, ...]

    @property
    def sound(self) -> bool:
        """Whether the register can be relied on; a due audit is no fault."""
        faults = (self.file_problems, self.orphans, self.wrong_settings, self.wrong_checks)
        return self.revision == self.expected_revision and not any(faults)


def check(engine: Engine) -> Report:
    """Look through a whole register; nothing is changed."""
    with engine.connect() as connection:
        on_sqlite = connection.dialect.name == "sqlite"
        return Report(
            revision=read_revision(connection),
            expected_revision=HEAD,
            file_problems=_file_problems(connection) if on_sqlite else (),
            orphans=_orphans(connection) if on_sqlite else (),
            wrong_settings=_differing(connection, CurrentSettings, settings_from_history),
            wrong_checks=_differing(connection, CurrentCheck, checks_from_history),
            systems=_count(connection, "systems"),
            changed_since_audit=_count(connection, "systems WHERE input_version <> audited_version"),
            never_audited=_count(connection, "systems WHERE audited_version = 0"),
            findings=_count(connection, "findings"),
            backups=find_backups(engine),
        )


def _file_problems(connection: Connection) -> tuple[str, ...]:
    found = connection.exec_driver_sql(f"PRAGMA integrity_check({_MOST_NAMED})").scalars().all()
    return () if found == ["ok"] else tuple(found)


def _orphans(connection: Connection) -> tuple[str, ...]:
    rows = connection.exec_driver_sql("PRAGMA foreign_key_check").fetchall()
    return tuple(sorted({row[0] for row in rows}))


def _count(connection: Connection, what: str) -> int:
    return int(connection.exec_driver_sql(f"SELECT count(*) FROM {what}").scalar_one())


Recomputed = Callable[[Connection, Sequence[int]], Iterator[dict[str, Any]]]


def _differing(
    connection: Connection, model: type[Base], recomputed: Recomputed
) -> tuple[tuple[int, str], ...]:
    """Return the first parts whose stored row is not what the records make of it."""
    table = cast(Table, model.__table__)
    systems = connection.execute(select(System.id).order_by(System.id)).scalars().all()
    wrong: list[tuple[int, str]] = []
    for ids in chunks(systems):
        stored = connection.execute(select(table).where(table.c.system_id.in_(ids))).mappings()
        there = _by_key((dict(row) for row in stored), table)
        made = _by_key(recomputed(connection, ids), table)
        differing = [key for key in there.keys() | made.keys() if there.get(key) != made.get(key)]
        wrong.extend(sorted({(int(key[0]), str(key[1])) for key in differing}))
        if len(wrong) >= _MOST_NAMED:
            break
    return tuple(wrong[:_MOST_NAMED])


def _by_key(rows: Iterable[dict[str, Any]], table: Table) -> dict[tuple[Any, ...], dict[str, Any]]:
    names = [column.name for column in table.primary_key]
    return {tuple(row[name] for name in names): row for row in rows}
