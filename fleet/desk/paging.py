"""Where the rows of a long list come from: page by page, never the whole table."""

from collections.abc import Hashable
from dataclasses import dataclass
from typing import Generic, TypeVar

PAGE_ROWS = 200

Row = TypeVar("Row")


@dataclass(frozen=True, slots=True)
class Page(Generic[Row]):
    """The first rows of a list, and whether there are more."""

    rows: tuple[Row, ...]
    more: bool


@dataclass(frozen=True, slots=True)
class Anchors:
    """How many rows there are, and for each page a key that lets it be fetched by itself.

    ``keys[i]`` belongs to rows ``i * PAGE_ROWS`` and following; what a key is, only the source knows.
    """

    total: int
    keys: tuple[Hashable, ...]
