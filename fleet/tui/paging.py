"""The pages of a long list that are held, and which of them are seen."""

from collections import OrderedDict
from collections.abc import Sequence
from typing import Generic, TypeVar

from fleet.desk.paging import PAGE_ROWS, Anchors, Page, PageSource, TupleSource

__all__ = [
    "PAGE_ROWS",
    "Anchors",
    "Page",
    "PageCache",
    "PageSource",
    "TupleSource",
    "page_span",
    "position_text",
]

PAGES_KEPT = 12

Row = TypeVar("Row")


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
