"""Which lines are overdue, how badly, and from which day to which."""

from dataclasses import dataclass

import numpy as np

from fleet.checks.due import DueBasis, DueLines
from fleet.dictionary.words import Severity
from fleet.targets.columns import Bools, Floats, Indices, Words

NEVER_DAY = 2**31 - 1
"""`until_day` of what does not end by itself."""
HORIZON_DAYS = 14
"""A fortnight: lists hold so long without another audit, and few rows are written ahead of time."""


@dataclass(frozen=True, slots=True)
class OverdueColumns:
    """One row per line and severity. A row holds on days from ``from_day`` up to before ``until_day``."""

    line: Indices
    """Row in `DueLines`."""
    severity: Words
    from_day: Indices
    """Days since 1970-01-01."""
    until_day: Indices

    def __len__(self) -> int:
        return len(self.line)


def overdue(lines: DueLines, today_day: int, horizon_days: int = HORIZON_DAYS) -> OverdueColumns:
    """Return what is overdue today or becomes so up to the horizon.

    Parameters
    ----------
    lines
        What falls due when.
    today_day
        Days since 1970-01-01.
    horizon_days
        Days after today, the last one included, whose lists must not need another audit; from 0.

    Returns
    -------
    OverdueColumns
        *watch* from the day after due-by; *next visit* from the day on which more than one interval
        has passed since the due day, until it is done, and only where it was ever recorded as done. A
        line may yield both; each day has at most one. By how much a line is overdue is the day shown
        minus its ``due_by_day``.

    Notes
    -----
    Judgement (source: check_interval). Lines without a date yield nothing.

    Examples
    --------
    >>> from fleet.checks.due import due_lines, no_records
    >>> from fleet.targets.columns import FleetColumns, BoxColumns, CompressorColumns, GroupColumns
    >>> from fleet.targets.columns import SystemColumns, empty_columns
    >>> systems = empty_columns(SystemColumns, 1)
    >>> fleet = FleetColumns(systems, empty_columns(BoxColumns, 0), empty_columns(GroupColumns, 0),
    ...                      empty_columns(CompressorColumns, 0), (), ())
    >>> len(overdue(due_lines(fleet, no_records()), today_day=20000))
    0
    """
    overdue_from = lines.due_by_day + 1
    # No record is not proof that a check was never done, only that nobody wrote it down: without one a
    # line stays a watch, however long ago the box was installed.
    late_from = np.where(lines.basis == DueBasis.INSTALLED, np.inf, lines.late_from_day)
    last_day = today_day + horizon_days
    # NaN compares false, so what has no date is in neither.
    watched = (overdue_from <= last_day) & (late_from > today_day) & (overdue_from < late_from)
    for_ever = np.full(len(lines), float(NEVER_DAY))
    watch = _rows(watched, Severity.WATCH, overdue_from, np.minimum(late_from, float(NEVER_DAY)))
    late = _rows(late_from <= last_day, Severity.NEXT_VISIT, late_from, for_ever)
    return OverdueColumns(
        line=np.concatenate((watch.line, late.line)),
        severity=np.concatenate((watch.severity, late.severity)),
        from_day=np.concatenate((watch.from_day, late.from_day)),
        until_day=np.concatenate((watch.until_day, late.until_day)),
    )


def _rows(where: Bools, severity: Severity, from_day: Floats, until_day: Floats) -> OverdueColumns:
    rows = np.flatnonzero(where)
    return OverdueColumns(
        line=rows,
        severity=np.full(len(rows), int(severity), dtype=np.int8),
        from_day=from_day[rows].astype(np.int64),
        until_day=until_day[rows].astype(np.int64),
    )
