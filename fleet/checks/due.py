"""What falls due when: one line for each check on each system and box it is done on.

due = last done and so many calendar months; due by = due and the tolerance. Only a check that was
*done* moves it; one that was never done counts from the day the box, else its system, was installed.
A waiver puts the due day off to the day after it ends, and never brings it forward. Systems that are
idle or removed have no lines. Without any date a line is kept that is never overdue.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, fields
from enum import IntEnum

import numpy as np
import numpy.typing as npt

from fleet.checks.applies import Scope, rows_that_apply
from fleet.checks.catalogue import CATALOGUE, CheckKind
from fleet.checks.intervals import minutes_on, months_on, tolerance_on
from fleet.checks.months import add_months
from fleet.dictionary.words import Status
from fleet.targets.columns import Bools, FleetColumns, Floats, Indices, Words

WHOLE_SYSTEM = -1
"""`part` of what concerns the system itself and none of its boxes."""


class DueBasis(IntEnum):
    """From what a due day was counted."""

    NO_DATE = 0
    LAST_DONE = 1
    INSTALLED = 2
    WAIVED = 3


@dataclass(frozen=True, slots=True)
class CheckRecordColumns:
    """One row per system or box and check: how it stands; order and repetition do not matter."""

    system: Indices
    """Row in the fleet's systems."""
    part: Indices
    """Row in the fleet's boxes, `WHOLE_SYSTEM` for the system itself."""
    check: Indices
    """Position in the catalogue; what lies outside it is passed over."""
    last_done_day: Floats
    """Days since 1970-01-01 of the latest *done*, NaN never."""
    waived_until_day: Floats
    """Days since 1970-01-01 at whose end the latest waiver after it ends, NaN where none."""


@dataclass(frozen=True, slots=True)
class DueLines:
    """One row per system or box and check, by check and then in the order of the fleet."""

    system: Indices
    part: Indices
    """Row in the fleet's boxes, `WHOLE_SYSTEM` for the system itself."""
    check: Words
    """Position in the catalogue."""
    basis: Words
    """A `DueBasis`."""
    last_done_day: Floats
    due_day: Floats
    due_by_day: Floats
    """Last day on which it is not overdue."""
    late_from_day: Floats
    """First day on which more than one interval has passed since the due day."""
    months: npt.NDArray[np.int16]
    minutes: npt.NDArray[np.int16]

    def __len__(self) -> int:
        return len(self.system)


def no_records() -> CheckRecordColumns:
    """Return the records of a fleet in which nothing was ever checked."""
    whole, day = np.zeros(0, dtype=np.int64), np.zeros(0)
    return CheckRecordColumns(whole, whole, whole, day, day)


def due_lines(
    fleet: FleetColumns, records: CheckRecordColumns, catalogue: Sequence[CheckKind] = CATALOGUE
) -> DueLines:
    """Return every line of a fleet with the days on which it falls due, is overdue and is late.

    Parameters
    ----------
    fleet
        Whole systems; read are status, form and installed, the kinds of boxes, and what `applies` asks.
    records
        When each check was last done, and until when it is waived [days since 1970-01-01].
    catalogue
        The checks; at most 127.

    Returns
    -------
    DueLines
        Days since 1970-01-01, NaN where nothing is known to count from; minutes of work.

    Notes
    -----
    Intervals clip at the month's end (`add_months`). Source: check_interval (judgement). The season
    of a check moves no date here.

    Examples
    --------
    >>> from fleet.targets.columns import BoxColumns, CompressorColumns, GroupColumns, SystemColumns
    >>> from fleet.targets.columns import FleetColumns, empty_columns
    >>> systems = empty_columns(SystemColumns, 1)
    >>> systems.installed_day[0] = 19753  # 31 January 2024
    >>> fleet = FleetColumns(systems, empty_columns(BoxColumns, 0), empty_columns(GroupColumns, 0),
    ...                      empty_columns(CompressorColumns, 0), (), ())
    >>> lines = due_lines(fleet, no_records())
    >>> [CATALOGUE[check].code for check in lines.check]
    ['condenser_coil', 'pressures_superheat', 'leak_search', 'control_sequence']
    >>> [str(day) for day in lines.due_day[[0, 3]].astype("datetime64[D]")]
    ['2024-07-31', '2025-01-31']
    """
    pieces = [_lines_of(fleet, records, position, kind) for position, kind in enumerate(catalogue)]
    return _joined([_no_lines(), *pieces])


