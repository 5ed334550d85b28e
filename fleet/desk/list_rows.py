"""The rows of the lists of customers, sites, systems and boxes, ready to be shown."""

from dataclasses import dataclass
from datetime import date

OpenFindings = tuple[int, int, int, int]
"""How many findings of each severity are open, the worst first."""


def worst_of(found: OpenFindings) -> int:
    """Return the worst severity that is open, 0 where nothing is.

    >>> worst_of((0, 2, 0, 1)), worst_of((0, 0, 0, 0))
    (2, 0)
    """
    return next((severity for severity, count in enumerate(found, 1) if count), 0)


@dataclass(frozen=True, slots=True)
class CustomerLine:
    """A customer with what belongs to it."""

    customer_id: int
    customer: str
    name: str
    contact: str
    phone: str
    account_manager: str
    review_due: date | None
    sites: int
    systems: int
    boxes: int
    overdue: int
    """Preventive checks that are overdue."""
    found: OpenFindings


@dataclass(frozen=True, slots=True)
class SiteLine:
    """A site with what stands on it."""

    site_id: int
    customer_id: int
    customer: str
    customer_name: str
    site: str
    name: str
    address: str
    elevation: str
    design_cold: str
    systems: int
    boxes: int
    found: OpenFindings


@dataclass(frozen=True, slots=True)
class SystemLine:
    """A system; what nobody recorded is empty."""

    system_id: int
    site_id: int
    customer_id: int
    customer: str
    customer_name: str
    site: str
    site_name: str
    system: str
    name: str
    refrigerant: str
    strategy: str
    form: str
    status: str
    placement: str
    charge: str
    boxes: int
    found: OpenFindings


@dataclass(frozen=True, slots=True)
class BoxLine:
    """A box; the findings are those of its system."""

    box_id: int
    system_id: int
    customer: str
    customer_name: str
    site: str
    site_name: str
    system: str
    box: str
    name: str
    kind: str
    stored: str
    setpoint: str
    refrigerant: str
    strategy: str
    found: OpenFindings


RegisterLine = CustomerLine | SiteLine | SystemLine | BoxLine
