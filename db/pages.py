"""Pages of findings: filtered, in one of a closed list of orders, each with its index."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date
from enum import StrEnum
from typing import Any

from sqlalchemy import Connection, text

from db.driver import id_list
from db.findings import FINDING_FIELDS
from db.keyset import Anchors, Key, Levels, Listing, anchors_of, rows_from
from db.search import search_condition

PAGE_ROWS = 200
_FEW_FINDINGS = 2_000
_FEW_SYSTEMS = 2_000
"""Up to so many systems that a search finds are looked up one by one; more are met while scanning."""


class FindingSort(StrEnum):
    """The orders of lists of findings."""

    WORST = "worst"
    PLACE = "place"
    RULE = "rule"


@dataclass(frozen=True, slots=True)
class FindingFilter:
    """What a list of findings is narrowed to; None and empty text narrow nothing."""

    customer_id: int | None = None
    site_id: int | None = None
    system_id: int | None = None
    severity: int | None = None
    rule: str | None = None
    refrigerant: str | None = None
    strategy: str | None = None
    search: str = ""


@dataclass(frozen=True, slots=True)
class FindingRow:
    """One finding with the names of where it is; numbers in SI."""

    system_id: int
    part: str
    rule: str
    setting: str
    from_day: int
    until_day: int | None
    severity: int
    far: float
    verdict: str
    recorded: float | None
    low: float | None
    high: float | None
    preferred: float | None
    out_by: float | None
    out_by_saturation_k: float | None
    low_code: str | None
    high_code: str | None
    detail: str | None
    also: str | None
    customer_id: int
    site_id: int
    refrigerant: str | None
    strategy: str | None
    customer: str
    customer_name: str
    site: str
    site_name: str | None
    system: str
    system_name: str | None
    first_seen: date | None
    """None where no audit has run since it began to hold."""


@dataclass(frozen=True, slots=True)
class FindingPage:
    """Some rows of a list, each with its key in the list's order."""

    rows: tuple[FindingRow, ...]
    keys: tuple[Key, ...]


_COLUMNS = (
    *(f"f.{name}" for name in FINDING_FIELDS),
    "c.customer",
    "c.name",
    "s.site",
    "s.name",
    "y.system",
    "y.name",
    "n.first_seen",
)
_FIRST_SEEN = (
    "LEFT JOIN first_seen n ON n.system_id = f.system_id AND n.part = f.part "
    "AND n.rule = f.rule AND n.setting = f.setting"
)
_JOINED = ("y.id = f.system_id", "s.id = y.site_id", "c.id = s.customer_id")
# The order of a CROSS JOIN is the order in which SQLite nests its loops, which keeps the rows sorted.
_FROM_FINDINGS = "findings f{hint} CROSS JOIN systems y CROSS JOIN sites s CROSS JOIN customers c"
_FROM_PLACES = "customers c CROSS JOIN sites s CROSS JOIN systems y CROSS JOIN findings f"
WORST = ("f.severity", "f.far", "f.system_id", "f.part", "f.rule", "f.setting", "f.from_day")
_BY_RULE = ("f.rule", "f.severity", "f.far", "f.system_id", "f.part", "f.setting", "f.from_day")
_WITHIN_SYSTEM = ("f.severity", "f.far", "f.part", "f.rule", "f.setting", "f.from_day")
_PLACE: Levels = (("c.name", "c.id"), ("s.site", "s.id"), ("y.system", "y.id"), _WITHIN_SYSTEM)
_FILTERED_ON = {
    "customer_id": "f.customer_id",
    "site_id": "f.site_id",
    "system_id": "f.system_id",
    "severity": "f.severity",
    "rule": "f.rule",
    "refrigerant": "f.refrigerant",
    "strategy": "f.strategy",
}
# By place, customer and site narrow the outer loops; the rest must not tempt SQLite to leave the keys of
# the systems for an index of the findings, which it would then read once for every system.
_FILTERED_BY_PLACE = {
    "customer_id": "c.id",
    "site_id": "s.id",
    "system_id": "y.id",
    "severity": "f.severity + 0",
    "rule": "f.rule || ''",
    "refrigerant": "f.refrigerant || ''",
    "strategy": "f.strategy || ''",
}
SYSTEM_SEARCH = ("y.system", "y.name", "y.refrigerant", "s.site", "s.name", "c.customer", "c.name")


def page(
    connection: Connection,
    narrowed: FindingFilter,
    sort: FindingSort,
    today_day: int,
    *,
    after: Key | None = None,
    limit: int = PAGE_ROWS,
) -> FindingPage:
    """Return the rows after a key, the first ones without."""
    listing = _listing(connection, narrowed, sort, today_day)
    return _page(rows_from(connection, listing, after, limit, inclusive=False))


def page_at(
    connection: Connection,
    narrowed: FindingFilter,
    sort: FindingSort,
    today_day: int,
    key: Key,
    *,
    limit: int = PAGE_ROWS,
) -> FindingPage:
    """Return the page that begins with the row of ``key``."""
    listing = _listing(connection, narrowed, sort, today_day)
    return _page(rows_from(connection, listing, key, limit, inclusive=True))


