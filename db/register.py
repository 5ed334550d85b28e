"""Lists of customers, sites, systems and boxes: searched as one types, by place or the worst first."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from enum import StrEnum
from typing import Any, Generic

from sqlalchemy import Connection

from db.keyset import Anchors, Key, Levels, Listing, keys_of, rows_from
from db.pages import PAGE_ROWS, open_on
from db.register_rows import BoxRow, CustomerRow, Row, SiteRow, SystemRow, with_findings
from db.search import search_condition

_NOTHING = 9
"""Sorts places without an open finding after those with one."""


class RegisterSort(StrEnum):
    """The orders of the register's lists."""

    PLACE = "place"
    WORST = "worst"


@dataclass(frozen=True, slots=True)
class RegisterFilter:
    """What a list of the register is narrowed to; None and empty text narrow nothing."""

    customer_id: int | None = None
    site_id: int | None = None
    system_id: int | None = None
    search: str = ""


@dataclass(frozen=True, slots=True)
class RegisterPage(Generic[Row]):
    """Some rows of a list, each with its key in the list's order."""

    rows: tuple[Row, ...]
    keys: tuple[Key, ...]


@dataclass(frozen=True, slots=True)
class ListKind(Generic[Row]):
    """One list: what its rows are, where they come from, what is searched, how they lie by place."""

    row: Callable[..., Row]
    columns: tuple[str, ...]
    source: str
    joined: tuple[str, ...]
    narrowed_on: dict[str, str]
    searched: tuple[str, ...]
    levels: Levels
    owner: str
    """The findings' column whose value stands at ``owner_place`` in a row."""
    owner_place: int = 0


_CUSTOMER = ("c.customer", "c.name")
_SITE = ("s.site", "s.name")
_BY_CUSTOMER: Levels = (("c.name", "c.id"),)
_BY_SITE: Levels = (*_BY_CUSTOMER, ("s.site", "s.id"))
_BY_SYSTEM: Levels = (*_BY_SITE, ("y.system", "y.id"))
_SITES = "customers c CROSS JOIN sites s"
_SYSTEMS = f"{_SITES} CROSS JOIN systems y"
_OF_CUSTOMER, _OF_SITE, _OF_SYSTEM = "s.customer_id = c.id", "y.site_id = s.id", "b.system_id = y.id"

CUSTOMERS = ListKind(
    CustomerRow,
    ("c.id", *_CUSTOMER, "c.contact", "c.phone", "c.review_due"),
    "customers c",
    (),
    {"customer_id": "c.id"},
    (*_CUSTOMER, "c.contact"),
    _BY_CUSTOMER,
    "customer_id",
)
SITES = ListKind(
    SiteRow,
    ("s.id", "s.customer_id", *_SITE, "s.address", "s.jurisdiction", *_CUSTOMER),
    _SITES,
    (_OF_CUSTOMER,),
    {"customer_id": "c.id", "site_id": "s.id"},
    (*_SITE, "s.address", *_CUSTOMER),
    _BY_SITE,
    "site_id",
)
SYSTEMS = ListKind(
    SystemRow,
    (
        *("y.id", "y.site_id", "s.customer_id", "y.system", "y.name", "y.form", "y.status"),
        *("y.refrigerant", "y.strategy", "y.charge_kg", "y.placement", *_SITE, *_CUSTOMER),
    ),
    _SYSTEMS,
    (_OF_CUSTOMER, _OF_SITE),
    {"customer_id": "c.id", "site_id": "s.id", "system_id": "y.id"},
    ("y.system", "y.name", "y.refrigerant", *_SITE, *_CUSTOMER),
    _BY_SYSTEM,
    "system_id",
)
BOXES = ListKind(
    BoxRow,
    (
        *("b.id", "b.system_id", "b.box", "b.name", "b.kind", "b.stored", "b.suction_group"),
        *("y.system", "y.refrigerant", *_SITE, *_CUSTOMER),
    ),
    f"{_SYSTEMS} CROSS JOIN boxes b",
    (_OF_CUSTOMER, _OF_SITE, _OF_SYSTEM),
    {"customer_id": "c.id", "site_id": "s.id", "system_id": "y.id"},
    ("b.box", "b.name", "y.system", "y.name", "y.refrigerant", *_SITE, *_CUSTOMER),
    (*_BY_SYSTEM, ("b.box", "b.id")),
    "system_id",
    1,
)


def page(
    connection: Connection,
    kind: ListKind[Row],
    narrowed: RegisterFilter,
    sort: RegisterSort,
    today_day: int,
    *,
    after: Key | None = None,
    limit: int = PAGE_ROWS,
) -> RegisterPage[Row]:
    """Return the rows after a key, the first ones without."""
    return _page(connection, kind, narrowed, sort, today_day, after, limit, inclusive=False)


def page_at(
    connection: Connection,
    kind: ListKind[Row],
    narrowed: RegisterFilter,
    sort: RegisterSort,
    today_day: int,
    key: Key,
    *,
    limit: int = PAGE_ROWS,
) -> RegisterPage[Row]:
    """Return the page that begins with the row of ``key``."""
    return _page(connection, kind, narrowed, sort, today_day, key, limit, inclusive=True)


