"""Compressors taken out for a flooded start: how many on each system, how close together.

The numbers here are judgement (source: flooded_start_history): a history is *close* when any two of
its compressors were taken out within 24 calendar months of each other, however long ago that was. So
the severity depends on no date, and a finding does not change overnight.
"""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from fleet.dictionary.words import Severity
from fleet.targets.columns import Bools, Floats, Indices, Words

WITHIN_MONTHS = 24
"""Calendar months within which two are close; source: flooded_start_history."""

_SLOTS = 32
"""Places for the days of a month in a key that orders days as the calendar does."""


@dataclass(frozen=True, slots=True)
class LifeColumns:
    """One row per compressor that was taken out with the reason ``flooded_start``, in any order."""

    system: Indices
    """Row in the fleet's systems."""
    position: Indices
    out_day: Floats
    """Days since 1970-01-01 on which it was taken out; NaN where that was not recorded."""


@dataclass(frozen=True, slots=True)
class FloodedStarts:
    """One row per system of the fleet."""

    ever: Indices
    """Compressors taken out for a flooded start, those without a date too."""
    recent: Indices
    """Those of the 24 months up to today, the first and the last day included."""
    close_together: Bools
    """Whether any two were taken out within 24 months of each other, that day included."""

    def __len__(self) -> int:
        return len(self.ever)


def flooded_starts(lives: LifeColumns, systems: int, today_day: int) -> FloodedStarts:
    """Count the compressors that each system lost to a flooded start.

    Parameters
    ----------
    lives
        Compressors taken out for a flooded start; several positions of one system count together.
    systems
        Number of systems of the fleet, at least one above the highest row in ``lives``.
    today_day
        Days since 1970-01-01; only ``recent`` depends on it.

    Notes
    -----
    Two days are within 24 months when the later is at or before the earlier and 24 calendar months,
    clipped at the month's end: 29 February 2024 and 28 February 2026 are, 1 March 2026 is not. What
    has no date counts in ``ever`` alone; what lies after today counts everywhere but in ``recent``.

    Examples
    --------
    >>> out = np.array([19782.0, 20512.0, 20513.0])  # 29 Feb 2024, 28 Feb 2026; 1 Mar 2026 elsewhere
    >>> lives = LifeColumns(np.array([0, 0, 1]), np.array([1, 2, 1]), out)
    >>> found = flooded_starts(lives, systems=3, today_day=20513)
    >>> found.ever.tolist(), found.recent.tolist(), found.close_together.tolist()
    ([2, 1, 0], [1, 1, 0], [True, False, False])
    """
    dated = np.flatnonzero(~np.isnan(lives.out_day))
    system, out_day = lives.system[dated], lives.out_day[dated].astype(np.int64)
    in_time = (out_day <= today_day) & _within(_calendar_key(out_day), _calendar_key(np.int64(today_day)))
    return FloodedStarts(
        ever=np.bincount(lives.system, minlength=systems),
        recent=np.bincount(system[in_time], minlength=systems),
        close_together=_any_two_close(system, out_day, systems),
    )


def flooded_start_severity(found: FloodedStarts, low_pressure_open: Bools) -> Words:
    """Return the severity of each system's history, 0 where there is none.

    Parameters
    ----------
    found
        The history.
    low_pressure_open
        Per system, whether a finding about the low-pressure control is open that says *act now* or
        *next visit*.

    Notes
    -----
    *next visit* for one and more; *act now* where two were close together and the setting that lets
    it happen again still stands. Judgement (source: flooded_start_history).

    Examples
    --------
    >>> found = FloodedStarts(np.array([0, 1, 2]), np.array([0, 0, 1]), np.array([False, False, True]))
    >>> flooded_start_severity(found, np.array([True, True, True])).tolist()
    [0, 2, 1]
    """
    severity = np.where(found.ever > 0, np.int8(Severity.NEXT_VISIT), np.int8(0))
    severity[found.close_together & low_pressure_open] = Severity.ACT_NOW
    return severity


def _any_two_close(system: Indices, out_day: Indices, systems: int) -> Bools:
    """Compare neighbours in time only: if any two of a system are close, two neighbours are."""
    order = np.lexsort((out_day, system))
    owner, key = system[order], _calendar_key(out_day[order])
    close = (owner[1:] == owner[:-1]) & _within(key[:-1], key[1:])
    answer = np.zeros(systems, dtype=np.bool_)
    answer[owner[1:][close]] = True
    return answer


def _calendar_key(day: npt.NDArray[np.int64] | np.int64) -> Indices:
    """Return a number that rises with the day and by the same step from month to month."""
    dates = np.asarray(day).astype("datetime64[D]")
    month = dates.astype("datetime64[M]")
    into_month = (dates - month.astype("datetime64[D]")).astype(np.int64)
    return np.asarray(month.astype(np.int64) * _SLOTS + into_month)


def _within(earlier_key: Indices, later_key: Indices) -> Bools:
    # Clipping need not be done: no day of a month comes after the month's end.
    return np.asarray(later_key - earlier_key <= WITHIN_MONTHS * _SLOTS)
