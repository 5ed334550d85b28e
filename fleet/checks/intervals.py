"""Interval, tolerance and minutes of a check on each row it is done on."""

import numpy as np

from fleet.checks.catalogue import CheckKind
from fleet.dictionary.words import BoxKind, Form
from fleet.targets.columns import FleetColumns, Indices

_DISPLAY_CASES = [BoxKind.DISPLAY_CASE_MEDIUM.code, BoxKind.DISPLAY_CASE_LOW.code]
_FREEZERS = [BoxKind.WALK_IN_FREEZER.code, BoxKind.REACH_IN_FREEZER.code]


def tolerance_days(months: Indices) -> Indices:
    """Return how many days past due a check is not yet overdue: a fifth of the interval, rounded down.

    Parameters
    ----------
    months
        Interval in calendar months of 365/12 days, at least 1.

    Notes
    -----
    Judgement: 6, 18, 36 and 73 days for 1, 3, 6 and 12 months.

    Examples
    --------
    >>> tolerance_days(np.array([1, 3, 6, 12])).tolist()
    [6, 18, 36, 73]
    """
    return months * 73 // 12


def months_on(fleet: FleetColumns, kind: CheckKind, rows: Indices, systems: Indices) -> Indices:
    """Return the interval in months on each row; what a box is prevails over how its system is built."""
    months = np.full(len(rows), kind.months, dtype=np.int64)
    if kind.months_self_contained is not None:
        months[fleet.systems.form[systems] == Form.SELF_CONTAINED.code] = kind.months_self_contained
    if kind.scope == "box":
        boxes = fleet.boxes.kind[rows]
        if kind.months_display_case is not None:
            months[np.isin(boxes, _DISPLAY_CASES)] = kind.months_display_case
        if kind.months_freezer is not None:
            months[np.isin(boxes, _FREEZERS)] = kind.months_freezer
    return months


def minutes_on(fleet: FleetColumns, kind: CheckKind, systems: Indices) -> Indices:
    """Return the minutes of work on each row."""
    minutes = np.full(len(systems), kind.minutes, dtype=np.int64)
    if kind.minutes_self_contained is not None:
        minutes[fleet.systems.form[systems] == Form.SELF_CONTAINED.code] = kind.minutes_self_contained
    return minutes


def tolerance_on(kind: CheckKind, months: Indices) -> Indices:
    """Return the tolerance in days on each row: the check's own, or a fifth of the interval."""
    if kind.tolerance_days is not None:
        return np.full(len(months), kind.tolerance_days, dtype=np.int64)
    return tolerance_days(months)