def anchors(
    connection: Connection,
    kind: ListKind[Row],
    narrowed: RegisterFilter,
    sort: RegisterSort,
    today_day: int,
    *,
    step: int = PAGE_ROWS,
) -> Anchors:
    """Return the first key of each page of ``step`` rows, and the number of rows."""
    found = []
    total = 0
    for key in _keys(connection, _listings(connection, kind, narrowed, sort, today_day)):
        if total % step == 0:
            found.append(key)
        total += 1
    return Anchors(tuple(found), total)


def _keys(connection: Connection, listings: list[Listing]) -> Iterator[Key]:
    for place, listing in enumerate(listings):
        for key in keys_of(connection, listing):
            yield (place, *key)


def _page(
    connection: Connection,
    kind: ListKind[Row],
    narrowed: RegisterFilter,
    sort: RegisterSort,
    today_day: int,
    key: Key | None,
    limit: int,
    *,
    inclusive: bool,
) -> RegisterPage[Row]:
    """Read the listings one after another; the first value of a key says in which it lies."""
    listings = _listings(connection, kind, narrowed, sort, today_day)
    first = 0 if key is None else int(key[0])
    found: list[tuple[Key, tuple[Any, ...]]] = []
    for place in range(first, len(listings)):
        start = key[1:] if key is not None and place == first else None
        if len(found) < limit:
            rows = rows_from(connection, listings[place], start, limit - len(found), inclusive=inclusive)
            found += [((place, *row_key), row) for row_key, row in rows]
    rows_found = [row for _, row in found]
    made = with_findings(connection, kind.row, rows_found, kind.owner, kind.owner_place, today_day)
    return RegisterPage(made, tuple(row_key for row_key, _ in found))


def _listings(
    connection: Connection, kind: ListKind[Row], narrowed: RegisterFilter, sort: RegisterSort, today_day: int
) -> list[Listing]:
    condition, values = search_condition(connection, narrowed.search, kind.searched)
    where = [*kind.joined, condition]
    bound: dict[str, Any] = dict(values)
    for name, expression in kind.narrowed_on.items():
        value = getattr(narrowed, name)
        if value is not None:
            where.append(f"{expression} = :{name}")
            bound[name] = value
    by_place = Listing(kind.columns, kind.source, tuple(where), kind.levels, bound)
    if sort is RegisterSort.PLACE:
        return [by_place]
    if kind.owner == "system_id":
        return [_led_by_findings(connection, by_place, narrowed, today_day), _without(by_place, today_day)]
    return [_worst_of_few(by_place, kind, today_day)]


def _worst_of_few(by_place: Listing, kind: ListKind[Row], today_day: int) -> Listing:
    """Order customers or sites by their worst finding, which is looked up for each of them."""
    worst = (
        f"coalesce((SELECT f.severity FROM findings f WHERE f.{kind.owner} = {kind.columns[0]} "
        f"AND {open_on(today_day)} ORDER BY f.severity LIMIT 1), {_NOTHING})"
    )
    order = ((worst, *by_place.order),)
    return Listing(by_place.columns, by_place.source, by_place.where, order, by_place.values)


def _led_by_findings(
    connection: Connection, by_place: Listing, narrowed: RegisterFilter, today_day: int
) -> Listing:
    """Order systems (or their boxes) by their worst finding: it leads, through the findings' own index."""
    own = ("severity", "far", "part", "rule", "setting", "from_day")
    mine, other = (", ".join(f"{alias}.{name}" for name in own) for alias in ("f", "g"))
    no_worse = (
        "NOT EXISTS (SELECT 1 FROM findings g WHERE g.system_id = f.system_id "
        f"AND {open_on(today_day, 'g')} AND ({other}) < ({mine}))"
    )
    index, by_index = "ix_findings_worst", []
    for name in ("customer_id", "site_id"):
        if getattr(narrowed, name) is not None:
            index = f"ix_findings_{name.removesuffix('_id')}"
            by_index.append(f"f.{name} = :{name}")
    hint = f" INDEXED BY {index}" if connection.dialect.name == "sqlite" else ""
    boxes = " CROSS JOIN boxes b" if " boxes b" in by_place.source else ""
    source = f"findings f{hint} CROSS JOIN systems y CROSS JOIN sites s CROSS JOIN customers c{boxes}"
    if narrowed.search:
        # A search finds few: their findings are sorted, instead of all being met in order.
        source = f"{_SYSTEMS}{boxes} CROSS JOIN findings f"
    worst = tuple(
        f"f.{name}" for name in ("severity", "far", "system_id", "part", "rule", "setting", "from_day")
    )
    order = ((*worst, *(("b.box", "b.id") if boxes else ())),)
    where = (open_on(today_day), *by_index, "y.id = f.system_id", *by_place.where, no_worse)
    return Listing(by_place.columns, source, where, order, by_place.values)


def _without(by_place: Listing, today_day: int) -> Listing:
    """Order the systems without an open finding by place."""
    nothing = f"NOT EXISTS (SELECT 1 FROM findings f WHERE f.system_id = y.id AND {open_on(today_day)})"
    where = (*by_place.where, nothing)
    return Listing(by_place.columns, by_place.source, where, by_place.levels, by_place.values)