def _lines_of(fleet: FleetColumns, records: CheckRecordColumns, position: int, kind: CheckKind) -> DueLines:
    rows, systems, installed = _where_done(fleet, kind)
    last_done, waived_until = (days[rows] for days in _latest(fleet, records, position, kind.scope))
    months = months_on(fleet, kind, rows, systems)
    never = np.isnan(last_done)
    counted = add_months(np.where(never, installed, last_done), months)
    due: Floats = np.fmax(counted, waived_until + 1)
    due_by = due + tolerance_on(kind, months).astype(np.float64)
    return DueLines(
        system=systems,
        part=rows if kind.scope == "box" else np.full(len(rows), WHOLE_SYSTEM, dtype=np.int64),
        check=np.full(len(rows), position, dtype=np.int8),
        basis=_basis(never, counted, due),
        last_done_day=last_done,
        due_day=due,
        due_by_day=due_by,
        # Never before it is overdue at all, which a long tolerance of a company's own could ask for.
        late_from_day=np.maximum(add_months(due, months), due_by) + 1,
        months=months.astype(np.int16),
        minutes=minutes_on(fleet, kind, systems).astype(np.int16),
    )


def _where_done(fleet: FleetColumns, kind: CheckKind) -> tuple[Indices, Indices, Floats]:
    """Return the rows a check is done on, the system of each, and the day each was installed."""
    status = fleet.systems.status
    # An empty status is in service: a check too many does less harm than a system nobody visits.
    in_use = (status != Status.IDLE.code) & (status != Status.REMOVED.code)
    wanted = rows_that_apply(fleet, kind.applies, kind.scope)
    if kind.scope == "system":
        rows = np.flatnonzero(wanted & in_use)
        return rows, rows, fleet.systems.installed_day[rows]
    rows = np.flatnonzero(wanted & in_use[fleet.boxes.system])
    systems = fleet.boxes.system[rows]
    own = fleet.boxes.installed_day[rows]
    return rows, systems, np.where(np.isnan(own), fleet.systems.installed_day[systems], own)


def _latest(
    fleet: FleetColumns, records: CheckRecordColumns, position: int, scope: Scope
) -> tuple[Floats, Floats]:
    """Return last done and waived until of one check, one value per system or per box of the fleet."""
    of_check = records.check == position
    if scope == "system":
        found = np.flatnonzero(of_check & (records.part == WHOLE_SYSTEM))
        size, owner = len(fleet), records.system[found]
    else:
        found = np.flatnonzero(of_check & (records.part != WHOLE_SYSTEM))
        size, owner = len(fleet.boxes.system), records.part[found]
    return (
        _latest_by(owner, records.last_done_day[found], size),
        _latest_by(owner, records.waived_until_day[found], size),
    )


def _latest_by(owner: Indices, day: Floats, size: int) -> Floats:
    latest = np.full(size, -np.inf)
    np.maximum.at(latest, owner, np.where(np.isnan(day), -np.inf, day))
    latest[np.isneginf(latest)] = np.nan
    return latest


def _basis(never: Bools, counted: Floats, due: Floats) -> Words:
    basis = np.where(never, np.int8(DueBasis.INSTALLED), np.int8(DueBasis.LAST_DONE))
    basis[~(due == counted)] = DueBasis.WAIVED
    basis[np.isnan(due)] = DueBasis.NO_DATE
    return basis


def _no_lines() -> DueLines:
    whole, word, day = np.zeros(0, dtype=np.int64), np.zeros(0, dtype=np.int8), np.zeros(0)
    short = np.zeros(0, dtype=np.int16)
    return DueLines(whole, whole, word, word, day, day, day, day, short, short)


def _joined(pieces: Iterable[DueLines]) -> DueLines:
    kept = list(pieces)
    columns = {f.name: np.concatenate([getattr(piece, f.name) for piece in kept]) for f in fields(DueLines)}
    return DueLines(**columns)
