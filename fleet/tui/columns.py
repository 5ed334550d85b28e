"""The columns of a list: where they stand in a given width, and how a row becomes a line of spans."""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from typing import Generic, TypeVar

from fleet.text import Align, cell_width, clean, cut
from fleet.tui.themes import Span, Spans, Token

Row = TypeVar("Row")

CURSOR_CELLS = 1  # column 0 belongs to the cursor sign alone
CURSOR_HERE, CURSOR_ELSEWHERE = "▌", "▸"
LOADING = "····"


@dataclass(frozen=True, slots=True)
class Column(Generic[Row]):
    """One column: ``render(row, width)`` returns spans, which are cut and filled to the width.

    ``gap`` blank cells follow the column. ``grow`` is its share of the room a wide screen leaves.
    ``strong`` text is bold under the cursor. ``frozen`` columns stay when the list is too wide and is
    moved sideways. ``loading`` stands in the cell while the row is on its way.
    """

    title: str | Sequence[Span]
    width: int
    render: Callable[[Row, int], Spans]
    align: Align = "left"
    gap: int = 2
    grow: int = 0
    frozen: bool = False
    strong: bool = False
    loading: str = LOADING


@dataclass(frozen=True, slots=True)
class Placed(Generic[Row]):
    """A column with the cell it starts in and the width it got."""

    column: Column[Row]
    start: int
    width: int


def natural_width(columns: Sequence[Column[Row]]) -> int:
    """Return the cells that all columns need, with the cursor's."""
    if not columns:
        return CURSOR_CELLS
    return CURSOR_CELLS + sum(column.width + column.gap for column in columns) - columns[-1].gap


def place_columns(columns: Sequence[Column[Row]], width: int, skipped: int = 0) -> list[Placed[Row]]:
    """Return the columns that are seen in ``width`` cells, ``skipped`` movable ones left out."""
    movable = [column for column in columns if not column.frozen]
    left_out = movable[:skipped]
    seen = [column for column in columns if not any(column is one for one in left_out)]
    widths = _grown(seen, width - natural_width(seen))
    placed: list[Placed[Row]] = []
    start = CURSOR_CELLS
    for column, wanted in zip(seen, widths, strict=True):
        room = min(wanted, width - start)
        if room <= 0:
            break
        placed.append(Placed(column, start, room))
        start += wanted + column.gap
    return placed


def _grown(columns: Sequence[Column[Row]], spare: int) -> list[int]:
    widths = [column.width for column in columns]
    shares = sum(column.grow for column in columns)
    if spare <= 0 or not shares:
        return widths
    given = 0
    for index, column in enumerate(columns):
        more = spare * column.grow // shares
        widths[index] += more
        given += more
    last = max(index for index, column in enumerate(columns) if column.grow)
    widths[last] += spare - given
    return widths


def most_skipped(columns: Sequence[Column[Row]], width: int) -> int:
    """Return how many movable columns must be passed over until the last one is seen whole."""
    movable = [column for column in columns if not column.frozen]
    rest = natural_width(columns)
    for count, column in enumerate(movable):
        if rest <= width:
            return count
        rest -= column.width + column.gap
    return max(0, len(movable) - 1)


def fit(spans: Iterable[Span], width: int, align: Align = "left") -> Spans:
    """Return spans of exactly ``width`` cells; text is made safe, what is cut ends with ``…``."""
    safe = [(clean(text), token) for text, token in spans]
    length = sum(cell_width(text) for text, _ in safe)
    if length > width:
        return _cut_spans(safe, width)
    free = width - length
    before = {"left": 0, "right": free, "center": free // 2}[align]
    return [(" " * before, Token.TEXT), *safe, (" " * (free - before), Token.TEXT)]


def _cut_spans(spans: Spans, width: int) -> Spans:
    kept: Spans = []
    room = width
    for place, (text, token) in enumerate(spans):
        length = cell_width(text)
        more_follows = any(rest for rest, _ in spans[place + 1 :])
        if length < room or (length == room and not more_follows):
            kept.append((text, token))
            room -= length
            continue
        # A further blank makes sure that the ellipsis comes, also where this text alone would fit.
        shown = cut(text + " " * (room + 1), room)
        kept.append((shown, token))
        room -= cell_width(shown)
        break
    return [*kept, (" " * room, Token.TEXT)]


def heading_line(placed: Sequence[Placed[Row]]) -> Spans:
    """Return the titles over their columns."""

    def title(place: Placed[Row]) -> Spans:
        text = place.column.title
        return [(text, Token.DIM)] if isinstance(text, str) else list(text)

    return _line(placed, title, " ")


def row_line(placed: Sequence[Placed[Row]], row: Row, cursor: str, *, strong: bool) -> Spans:
    """Return one row; ``cursor`` is its sign, ``strong`` makes the columns that name it bold."""

    def cell(place: Placed[Row]) -> Spans:
        spans = place.column.render(row, place.width)
        if strong and place.column.strong:
            return [(text, Token.HEAD if token is Token.TEXT else token) for text, token in spans]
        return spans

    return _line(placed, cell, cursor)


def loading_line(placed: Sequence[Placed[Row]], cursor: str) -> Spans:
    """Return the dots of a row that is on its way."""
    return _line(placed, lambda place: [(place.column.loading, Token.FAINT)], cursor)


def _line(placed: Sequence[Placed[Row]], cell: Callable[[Placed[Row]], Spans], cursor: str) -> Spans:
    line: Spans = [(cursor, Token.HERE)]
    end = CURSOR_CELLS
    for place in placed:
        line.append((" " * (place.start - end), Token.TEXT))
        line.extend(fit(cell(place), place.width, place.column.align))
        end = place.start + place.width
    return line
