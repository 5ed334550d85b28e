"""The register as lists: customers, sites, systems and boxes, searched, narrowed, page by page."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, fields, replace
from datetime import date
from enum import StrEnum
from typing import Any, Generic, TypeVar

from sqlalchemy import Connection

from db.register import (
    BOXES,
    CUSTOMERS,
    SITES,
    SYSTEMS,
    ListKind,
    RegisterFilter,
    RegisterSort,
    anchors,
    page,
    page_at,
)
from db.register_rows import BoxRow, CustomerRow, Row, SiteRow, SystemRow
from fleet.desk.list_facts import (
    facts_of_boxes,
    facts_of_customers,
    facts_of_sites,
    facts_of_systems,
    overdue_of_customers,
)
from fleet.desk.list_rows import BoxLine, CustomerLine, SiteLine, SystemLine
from fleet.desk.opened import Desk
from fleet.desk.paging import PAGE_ROWS, Anchors, Page, PageSource
from fleet.dictionary.words import BoxKind, Strategy
from fleet.units import Dimension, UnitSystem, show

__all__ = [
    "Asked",
    "Listed",
    "PlaceFilter",
    "RegisterSort",
    "asked",
    "box_kinds",
    "narrowing",
    "register_source",
    "sites_of",
]

Line = TypeVar("Line")


class Listed(StrEnum):
    """What a list of the register holds."""

    SYSTEMS = "systems"
    BOXES = "boxes"
    SITES = "sites"
    CUSTOMERS = "customers"


@dataclass(frozen=True, slots=True)
class PlaceFilter(RegisterFilter):
    """What a list is narrowed to; what its rows do not have narrows nothing."""

    refrigerant: str | None = None
    strategy: str | None = None
    kind: str | None = None


@dataclass(frozen=True, slots=True)
class Asked:
    """Which list, narrowed to what, in which order."""

    listed: Listed = Listed.SYSTEMS
    narrowed: PlaceFilter = PlaceFilter()
    sort: RegisterSort = RegisterSort.PLACE


class RegisterSource(Generic[Row, Line]):
    """The pages of one list of the register; made anew when a filter changes."""

    def __init__(
        self,
        desk: Desk,
        kind: ListKind[Row],
        asked: Asked,
        make: Callable[[Desk, Connection, Sequence[Row]], tuple[Line, ...]],
    ) -> None:
        self._desk, self._kind, self._make = desk, kind, make
        self._narrowed, self._sort = asked.narrowed, asked.sort

    def first(self, limit: int) -> Page[Line]:
        """Return the first rows, without counting anything."""
        with self._desk.engine.connect() as connection:
            found = page(
                connection, self._kind, self._narrowed, self._sort, self._desk.today_day, limit=limit + 1
            )
            return Page(self._make(self._desk, connection, found.rows[:limit]), len(found.rows) > limit)

    def anchors(self) -> Anchors:
        """Count the rows and note the first key of each page."""
        with self._desk.engine.connect() as connection:
            found = anchors(
                connection, self._kind, self._narrowed, self._sort, self._desk.today_day, step=PAGE_ROWS
            )
        return Anchors(found.total, found.keys)

    def page(self, index: int, anchors: Anchors) -> Sequence[Line]:
        """Return one page."""
        key = anchors.keys[index]
        assert isinstance(key, tuple)
        with self._desk.engine.connect() as connection:
            found = page_at(
                connection, self._kind, self._narrowed, self._sort, self._desk.today_day, key, limit=PAGE_ROWS
            )
            return self._make(self._desk, connection, found.rows)


_ON_SYSTEM = {"refrigerant": "y.refrigerant", "strategy": "y.strategy"}
_SYSTEMS = replace(SYSTEMS, narrowed_on={**SYSTEMS.narrowed_on, **_ON_SYSTEM})
_BOXES = replace(BOXES, narrowed_on={**BOXES.narrowed_on, **_ON_SYSTEM, "kind": "b.kind"})


def narrowing(listed: Listed) -> frozenset[str]:
    """Return the fields of a filter that narrow a list."""
    if listed is Listed.CUSTOMERS:
        return frozenset({"customer_id"})
    if listed is Listed.SITES:
        return frozenset({"customer_id", "site_id"})
    on_boxes = frozenset({"kind"}) if listed is Listed.BOXES else frozenset()
    return on_boxes | {"customer_id", "site_id", "refrigerant", "strategy"}


def asked(listed: Listed, chosen: Mapping[str, Any], search: str, sort: RegisterSort) -> Asked:
    """Return what to ask for choices made in a sentence; those that the list does not have are left aside."""
    known = {field.name for field in fields(PlaceFilter)} & narrowing(listed)
    narrowed = {name: value for name, value in chosen.items() if name in known}
    return Asked(listed, PlaceFilter(search=search, **narrowed), sort)


def register_source(desk: Desk, wanted: Asked) -> PageSource[Any]:
    """Return the pages of a list; its rows are lines of `fleet.desk.list_rows`."""
    if wanted.listed is Listed.CUSTOMERS:
        return RegisterSource(desk, CUSTOMERS, wanted, _customers)
    if wanted.listed is Listed.SITES:
        return RegisterSource(desk, SITES, wanted, _sites)
    if wanted.listed is Listed.BOXES:
        return RegisterSource(desk, _BOXES, wanted, _boxes)
    return RegisterSource(desk, _SYSTEMS, wanted, _systems)


def sites_of(desk: Desk, customer_id: int, limit: int) -> Page[SiteLine]:
    """Return the sites of a customer, the worst first."""
    wanted = Asked(Listed.SITES, PlaceFilter(customer_id=customer_id), RegisterSort.WORST)
    return RegisterSource(desk, SITES, wanted, _sites).first(limit)


# From rows to lines ----------------------------------------------------------------------------------------


def _customers(desk: Desk, connection: Connection, rows: Sequence[CustomerRow]) -> tuple[CustomerLine, ...]:
    ids = [row.id for row in rows]
    facts = facts_of_customers(connection, ids)
    overdue = overdue_of_customers(connection, ids, desk.today_day)
    return tuple(_customer(row, facts[row.id], overdue.get(row.id, 0)) for row in rows)


def _customer(row: CustomerRow, facts: tuple[Any, ...], overdue: int) -> CustomerLine:
    manager_name, manager, sites, systems, boxes = facts
    return CustomerLine(
        row.id,
        row.customer,
        row.name,
        row.contact or "",
        row.phone or "",
        manager_name or manager or "",
        _day(row.review_due),
        sites,
        systems,
        boxes,
        overdue,
        row.open_findings,
    )


def _sites(desk: Desk, connection: Connection, rows: Sequence[SiteRow]) -> tuple[SiteLine, ...]:
    facts = facts_of_sites(connection, [row.id for row in rows])
    return tuple(_site(row, facts[row.id], desk.units) for row in rows)


def _site(row: SiteRow, facts: tuple[Any, ...], units: UnitSystem) -> SiteLine:
    elevation_m, design_cold_k, systems, boxes = facts
    return SiteLine(
        row.id,
        row.customer_id,
        row.customer,
        row.customer_name,
        row.site,
        row.name or "",
        row.address or "",
        _shown(elevation_m, Dimension.LENGTH, units),
        _shown(design_cold_k, Dimension.TEMPERATURE, units),
        systems,
        boxes,
        row.open_findings,
    )


def _systems(desk: Desk, connection: Connection, rows: Sequence[SystemRow]) -> tuple[SystemLine, ...]:
    facts = facts_of_systems(connection, [row.id for row in rows])
    return tuple(_system(row, facts.get(row.id, (0,))[0], desk.units) for row in rows)


def _system(row: SystemRow, boxes: int, units: UnitSystem) -> SystemLine:
    return SystemLine(
        row.id,
        row.site_id,
        row.customer_id,
        row.customer,
        row.customer_name,
        row.site,
        row.site_name or "",
        row.system,
        row.name or "",
        row.refrigerant or "",
        strategy_words(row.strategy),
        _words(row.form),
        _words(row.status),
        _words(row.placement),
        _shown(row.charge_kg, Dimension.MASS, units),
        boxes,
        row.open_findings,
    )


def _boxes(desk: Desk, connection: Connection, rows: Sequence[BoxRow]) -> tuple[BoxLine, ...]:
    facts = facts_of_boxes(connection, [row.id for row in rows])
    return tuple(_box(row, facts[row.id], desk.units) for row in rows)


def _box(row: BoxRow, facts: tuple[Any, ...], units: UnitSystem) -> BoxLine:
    strategy, setpoint_k = facts
    return BoxLine(
        row.id,
        row.system_id,
        row.customer,
        row.customer_name,
        row.site,
        row.site_name or "",
        row.system,
        row.box,
        row.name or "",
        kind_words(row.kind),
        _words(row.stored),
        _shown(setpoint_k, Dimension.TEMPERATURE, units),
        row.refrigerant or "",
        strategy_words(strategy),
        row.open_findings,
    )


def strategy_words(value: str | None) -> str:
    """Return a strategy as people read it, empty where none is recorded."""
    return Strategy(value).words if value else ""


def kind_words(value: str | None) -> str:
    """Return the kind of a box as people read it, empty where none is recorded."""
    return BoxKind(value).words if value else ""


def box_kinds() -> tuple[tuple[str, str], ...]:
    """Return the kinds of boxes to choose from: value and words."""
    return tuple((kind.value, kind.words) for kind in BoxKind)


def _words(value: str | None) -> str:
    return (value or "").replace("-", " ")


def _shown(value_si: float | None, dimension: Dimension, units: UnitSystem) -> str:
    return "" if value_si is None else show(value_si, dimension, units)


def _day(value: date | str | None) -> date | None:
    return date.fromisoformat(value) if isinstance(value, str) else value
