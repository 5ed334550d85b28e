"""Where the rows of a long list come from: page by page, never the whole table."""

from collections.abc import Callable, Hashable, Iterator, Sequence
from dataclasses import dataclass
from threading import Lock
from typing import Generic, Protocol, TypeVar

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


class ComputedSource(Generic[Row]):
    """A source of rows that are computed all together, when the first of them is asked for."""

    def __init__(self, compute: Callable[[], Sequence[Row]]) -> None:
        self._compute = compute
        self._lock = Lock()
        self._rows: TupleSource[Row] | None = None

    def _computed(self) -> TupleSource[Row]:
        with self._lock:
            if self._rows is None:
                self._rows = TupleSource(self._compute())
            return self._rows

    def first(self, limit: int) -> Page[Row]:
        """Return the first rows."""
        return self._computed().first(limit)

    def anchors(self) -> Anchors:
        """Return the count; a key is a position."""
        return self._computed().anchors()

    def page(self, index: int, anchors: Anchors) -> Sequence[Row]:
        """Return one page."""
        return self._computed().page(index, anchors)


def every_page(source: PageSource[Row], anchors: Anchors) -> Iterator[Sequence[Row]]:
    """Yield all pages of a list one after the other, as the list shows them."""
    for index in range(len(anchors.keys)):
        yield source.page(index, anchors)
