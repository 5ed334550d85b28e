"""The lists of the register as files: what is shown, and what tells one row from another."""

from collections.abc import Callable
from typing import Any

from fleet.desk.csv_files import CsvColumn, CsvList, csv_list
from fleet.desk.list_rows import BoxLine, CustomerLine, SiteLine, SystemLine
from fleet.desk.lists import Listed
from fleet.desk.paging import PageSource

_SEVERITIES = ("act now", "next visit", "watch", "note")


def _field(title: str, name: str) -> CsvColumn[Any]:
    """Return a column that holds a field as it is; nothing recorded is an empty cell."""

    def cell(line: Any) -> str:
        value = getattr(line, name)
        return "" if value is None else str(value)

    return CsvColumn(title, cell)


def _count(place: int) -> Callable[[Any], str]:
    return lambda line: str(line.found[place])


_FOUND: tuple[CsvColumn[Any], ...] = tuple(
    CsvColumn(title, _count(place)) for place, title in enumerate(_SEVERITIES)
)
_CUSTOMER = (_field("customer", "customer"), _field("customer name", "customer_name"))

_COLUMNS: dict[type, tuple[CsvColumn[Any], ...]] = {
    CustomerLine: (
        _field("customer", "customer"),
        *(_field(name.replace("_", " "), name) for name in ("name", "contact", "phone", "account_manager")),
        _field("review due", "review_due"),
        *(_field(name, name) for name in ("sites", "systems", "boxes")),
        _field("checks overdue", "overdue"),
        *_FOUND,
    ),
    SiteLine: (
        *_CUSTOMER,
        *(_field(name.replace("_", " "), name) for name in ("site", "name", "address")),
        *(_field(name.replace("_", " "), name) for name in ("elevation", "design_cold", "systems", "boxes")),
        *_FOUND,
    ),
    SystemLine: (
        *_CUSTOMER,
        *(_field(name, name) for name in ("site", "system", "name", "refrigerant", "strategy", "form")),
        *(_field(name, name) for name in ("status", "placement", "charge", "boxes")),
        *_FOUND,
    ),
    BoxLine: (
        *_CUSTOMER,
        *(_field(name, name) for name in ("site", "system", "box", "name", "kind", "stored", "setpoint")),
        *(_field(name, name) for name in ("refrigerant", "strategy")),
        *_FOUND,
    ),
}
_LINE_OF = {
    Listed.CUSTOMERS: CustomerLine,
    Listed.SITES: SiteLine,
    Listed.SYSTEMS: SystemLine,
    Listed.BOXES: BoxLine,
}


def register_csv(listed: Listed, source: PageSource[Any]) -> CsvList[Any]:
    """Return a list of the register as it is written to a file."""
    return csv_list(listed.value, source, _COLUMNS[_LINE_OF[listed]])
