"""Findings are written as whole systems: what an audit found takes the place of what stood there."""

from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from datetime import date
from typing import Any, cast

from sqlalchemy import Connection, Date, Table, bindparam, text

from db.columns import which_systems
from db.driver import day_of, marks
from db.models import Finding

FINDING_FIELDS: tuple[str, ...] = tuple(column.name for column in cast(Table, Finding.__table__).columns)
"""The order of the values in a row that `replace_findings` takes."""
REWRITE_SHARE = 0.1
"""Above this share of changed systems, rebuilding the indexes is faster than keeping them (measured)."""

_FIRST_SEEN_SQL = """
INSERT INTO first_seen (system_id, part, rule, setting, first_seen)
SELECT DISTINCT f.system_id, f.part, f.rule, f.setting, :day
FROM findings f
WHERE {which} AND f.from_day <= :today AND NOT EXISTS (
  SELECT 1 FROM first_seen n
  WHERE n.system_id = f.system_id AND n.part = f.part AND n.rule = f.rule AND n.setting = f.setting)"""


def replace_findings(
    connection: Connection,
    system_ids: Sequence[int],
    rows: Sequence[tuple[Any, ...]],
    *,
    today_day: int,
    through_day: int,
) -> None:
    """Put ``rows`` in the place of all findings of some systems, and mark these as audited.

    The connection must be a writer's that began before the systems were fetched: the mark says that
    the findings belong to the input version that stands now. ``rows`` are tuples in the order of
    `FINDING_FIELDS`; they hold through ``through_day``.
    """
    if not system_ids:
        return
    which = which_systems(connection, system_ids, column="system_id")
    connection.exec_driver_sql(f"DELETE FROM findings WHERE {which}")
    if rows:
        names = ", ".join(FINDING_FIELDS)
        places = marks(connection, len(FINDING_FIELDS))
        connection.exec_driver_sql(f"INSERT INTO findings ({names}) VALUES ({places})", list(rows))
    _note_first_seen(connection, which_systems(connection, system_ids, column="f.system_id"), today_day)
    systems = which_systems(connection, system_ids, column="id")
    connection.exec_driver_sql(
        f"UPDATE systems SET audited_version = input_version, audited_through = {int(through_day)} "
        f"WHERE {systems}"
    )


@contextmanager
def rewriting(connection: Connection, changed: int, total: int) -> Iterator[None]:
    """Write many findings: without their indexes, which are rebuilt at the end.

    Of few systems the indexes stay. Everything inside has to be one transaction.
    """
    if changed <= REWRITE_SHARE * total:
        yield
        return
    indexes = sorted(cast(Table, Finding.__table__).indexes, key=lambda index: str(index.name))
    for index in indexes:
        index.drop(connection)
    yield
    for index in indexes:
        index.create(connection)


def first_seen(connection: Connection, system_id: int) -> dict[tuple[str, str, str], date]:
    """Return when each finding of a system was first seen, by part, rule and setting."""
    rows = connection.execute(
        text("SELECT part, rule, setting, first_seen FROM first_seen WHERE system_id = :system").columns(
            first_seen=Date
        ),
        {"system": system_id},
    )
    return {(row.part, row.rule, row.setting): row.first_seen for row in rows}


def _note_first_seen(connection: Connection, which: str, today_day: int) -> None:
    statement = text(_FIRST_SEEN_SQL.format(which=which))
    connection.execute(
        statement.bindparams(bindparam("day", type_=Date)), {"day": day_of(today_day), "today": today_day}
    )
