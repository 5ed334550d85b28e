"""The customers with their open findings, in a list that is short enough to be sorted whole."""

from collections.abc import Sequence
from enum import StrEnum

from fleet.desk.list_rows import CustomerLine
from fleet.desk.lists import Asked, Listed, PlaceFilter, register_source
from fleet.desk.opened import Desk
from fleet.desk.paging import PageSource, every_page


class CustomerSort(StrEnum):
    """The orders of the customers."""

    WORST = "worst"
    NAME = "name"
    REVIEW = "review"


def customers_sorted(
    desk: Desk, sort: CustomerSort, search: str = "", manager: str | None = None
) -> tuple[CustomerLine, ...]:
    """Return all customers that a search finds and one account manager looks after, in an order."""
    source: PageSource[CustomerLine] = register_source(
        desk, Asked(Listed.CUSTOMERS, PlaceFilter(search=search))
    )
    lines = [line for page in every_page(source, source.anchors()) for line in page]
    kept = [line for line in lines if manager is None or line.account_manager == manager]
    return tuple(in_order(kept, sort))


def in_order(lines: Sequence[CustomerLine], sort: CustomerSort) -> list[CustomerLine]:
    """Return customers in an order; equals keep theirs, which is by name."""
    if sort is CustomerSort.WORST:
        return sorted(lines, key=lambda line: [-count for count in line.found])
    if sort is CustomerSort.REVIEW:
        return sorted(lines, key=lambda line: (line.review_due is None, line.review_due))
    return list(lines)


def account_managers(desk: Desk) -> tuple[str, ...]:
    """Return who looks after customers, by name."""
    managers = {line.account_manager for line in customers_sorted(desk, CustomerSort.NAME)}
    return tuple(sorted(managers - {""}))
