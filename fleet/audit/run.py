"""The whole audit of a fleet in columns: settings, checks, compressors, to findings."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from fleet.audit.findings import FindingColumns, joined, rows_of
from fleet.audit.settings import boxes_apart, fans_cycle, not_recorded, window_findings
from fleet.checks.catalogue import CATALOGUE, CheckKind
from fleet.checks.due import CheckRecordColumns, DueLines, due_lines
from fleet.checks.overdue import HORIZON_DAYS, overdue
from fleet.dictionary.words import Severity, Verdict
from fleet.reliability.flooded import LifeColumns, flooded_start_severity, flooded_starts
from fleet.targets.columns import Bools, FleetColumns
from fleet.targets.lowpressure import LowPressure, low_pressure


@dataclass(frozen=True, slots=True)
class History:
    """What happened to the systems of a fleet: checks done, compressors lost."""

    checks: CheckRecordColumns
    lives: LifeColumns


def audit(
    fleet: FleetColumns,
    history: History,
    today_day: int,
    *,
    catalogue: Sequence[CheckKind] = CATALOGUE,
) -> FindingColumns:
    """Return all findings of a fleet as of a day, given in days since 1970-01-01.

    Those that begin within `HORIZON_DAYS` are among them, with the day from which they hold, so that
    no list goes stale overnight.
    """
    found = low_pressure(fleet)
    settings = joined([*window_findings(fleet, found), *boxes_apart(fleet, found), fans_cycle(fleet, found)])
    lines = due_lines(fleet, history.checks, catalogue)
    return joined(
        [
            settings,
            not_recorded(found),
            check_findings(fleet, lines, catalogue, today_day),
            flooded_findings(found, history.lives, today_day),
        ]
    )


def check_findings(
    fleet: FleetColumns, lines: DueLines, catalogue: Sequence[CheckKind], today_day: int
) -> FindingColumns:
    """Return overdue checks: `recorded` is the day last done, `high` the day by which it was due."""
    late = overdue(lines, today_day, HORIZON_DAYS)
    rows = late.line
    codes = np.array([kind.code for kind in catalogue], dtype=object)
    tags = np.array(("", *fleet.box_tags), dtype=object)
    return rows_of(
        "check_overdue",
        lines.system[rows],
        part=tags[lines.part[rows] + 1],
        setting=codes[lines.check[rows]],
        severity=late.severity,
        verdict=Verdict.ABOVE.code,
        from_day=late.from_day,
        until_day=late.until_day,
        recorded=lines.last_done_day[rows],
        high=lines.due_by_day[rows],
    )


def flooded_findings(found: LowPressure, lives: LifeColumns, today_day: int) -> FindingColumns:
    """Return systems whose compressors were taken out after flooded starts; `recorded` counts them."""
    history = flooded_starts(lives, len(found.missing), today_day)
    severity = flooded_start_severity(history, _urgent_pressure(found))
    rows = np.flatnonzero(severity > 0)
    return rows_of(
        "flooded_starts",
        rows,
        severity=severity[rows],
        verdict=Verdict.ABOVE.code,
        recorded=history.ever[rows].astype(np.float64),
        far=-history.ever[rows].astype(np.float64),
    )


def _urgent_pressure(found: LowPressure) -> Bools:
    """Return which systems have an act-now or next-visit finding of their low-pressure control."""
    urgent = np.zeros(len(found.missing), dtype=bool)
    for judged in found.judged:
        bad = (judged.severity > 0) & (judged.severity <= Severity.NEXT_VISIT)
        urgent[judged.owner[bad]] = True
    return urgent | found.side.hold_contradicted
