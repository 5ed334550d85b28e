"""Preventive checks that fall due: read from the register in blocks, sorted by the day they are due by."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date

import numpy as np
from sqlalchemy import Connection

from db.columns import BLOCK_SYSTEMS, fetch_fleet
from db.driver import day_number, day_of
from db.history import fetch_history
from fleet.checks.catalogue import CheckKind
from fleet.checks.due import DueBasis, DueLines, due_lines
from fleet.desk.catalogue import catalogue_of
from fleet.desk.documents import Document, Json
from fleet.desk.opened import Desk
from fleet.errors import UsageError

_PLACES_SQL = """
SELECT y.id, k.customer, s.site, y.system, k.name, s.name
FROM systems y JOIN sites s ON s.id = y.site_id JOIN customers k ON k.id = s.customer_id
WHERE y.id >= {low} AND y.id < {high}"""


@dataclass(frozen=True, slots=True)
class DueCheck:
    """One check that falls due."""

    system_id: int
    customer: str
    site: str
    system: str
    customer_name: str
    site_name: str
    part: str
    check: CheckKind
    due_from: date
    due_by: date
    overdue_days: int
    """Days past `due_by`, 0 while it is not overdue."""
    months: int
    minutes: int
    basis: DueBasis
    last_done: date | None

    @property
    def because(self) -> str:
        """Why it is due then, in words."""
        every = "every month" if self.months == 1 else f"every {self.months} months"
        if self.basis is DueBasis.WAIVED:
            return f"the waiver ended the day before; {every}"
        if self.last_done is None:
            return f"no record of it; {every} from installation"
        return f"last done {self.last_done.isoformat()}; {every}"


def due_checks(desk: Desk, start: date, end: date) -> tuple[DueCheck, ...]:
    """Return what is due between two days, both included, and what is overdue at the first; earliest first.

    Raises:
        UsageError: the days are the wrong way round.
    """
    if end < start:
        raise UsageError(f"The period ends on {end}, before it begins on {start}.", where="--to")
    found: list[DueCheck] = []
    with desk.engine.connect() as connection:
        for low, high in _ranges(connection):
            found.extend(_due_in_block(connection, low, high, desk.today_day, day_number(end)))
    found.sort(key=lambda due: (due.due_by, due.customer, due.site, due.system, due.part, due.check.code))
    return tuple(found)


def _ranges(connection: Connection) -> Iterator[tuple[int, int]]:
    last = connection.exec_driver_sql("SELECT coalesce(max(id), 0) FROM systems").scalar() or 0
    for low in range(1, last + 1, BLOCK_SYSTEMS):
        yield low, low + BLOCK_SYSTEMS


def _due_in_block(
    connection: Connection, low: int, high: int, today_day: int, end_day: int
) -> Iterator[DueCheck]:
    fleet = fetch_fleet(connection, low, high)
    catalogue = catalogue_of(connection)
    lines = due_lines(fleet, fetch_history(connection, fleet, catalogue).checks, catalogue)
    rows = np.flatnonzero(lines.due_day <= end_day).tolist()
    if not rows:
        return
    places = {row[0]: row[1:] for row in connection.exec_driver_sql(_PLACES_SQL.format(low=low, high=high))}
    tags = ("", *fleet.box_tags)
    for row in rows:
        system_id = int(fleet.systems.system_id[lines.system[row]])
        part, kind = tags[int(lines.part[row]) + 1], catalogue[int(lines.check[row])]
        yield _due_check(lines, row, system_id, places[system_id], part, kind, today_day)


def _due_check(
    lines: DueLines,
    row: int,
    system_id: int,
    place: Sequence[str | None],
    part: str,
    kind: CheckKind,
    today_day: int,
) -> DueCheck:
    due_by, last = int(lines.due_by_day[row]), lines.last_done_day[row]
    customer, site, system, customer_name, site_name = place
    return DueCheck(
        system_id=system_id,
        customer=customer or "",
        site=site or "",
        system=system or "",
        customer_name=customer_name or customer or "",
        site_name=site_name or site or "",
        part=part,
        check=kind,
        due_from=day_of(int(lines.due_day[row])),
        due_by=day_of(due_by),
        overdue_days=max(0, today_day - due_by),
        months=int(lines.months[row]),
        minutes=int(lines.minutes[row]),
        basis=DueBasis(int(lines.basis[row])),
        last_done=None if np.isnan(last) else day_of(int(last)),
    )


def checks_document(due: Sequence[DueCheck], start: date, end: date) -> Document:
    """Return what `coldround checks --json` prints."""
    listed: list[Json] = [
        {
            "customer": line.customer,
            "site": line.site,
            "system": line.system,
            "part": line.part,
            "check": line.check.code,
            "due_from": line.due_from.isoformat(),
            "due_by": line.due_by.isoformat(),
            "overdue_days": line.overdue_days,
            "minutes": line.minutes,
            "because": line.because,
        }
        for line in due
    ]
    return {
        "from": start.isoformat(),
        "to": end.isoformat(),
        "units": {"minutes": "min"},
        "due": listed,
    }
