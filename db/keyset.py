"""Lists by key: a page begins after a row, not after a count, so page 5,000 costs what page 1 costs.

An order is made of levels, such as customer, site, system, finding. An index finds the rows after a key
only where the expressions of one level are compared together, so a page is asked for level by level,
from the innermost outwards, until it is full.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from typing import Any

from sqlalchemy import Connection, text

from db.driver import row_blocks

Key = tuple[Any, ...]
"""Where a row stands: the values of the expressions that the list is ordered by."""


Levels = tuple[tuple[str, ...], ...]
"""Expressions of an order, level after level."""


_KEYS_AT_ONCE = 1_024


@dataclass(frozen=True, slots=True)
class Listing:
    """A list's columns, source, conditions and order. The text is the program's own; values are bound."""

    columns: tuple[str, ...]
    source: str
    where: tuple[str, ...]
    levels: Levels
    values: Mapping[str, Any] = field(default_factory=dict)
    joined_for_columns: str = ""
    """Joins that neither filter nor order need."""

    @property
    def order(self) -> tuple[str, ...]:
        """All expressions of the order; none of them may be NULL, and together they are unique."""
        return tuple(expression for level in self.levels for expression in level)


@dataclass(frozen=True, slots=True)
class Anchors:
    """The key of the first row of each page, and how many rows there are."""

    keys: tuple[Key, ...]
    total: int


def rows_from(
    connection: Connection, listing: Listing, key: Key | None, limit: int, *, inclusive: bool
) -> list[tuple[Key, tuple[Any, ...]]]:
    """Return up to ``limit`` rows after (or from) a key, each with its own key."""
    width = len(listing.order)
    found: list[tuple[Key, tuple[Any, ...]]] = []
    for condition, values in _conditions(listing, key, inclusive=inclusive):
        statement = _statement(listing, condition)
        bound = {**listing.values, **values, "limit": limit - len(found)}
        rows = connection.execute(text(statement), bound)
        found.extend((tuple(row[:width]), tuple(row[width:])) for row in rows)
        if len(found) >= limit:
            break
    return found


def anchors_of(connection: Connection, listing: Listing, step: int) -> Anchors:
    """Return the first key of each page and the number of rows, in one scan."""
    found: list[Key] = []
    total = 0
    for key in keys_of(connection, listing):
        if total % step == 0:
            found.append(key)
        total += 1
    return Anchors(tuple(found), total)


def keys_of(connection: Connection, listing: Listing) -> Iterator[Key]:
    """Yield the key of every row, in order."""
    keys = ", ".join(f"{expression} AS k{place}" for place, expression in enumerate(listing.order))
    order = ", ".join(listing.order)
    statement = f"SELECT {keys} FROM {listing.source} WHERE {_all(listing.where)} ORDER BY {order}"
    result = connection.execute(text(statement), dict(listing.values))
    cursor = result.cursor
    assert cursor is not None
    for rows in row_blocks(connection, cursor, _KEYS_AT_ONCE):
        yield from rows
    result.close()


def _statement(listing: Listing, condition: str) -> str:
    order = ", ".join(listing.order)
    where = _all((*listing.where, condition))
    return (
        f"SELECT {', '.join((*listing.order, *listing.columns))} "
        f"FROM {listing.source} {listing.joined_for_columns} WHERE {where} ORDER BY {order} LIMIT :limit"
    )


def _all(conditions: tuple[str, ...]) -> str:
    return " AND ".join(condition for condition in conditions if condition) or "1 = 1"


def _conditions(
    listing: Listing, key: Key | None, *, inclusive: bool
) -> Iterator[tuple[str, dict[str, Any]]]:
    """Yield the conditions for the rows after a key, the innermost level first."""
    if key is None:
        yield "", {}
        return
    values = {f"key{place}": value for place, value in enumerate(key)}
    starts = [sum(map(len, listing.levels[:place])) for place in range(len(listing.levels))]
    for level, start in reversed(list(zip(listing.levels, starts, strict=True))):
        same = [f"{expression} = :key{place}" for place, expression in enumerate(listing.order[:start])]
        marks = ", ".join(f":key{start + place}" for place in range(len(level)))
        innermost = start + len(level) == len(key)
        sign = ">=" if inclusive and innermost else ">"
        used = {f"key{place}": values[f"key{place}"] for place in range(start + len(level))}
        yield " AND ".join([*same, f"({', '.join(level)}) {sign} ({marks})"]), used
