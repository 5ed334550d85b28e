"""When each preventive check of one system falls due next."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date

import numpy as np
from sqlalchemy import Connection

from db.columns import fetch_systems
from db.driver import day_of
from db.history import fetch_history
from fleet.checks.catalogue import CheckKind
from fleet.checks.due import DueBasis, DueLines, due_lines
from fleet.desk.catalogue import catalogue_of
from fleet.desk.derivation import Derivation, plain_derivation
from fleet.desk.opened import Desk
from fleet.desk.sentences import day_words


@dataclass(frozen=True, slots=True)
class DueRow:
    """One check with the day it is due by."""

    check: str
    part: str
    due_from: date
    due_by: date
    overdue_days: int
    state: str
    """``by 1 Dec 2026`` or ``12 days late``, in words."""
    explained: Derivation


def due_of(desk: Desk, connection: Connection, system_id: int) -> tuple[DueRow, ...]:
    """Return every check of a system with a day to count from, the most pressing first."""
    fleet = fetch_systems(connection, [system_id])
    if not len(fleet):
        return ()
    catalogue = catalogue_of(connection)
    lines = due_lines(fleet, fetch_history(connection, fleet, catalogue).checks, catalogue)
    tags = ("", *fleet.box_tags)
    return tuple(
        sorted(_rows(desk, lines, tags, catalogue), key=lambda row: (row.due_by, row.check, row.part))
    )


def _rows(
    desk: Desk, lines: DueLines, tags: tuple[str, ...], catalogue: Sequence[CheckKind]
) -> Iterator[DueRow]:
    for row in np.flatnonzero(~np.isnan(lines.due_by_day)).tolist():
        kind = catalogue[int(lines.check[row])]
        due_from, due_by = day_of(int(lines.due_day[row])), day_of(int(lines.due_by_day[row]))
        late = max(0, (desk.today - due_by).days)
        done = lines.last_done_day[row]
        months = int(lines.months[row])
        part = tags[int(lines.part[row]) + 1]
        explained = plain_derivation(
            f"{part} {kind.code.replace('_', ' ')}".strip().capitalize(),
            ("what", kind.what),
            ("every", "month" if months == 1 else f"{months} months"),
            ("counted from", _basis(DueBasis(int(lines.basis[row])), done)),
            ("due", day_words(due_from)),
            ("due by", day_words(due_by)),
            ("takes", f"{int(lines.minutes[row])} min"),
            sources=(kind.source_code,),
        )
        yield DueRow(
            kind.code.replace("_", " "), part, due_from, due_by, late, _state(late, due_by), explained
        )


def _state(late: int, due_by: date) -> str:
    if not late:
        return f"by {day_words(due_by)}"
    return "1 day late" if late == 1 else f"{late:,} days late"


def _basis(basis: DueBasis, done: float) -> str:
    if basis is DueBasis.WAIVED:
        return "the day after the waiver ended"
    if np.isnan(done):
        return "installation; no record of it"
    return f"last done {day_words(day_of(int(done)))}"
