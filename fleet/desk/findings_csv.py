"""A list of findings as a file, each with its reason in words."""

from collections.abc import Iterator, Sequence

from db.driver import day_of
from fleet.audit.rules import rule
from fleet.desk.csv_files import CsvList
from fleet.desk.documents import number
from fleet.desk.findings import FindingFilter, FindingSort, FindingSource, FindingView, dimension_of
from fleet.desk.opened import Desk
from fleet.desk.sentences import sentences
from fleet.units import Dimension, unit_shown

_HEADER = (
    *("severity", "customer", "customer name", "site", "system", "part", "rule", "setting", "verdict"),
    *("recorded", "low", "high", "preferred", "unit", "out by", "out by saturation", "reason", "first seen"),
)


def findings_csv(desk: Desk, narrowed: FindingFilter, sort: FindingSort) -> CsvList[FindingView]:
    """Return the open findings of a filter, in an order, as they are written to a file."""

    def cells(views: Sequence[FindingView]) -> Iterator[list[str]]:
        reasons = sentences(desk, [view.row for view in views])
        for view, reason in zip(views, reasons, strict=True):
            yield _cells(desk, view, reason)

    return CsvList("findings", FindingSource(desk, narrowed, sort), _HEADER, cells)


def _cells(desk: Desk, view: FindingView, reason: str) -> list[str]:
    row = view.row
    dimension, days = dimension_of(row), row.rule == "check_overdue"
    difference = Dimension.PRESSURE_DIFFERENCE if dimension is Dimension.PRESSURE else dimension
    unit = unit_shown(dimension, desk.units).symbol if dimension else ""

    def figure(value: float | None, of: Dimension | None) -> str:
        shown = number(value, of, desk.units)
        return "" if shown is None else f"{shown:g}"

    def figure_or_day(value: float | None) -> str:
        if not days:
            return figure(value, dimension)
        return "" if value is None else day_of(int(value)).isoformat()

    return [
        *(view.severity_words, row.customer, row.customer_name, row.site, row.system, row.part),
        *(rule(row.rule).label, row.setting, row.verdict),
        *(figure_or_day(row.recorded), figure(row.low, dimension), figure_or_day(row.high)),
        *(figure(row.preferred, dimension), "date" if days else unit),
        *(figure(row.out_by, difference), figure(row.out_by_saturation_k, Dimension.TEMPERATURE_DIFFERENCE)),
        *(reason, row.first_seen.isoformat() if row.first_seen else ""),
    ]
