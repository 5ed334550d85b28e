"""Findings as JSON: what ``coldround audit --json`` prints."""

from db.driver import day_of
from db.pages import FindingFilter, FindingRow
from fleet.desk.documents import Document, Json, number, sorted_counts, units_of
from fleet.desk.finding_views import dimension_of
from fleet.desk.findings import all_findings
from fleet.desk.opened import Desk
from fleet.desk.sentences import sentences
from fleet.dictionary.words import Severity
from fleet.units import Dimension, UnitSystem, unit_shown


def audit_document(desk: Desk, narrowed: FindingFilter) -> Document:
    """Return what `coldround audit --json` prints."""
    rows = all_findings(desk, narrowed)
    reasons = sentences(desk, rows)
    listed: list[Json] = [
        _finding_document(row, reason, desk.units) for row, reason in zip(rows, reasons, strict=True)
    ]
    tally: dict[int, int] = {}
    for row in rows:
        tally[row.severity] = tally.get(row.severity, 0) + 1
    return {
        "today": desk.today.isoformat(),
        "units": units_of(desk.units),
        "findings": listed,
        "counts": sorted_counts(tally),
    }


def _finding_document(row: FindingRow, reason: str, units: UnitSystem) -> Document:
    dimension = dimension_of(row)
    days = row.rule == "check_overdue"
    difference = Dimension.PRESSURE_DIFFERENCE if dimension is Dimension.PRESSURE else dimension
    return {
        "customer": row.customer,
        "site": row.site,
        "system": row.system,
        "part": row.part,
        "rule": row.rule,
        "setting": row.setting,
        "severity": Severity(row.severity).value_name,
        "verdict": row.verdict,
        "recorded": _day(row.recorded) if days else number(row.recorded, dimension, units),
        "low": number(row.low, dimension, units),
        "high": _day(row.high) if days else number(row.high, dimension, units),
        "preferred": number(row.preferred, dimension, units),
        "unit": "date" if days else (unit_shown(dimension, units).symbol if dimension else ""),
        "out_by": number(row.out_by, difference, units),
        "out_by_saturation": number(row.out_by_saturation_k, Dimension.TEMPERATURE_DIFFERENCE, units),
        "reason": reason,
        "also_settles": [code for code in (row.also or "").split(";") if code],
        "first_seen": row.first_seen.isoformat() if row.first_seen else None,
    }


def _day(number_of_day: float | None) -> str | None:
    return None if number_of_day is None else day_of(int(number_of_day)).isoformat()