def anchors(
    connection: Connection,
    narrowed: FindingFilter,
    sort: FindingSort,
    today_day: int,
    *,
    step: int = PAGE_ROWS,
) -> Anchors:
    """Return the first key of each page of ``step`` rows, and the number of rows."""
    return anchors_of(connection, _listing(connection, narrowed, sort, today_day), step)


def counts(connection: Connection, narrowed: FindingFilter, today_day: int) -> dict[int, int]:
    """Return the number of findings of each severity, those of the filter's severity aside."""
    listing = _listing(connection, replace(narrowed, severity=None), FindingSort.WORST, today_day)
    source = listing.source.split(" CROSS JOIN ")[0]
    conditions = " AND ".join(part for part in listing.where if part not in _JOINED)
    rows = connection.execute(
        text(f"SELECT f.severity, count(*) FROM {source} WHERE {conditions} GROUP BY f.severity"),
        dict(listing.values),
    )
    found = {row[0]: row[1] for row in rows}
    return {severity: found.get(severity, 0) for severity in range(1, 5)}


def open_on(today_day: int, alias: str = "f") -> str:
    """Return the condition for findings that hold on a day."""
    day = int(today_day)
    return f"{alias}.from_day <= {day} AND ({alias}.until_day IS NULL OR {alias}.until_day > {day})"


def _listing(connection: Connection, narrowed: FindingFilter, sort: FindingSort, today_day: int) -> Listing:
    where = [open_on(today_day)]
    values: dict[str, Any] = {}
    filtered = _FILTERED_BY_PLACE if sort is FindingSort.PLACE else _FILTERED_ON
    for name, expression in filtered.items():
        value = getattr(narrowed, name)
        if value is not None:
            where.append(f"{expression} = :{name}")
            values[name] = value
    found = _found_systems(connection, narrowed.search)
    if found is not None:
        systems = "y.id" if sort is FindingSort.PLACE else "f.system_id"
        where.append(f"{systems} IN ({id_list(found)})")
    source = _FROM_PLACES
    levels: Levels = _PLACE
    if sort is not FindingSort.PLACE:
        few = narrowed.system_id is not None or (found is not None and len(found) <= _FEW_SYSTEMS)
        hint = "" if few else _index(connection, narrowed, sort)
        on_sqlite = connection.dialect.name == "sqlite"
        source = _FROM_FINDINGS.format(hint=f" INDEXED BY {hint}" if hint and on_sqlite else "")
        levels = (WORST if sort is FindingSort.WORST else _BY_RULE,)
    return Listing(_COLUMNS, source, (*where, *_JOINED), levels, values, _FIRST_SEEN)


def _index(connection: Connection, narrowed: FindingFilter, sort: FindingSort) -> str:
    """Name the index to read by: SQLite has no statistics of the register to choose by.

    An index in the list's order stops as soon as the page is full, which is fast where many findings
    match. Where few can match it would read the whole list: then those few are read and sorted.
    """
    if narrowed.site_id is not None:
        return "ix_findings_site"
    if narrowed.customer_id is not None:
        return "ix_findings_customer"
    if narrowed.strategy is not None and narrowed.rule is not None:
        return "ix_findings_strategy"
    if narrowed.refrigerant is not None and (
        narrowed.strategy is not None or _are_few(connection, "refrigerant", narrowed.refrigerant)
    ):
        return "ix_findings_refrigerant"
    if narrowed.strategy is not None and _are_few(connection, "strategy", narrowed.strategy):
        return "ix_findings_strategy"
    if sort is FindingSort.RULE:
        return "ix_findings_rule"
    return "ix_findings_worst" if narrowed.rule is None else "ix_findings_rule"


def _are_few(connection: Connection, column: str, value: str) -> bool:
    """Tell whether so few findings have a value that they are sooner sorted than looked for."""
    counted = f"SELECT count(*) FROM (SELECT 1 FROM findings WHERE {column} = :value LIMIT {_FEW_FINDINGS})"
    return int(connection.execute(text(counted), {"value": value}).scalar() or 0) < _FEW_FINDINGS


def _found_systems(connection: Connection, typed: str) -> Sequence[int] | None:
    """Return the keys of the systems that a search finds, None without a search."""
    condition, values = search_condition(connection, typed, SYSTEM_SEARCH)
    if not condition:
        return None
    matching = (
        "SELECT y.id FROM systems y JOIN sites s ON s.id = y.site_id "
        f"JOIN customers c ON c.id = s.customer_id WHERE {condition}"
    )
    return connection.execute(text(matching), values).scalars().all()


def _page(found: list[tuple[Key, tuple[Any, ...]]]) -> FindingPage:
    rows = tuple(FindingRow(*(*values[:-1], _date(values[-1]))) for _, values in found)
    return FindingPage(rows, tuple(key for key, _ in found))


def _date(value: Any) -> date | None:
    return date.fromisoformat(value) if isinstance(value, str) else value
