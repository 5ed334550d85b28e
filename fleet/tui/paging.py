"""Where the rows of a long list come from: page by page, never the whole table."""

from collections import OrderedDict
from collections.abc import Hashable, Sequence
from dataclasses import dataclass
from typing import Generic, Protocol, TypeVar

PAGE_ROWS = 200
PAGES_KEPT = 12

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


class PageSource(Protocol[Row]):
    """One query, with its filters and its order. All methods are called in threads, also at once."""

    def first(self, limit: int) -> Page[Row]:
        """Return the first ``limit`` rows, quickly: nothing is counted for it."""
        ...

    def anchors(self) -> Anchors:
        """Count the rows and note every 200th key. This may take a while."""
        ...

    def page(self, index: int, anchors: Anchors) -> Sequence[Row]:
        """Return rows ``index * PAGE_ROWS`` and following, at most ``PAGE_ROWS`` of them."""
        ...


class TupleSource(Generic[Row]):
    """A source of rows that are at hand, for short lists."""

    def __init__(self, rows: Sequence[Row]) -> None:
        self._rows = tuple(rows)

    def first(self, limit: int) -> Page[Row]:
        """Return the first rows."""
        return Page(self._rows[:limit], len(self._rows) > limit)

    def anchors(self) -> Anchors:
        """Return the count; a key is a position."""
        return Anchors(len(self._rows), tuple(range(0, len(self._rows), PAGE_ROWS)))

    def page(self, index: int, anchors: Anchors) -> Sequence[Row]:
        """Return one page."""
        return self._rows[index * PAGE_ROWS : (index + 1) * PAGE_ROWS]


class PageCache(Generic[Row]):
    """The pages looked at last; a row is found by its place in the whole list."""

    def __init__(self, kept: int = PAGES_KEPT) -> None:
        self._pages: OrderedDict[int, tuple[Row, ...]] = OrderedDict()
        self._kept = kept

    def __contains__(self, index: int) -> bool:
        return index in self._pages

    def __len__(self) -> int:
        return len(self._pages)

    def put(self, index: int, rows: Sequence[Row]) -> None:
        """Keep a page, and forget the one not looked at for longest."""
        self._pages[index] = tuple(rows)
        self._pages.move_to_end(index)
        while len(self._pages) > self._kept:
            self._pages.popitem(last=False)

    def row(self, place: int) -> Row | None:
        """Return the row at a place of the list, or None while its page is not here."""
        index, offset = divmod(place, PAGE_ROWS)
        page = self._pages.get(index)
        if page is None:
            return None
        self._pages.move_to_end(index)
        return page[offset] if offset < len(page) else None


def page_span(first: int, count: int) -> range:
    """Return the pages that hold ``count`` rows from ``first`` on.

    >>> list(page_span(190, 20))
    [0, 1]
    """
    if count <= 0:
        return range(0)
    return range(first // PAGE_ROWS, (first + count - 1) // PAGE_ROWS + 1)


def position_text(first: int, shown: int, total: int | None) -> str:
    """Return ``from–to of all``; while the count is on its way, ``…`` stands for it.

    >>> position_text(0, 16, 27), position_text(0, 16, None), position_text(0, 0, 0)
    ('1–16 of 27', '1–16 of …', '0')
    """
    if total == 0:
        return "0"
    whole = "…" if total is None else f"{total:,}"
    if shown <= 0:
        return f"… of {whole}"
    return f"{first + 1:,}–{first + shown:,} of {whole}"
