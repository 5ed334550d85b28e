"""The rows of the register's lists, each with how many findings of each severity are open."""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date
from typing import Any, TypeVar

from sqlalchemy import Connection

from db.driver import id_list
from db.pages import open_on

OpenFindings = tuple[int, int, int, int]
"""How many findings of each severity are open, the worst first."""
NOTHING_OPEN: OpenFindings = (0, 0, 0, 0)


@dataclass(frozen=True, slots=True)
class CustomerRow:
    """A customer in a list."""

    id: int
    customer: str
    name: str
    contact: str | None
    phone: str | None
    review_due: date | str | None
    """A day; as text where the driver knows no dates."""
    open_findings: OpenFindings


@dataclass(frozen=True, slots=True)
class SiteRow:
    """A site in a list."""

    id: int
    customer_id: int
    site: str
    name: str | None
    address: str | None
    jurisdiction: str | None
    customer: str
    customer_name: str
    open_findings: OpenFindings


@dataclass(frozen=True, slots=True)
class SystemRow:
    """A system in a list."""

    id: int
    site_id: int
    customer_id: int
    system: str
    name: str | None
    form: str | None
    status: str | None
    refrigerant: str | None
    strategy: str | None
    charge_kg: float | None
    placement: str | None
    site: str
    site_name: str | None
    customer: str
    customer_name: str
    open_findings: OpenFindings


@dataclass(frozen=True, slots=True)
class BoxRow:
    """A box in a list; the findings are those of its system."""

    id: int
    system_id: int
    box: str
    name: str | None
    kind: str | None
    stored: str | None
    suction_group: str | None
    system: str
    refrigerant: str | None
    site: str
    site_name: str | None
    customer: str
    customer_name: str
    open_findings: OpenFindings


RegisterRow = CustomerRow | SiteRow | SystemRow | BoxRow
Row = TypeVar("Row")


def with_findings(
    connection: Connection,
    kind: Callable[..., Row],
    rows: list[tuple[Any, ...]],
    owner: str,
    owner_place: int,
    today_day: int,
) -> tuple[Row, ...]:
    """Make rows of a list; ``owner`` is the findings' column that the value at ``owner_place`` keys."""
    counted = _open_findings(connection, owner, {row[owner_place] for row in rows}, today_day)
    return tuple(kind(*row, counted.get(row[owner_place], NOTHING_OPEN)) for row in rows)


def _open_findings(
    connection: Connection, owner: str, keys: set[int], today_day: int
) -> dict[int, OpenFindings]:
    if not keys:
        return {}
    counted: dict[int, list[int]] = {key: [0, 0, 0, 0] for key in keys}
    found = connection.exec_driver_sql(
        f"SELECT f.{owner}, f.severity, count(*) FROM findings f "
        f"WHERE f.{owner} IN ({id_list(keys)}) AND {open_on(today_day)} GROUP BY f.{owner}, f.severity"
    )
    for key, severity, count in found:
        counted[key][severity - 1] = count
    return {key: (each[0], each[1], each[2], each[3]) for key, each in counted.items()}
