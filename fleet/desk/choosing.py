"""Narrowing lists by names that people type or choose."""

from dataclasses import dataclass

from sqlalchemy import select
from sqlalchemy.orm import Session

from db.models import Customer, Site, System
from db.pages import FindingFilter
from fleet.desk.opened import Desk
from fleet.dictionary.words import Severity, Strategy
from fleet.errors import UnknownNameError, UsageError


@dataclass(frozen=True, slots=True)
class Named:
    """A choice: the value a filter takes, and what people read."""

    value: int | str
    label: str


def narrowed_to(
    desk: Desk, customer: str | None = None, site: str | None = None, severity: str | None = None
) -> FindingFilter:
    """Return the filter for names typed on the command line.

    Raises:
        UnknownNameError: a name the register does not know; the nearest are offered.
        UsageError: the site's name stands at several customers.
    """
    return FindingFilter(
        customer_id=None if customer is None else _customer_id(desk, customer),
        site_id=None if site is None else _site_id(desk, site, customer),
        severity=None if severity is None else _severity(severity),
    )


def _customer_id(desk: Desk, tag: str) -> int:
    with Session(desk.engine) as session:
        known = {row.customer: row.id for row in session.scalars(select(Customer))}
    if tag not in known:
        raise UnknownNameError("customer", tag, known, where="--customer")
    return known[tag]


def _site_id(desk: Desk, tag: str, customer: str | None) -> int:
    query = select(Site.id, Site.site, Customer.customer).join(Customer, Customer.id == Site.customer_id)
    with Session(desk.engine) as session:
        rows = session.execute(query).all()
    found = [(key, owner) for key, name, owner in rows if name == tag and customer in {None, owner}]
    if not found:
        raise UnknownNameError("site", tag, {name for _, name, _ in rows}, where="--site")
    if len(found) > 1:
        owners = ", ".join(sorted(owner for _, owner in found))
        raise UsageError(f"{tag!r} is a site of {owners}: give --customer too.", where="--site")
    return found[0][0]


def _severity(word: str) -> int:
    known = {severity.value_name: int(severity) for severity in Severity}
    if word not in known:
        raise UnknownNameError("severity", word, known, where="--severity")
    return known[word]


def customers(desk: Desk) -> tuple[Named, ...]:
    """Return the customers to choose from, by name."""
    with Session(desk.engine) as session:
        rows = session.execute(select(Customer.id, Customer.name).order_by(Customer.name)).all()
    return tuple(Named(key, name) for key, name in rows)


def sites(desk: Desk, customer_id: int | None) -> tuple[Named, ...]:
    """Return the sites of a customer, of all without one."""
    query = select(Site.id, Site.site).order_by(Site.site)
    if customer_id is not None:
        query = query.where(Site.customer_id == customer_id)
    with Session(desk.engine) as session:
        return tuple(Named(key, name) for key, name in session.execute(query).all())


def refrigerants(desk: Desk) -> tuple[Named, ...]:
    """Return the refrigerants that the register holds."""
    query = select(System.refrigerant).where(System.refrigerant.is_not(None)).distinct()
    with Session(desk.engine) as session:
        names = sorted(name for name in session.scalars(query) if name)
    return tuple(Named(name, name) for name in names)


def strategies() -> tuple[Named, ...]:
    """Return the control strategies."""
    return tuple(Named(strategy.value, strategy.words) for strategy in Strategy)


def severities() -> tuple[Named, ...]:
    """Return the severities, worst first."""
    return tuple(Named(int(severity), severity.words) for severity in Severity)
