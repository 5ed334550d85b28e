"""The one list of the interface: it draws the lines that are seen and asks for the pages they lie on."""

from collections.abc import Callable, Sequence
from functools import partial
from typing import Any, ClassVar, Generic, TypeVar

from textual import events, on
from textual.binding import Binding, BindingType
from textual.message import Message
from textual.strip import Strip
from textual.widget import Widget

from fleet.errors import ColdroundError
from fleet.tui.columns import (
    CURSOR_ELSEWHERE,
    CURSOR_HERE,
    Column,
    Placed,
    heading_line,
    loading_line,
    most_skipped,
    place_columns,
    row_line,
)
from fleet.tui.paging import PAGE_ROWS, Anchors, Page, PageCache, PageSource, page_span, position_text
from fleet.tui.themes import Spans, Token, styles_for, to_strip

Row = TypeVar("Row")

LOADING_AFTER_S = 0.15
LAST = 2**62  # a place behind any list: the last row, wherever it turns out to be
HEADING_LINES = 1
SENTENCE_INDENT = "   "


def _hidden(key: str, action: str, tooltip: str) -> Binding:
    """Return a binding that help shows and the footer does not."""
    return Binding(key, action, key, show=False, id=f"list.{key}", tooltip=tooltip)


class WindowedList(Widget, Generic[Row], can_focus=True):
    """A list of any length, over a :class:`~fleet.tui.paging.PageSource`.

    Rows are opaque; columns know how to show them. Nothing but the pages around what is seen is held.
    The source may be replaced at any time; what an earlier one still delivers is ignored.
    """

    ALLOW_SELECT = False
    DEFAULT_CSS = """
    WindowedList { height: 1fr; width: 1fr; background: $background; color: $foreground; }
    """
    BINDINGS: ClassVar[list[BindingType]] = [
        _hidden("enter", "open", "Open the row under the cursor"),
        _hidden("up", "move(-1)", "Move one row up"),
        _hidden("down", "move(1)", "Move one row down"),
        _hidden("pageup", "page(-1)", "Move one page up"),
        _hidden("pagedown", "page(1)", "Move one page down"),
        _hidden("home", "first", "Move to the first row"),
        _hidden("end", "last", "Move to the last row"),
        _hidden("left", "columns(-1)", "Show the columns further left"),
        _hidden("right", "columns(1)", "Show the columns further right"),
    ]

    class _Told(Message):
        """A message of a list, with the list as its control."""

        def __init__(self, control: "WindowedList[Any]") -> None:
            super().__init__()
            self._list = control

        @property
        def control(self) -> "WindowedList[Any]":
            """The list."""
            return self._list

    class Opened(_Told):
        """Enter, or a click on the row under the cursor."""

        def __init__(self, control: "WindowedList[Any]", row: Any, index: int) -> None:
            super().__init__(control)
            self.row, self.index = row, index

    class Highlighted(_Told):
        """The cursor stands on another row, or its row was read anew; None when the list is empty."""

        def __init__(self, control: "WindowedList[Any]", row: Any, index: int) -> None:
            super().__init__(control)
            self.row, self.index = row, index

    class Positioned(_Told):
        """What is seen changed: ``1–16 of 27``."""

        def __init__(self, control: "WindowedList[Any]", text: str) -> None:
            super().__init__(control)
            self.text = text

    class Failed(_Told):
        """The source could not deliver; the sentence is in ``error``."""

        def __init__(self, control: "WindowedList[Any]", error: ColdroundError) -> None:
            super().__init__(control)
            self.error = error

    class _Arrived(Message, bubble=False):
        """What a thread brought, and for which source it was asked."""

        def __init__(self, generation: int, take: Callable[[], None]) -> None:
            super().__init__()
            self.generation, self.take = generation, take

    def __init__(
        self,
        columns: Sequence[Column[Row]],
        source: PageSource[Row] | None = None,
        *,
        empty: Sequence[str] = ("Nothing here yet.",),
        opens: str = "",
        id: str | None = None,  # noqa: A002 (the toolkit's name)
        classes: str | None = None,
    ) -> None:
        """Make a list.

        Parameters
        ----------
        empty
            The sentence for an empty list, then the way out.
        opens
            What Enter opens, shown in the footer (``sheet``); nothing is shown without it.
        """
        super().__init__(id=id, classes=classes)
        self.columns = tuple(columns)
        self.empty = tuple(empty)
        self._source = source
        self._generation = 0
        self._cache: PageCache[Row] = PageCache()
        self._in_flight: set[int] = set()
        self._lost: set[int] = set()
        self._anchors: Anchors | None = None
        self._known = 0
        self._total: int | None = None
        self._cursor = 0
        self._top = 0
        self._skipped = 0
        self._wanted: int | None = None
        self._waiting = source is not None
        self._dots = False
        self._failure: str | None = None
        self._told = ""
        if opens:
            shown = Binding("enter", "open", opens, id="list.enter", tooltip="Open the row under the cursor")
            self._bindings.key_to_bindings["enter"] = [shown]

    # What others ask -------------------------------------------------------------------------------------

    @property
    def current(self) -> Row | None:
        """The row under the cursor, None while it is on its way or where there is none."""
        return self._cache.row(self._cursor) if self._cursor < self._known else None

    @property
    def cursor(self) -> int:
        """The place of the cursor in the list, from 0."""
        return self._cursor

    @property
    def total(self) -> int | None:
        """How many rows there are, None until they are counted."""
        return self._total

    @property
    def position(self) -> str:
        """``from–to of all``."""
        shown = max(0, min(self._rows_seen, self._known - self._top))
        return position_text(self._top, shown, self._total)

    def set_source(self, source: PageSource[Row], *, cursor: int = 0) -> None:
        """Show another source, or the same anew, with the cursor on row ``cursor``."""
        self._source = source
        if self.is_mounted:
            self._begin(cursor)

    def set_columns(self, columns: Sequence[Column[Row]]) -> None:
        """Show other columns of the same rows."""
        self.columns = tuple(columns)
        self._skipped = 0
        self.refresh()

    def set_empty(self, *sentences: str) -> None:
        """Say something else when nothing is found."""
        self.empty = sentences
        self.refresh()

    def move_to(self, place: int) -> None:
        """Put the cursor on a row, as soon as the list is known to reach it."""
        if self._total is None and place >= self._known:
            self._wanted = place
        self._move(place)

    # Loading ---------------------------------------------------------------------------------------------

    def on_mount(self) -> None:
        """Ask for the first rows."""
        if self._source is not None:
            self._begin(0)

    def _begin(self, cursor: int) -> None:
        assert self._source is not None
        self._generation += 1
        self.workers.cancel_group(self, "list")
        self._in_flight.clear()
        self._lost.clear()
        self._waiting, self._wanted = True, cursor
        source = self._source
        self._ask("first rows", lambda: source.first(PAGE_ROWS), self._take_first, self._lose_first)
        self.set_timer(LOADING_AFTER_S, partial(self._show_dots, self._generation))

    def _ask(
        self,
        what: str,
        read: Callable[[], Any],
        take: Callable[[Any], None],
        lose: Callable[[ColdroundError], None],
    ) -> None:
        """Read in a thread, and take what came in a message, unless the source changed meanwhile."""
        generation = self._generation

        def run() -> None:
            if generation != self._generation:
                return
            try:
                taken = partial(take, read())
            except ColdroundError as error:
                taken = partial(lose, error)
            self.post_message(self._Arrived(generation, taken))

        self.run_worker(run, name=what, group="list", description=f"list: {what}", thread=True)

    @on(_Arrived)
    def _arrive(self, message: _Arrived) -> None:
        message.stop()
        if message.generation == self._generation:
            message.take()
            self._settle()

    def _lose_first(self, error: ColdroundError) -> None:
        self._failure, self._waiting, self._dots = error.message, False, False
        self._known, self._total = 0, 0
        self._tell_failure(error)

    def _lose_page(self, index: int, error: ColdroundError) -> None:
        """Leave the dots; the page is asked for again when the cursor moves, not in an endless circle."""
        self._in_flight.discard(index)
        self._lost.add(index)
        self._tell_failure(error)

    def _tell_failure(self, error: ColdroundError) -> None:
        self.post_message(self.Failed(self, error))

    def _take_first(self, page: Page[Row]) -> None:
        self._cache = PageCache()
        self._cache.put(0, page.rows)
        self._known, self._waiting, self._dots = len(page.rows), False, False
        self._failure, self._anchors, self._top = None, None, 0
        self._total = None if page.more else self._known
        source = self._source
        if page.more and source is not None:
            self._ask("count", source.anchors, self._take_anchors, self._tell_failure)
        self._take_wanted()
        self._highlight()

    def _take_anchors(self, anchors: Anchors) -> None:
        self._anchors, self._total, self._known = anchors, anchors.total, anchors.total
        before = self._cursor
        self._take_wanted()
        if self._cursor != before:
            self._highlight()

    def _take_wanted(self) -> None:
        """Put the cursor where it was asked to be, or as near as is known so far."""
        wanted = self._cursor if self._wanted is None else self._wanted
        self._cursor = max(0, min(wanted, self._known - 1))
        if self._total is not None or wanted < self._known:
            self._wanted = None

    def _take_page(self, index: int, rows: Sequence[Row]) -> None:
        self._in_flight.discard(index)
        self._cache.put(index, rows)
        if not self._in_flight and not self._lost:
            self._dots = False
        if self._cursor // PAGE_ROWS == index:
            self._highlight()

    def _request_pages(self) -> None:
        """Ask for the pages under what is seen and one screen around it."""
        source, anchors = self._source, self._anchors
        if source is None or anchors is None:
            return
        seen = self._rows_seen
        first = max(0, self._top - seen)
        for index in page_span(first, min(self._known, self._top + 2 * seen) - first):
            known = index in self._cache or index in self._in_flight or index in self._lost
            if known or index >= len(anchors.keys):
                continue
            self._in_flight.add(index)
            read = partial(source.page, index, anchors)
            self._ask(f"page {index}", read, partial(self._take_page, index), partial(self._lose_page, index))
            self.set_timer(LOADING_AFTER_S, partial(self._show_dots, self._generation))

    def _show_dots(self, generation: int) -> None:
        if generation == self._generation and (self._waiting or self._in_flight or self._lost):
            self._dots = True
            self.refresh()

    # Moving ----------------------------------------------------------------------------------------------

    @property
    def _rows_seen(self) -> int:
        return max(1, self.size.height - HEADING_LINES)

    def _move(self, place: int) -> None:
        if not self._known:
            return
        self._lost.clear()
        place = max(0, min(place, self._known - 1))
        if place != self._cursor:
            self._cursor = place
            self._settle()
            self._highlight()

    def _settle(self) -> None:
        """Keep the cursor in sight, ask for what is missing, tell what is seen."""
        seen = self._rows_seen
        self._top = min(max(self._top, self._cursor - seen + 1), self._cursor)
        self._top = max(0, min(self._top, self._known - seen))
        self._request_pages()
        self.refresh()
        if self.position != self._told and not self._waiting:
            self._told = self.position
            self.post_message(self.Positioned(self, self._told))

    def _highlight(self) -> None:
        row = self.current
        if row is not None or self._known == 0:
            self.post_message(self.Highlighted(self, row, self._cursor))

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Left and right are keys of the list only where it is too wide for the screen."""
        if action == "columns":
            return most_skipped(self.columns, self.size.width) > 0
        return True

    def action_move(self, rows: int) -> None:
        """Move the cursor by some rows."""
        self._wanted = None
        self._move(self._cursor + rows)

    def action_page(self, direction: int) -> None:
        """Move the cursor by what is seen, less one row that shows where one came from."""
        self.action_move(direction * max(1, self._rows_seen - 1))

    def action_first(self) -> None:
        """Move to the first row."""
        self._wanted = None
        self._move(0)

    def action_last(self) -> None:
        """Move to the last row, also where it is not known yet how many there are."""
        self.move_to(LAST)

    def action_columns(self, step: int) -> None:
        """Move the columns that are not frozen sideways."""
        most = most_skipped(self.columns, self.size.width)
        self._skipped = max(0, min(most, self._skipped + step))
        self.refresh()

    def action_open(self) -> None:
        """Open the row under the cursor."""
        row = self.current
        if row is not None and not self._waiting:
            self.post_message(self.Opened(self, row, self._cursor))

    def on_click(self, event: events.Click) -> None:
        """Move the cursor; a click where it stands already opens."""
        place = self._top + event.y - HEADING_LINES
        if event.y < HEADING_LINES or place >= self._known:
            return
        if place == self._cursor:
            self.action_open()
        else:
            self.action_move(place - self._cursor)

    def on_mouse_scroll_down(self, event: events.MouseScrollDown) -> None:
        """Move on."""
        event.stop()
        self.action_move(3)

    def on_mouse_scroll_up(self, event: events.MouseScrollUp) -> None:
        """Move back."""
        event.stop()
        self.action_move(-3)

    def on_resize(self) -> None:
        """Keep the cursor in sight."""
        self._skipped = min(self._skipped, most_skipped(self.columns, self.size.width))
        self._settle()

    def on_focus(self) -> None:
        """Show the cursor of the area with focus."""
        self.refresh()

    def on_blur(self) -> None:
        """Show the cursor of the others."""
        self.refresh()

    # Drawing ---------------------------------------------------------------------------------------------

    def render_line(self, y: int) -> Strip:
        """Return one line of cells."""
        width = self.size.width
        placed = place_columns(self.columns, width, self._skipped)
        line, under_cursor = self._line(placed, y - HEADING_LINES)
        return to_strip(line, width, styles_for(self.app), row=under_cursor and self.has_focus)

    def _line(self, placed: Sequence[Placed[Row]], y: int) -> tuple[Spans, bool]:
        first_rows_late = self._waiting and self._dots
        if not self._known and not first_rows_late:
            return ([] if self._waiting else self._sentence(y)), False
        if y < 0:
            return heading_line(placed), False
        place = self._top + y
        under_cursor = place == self._cursor and not first_rows_late
        sign = (CURSOR_HERE if self.has_focus else CURSOR_ELSEWHERE) if under_cursor else " "
        if first_rows_late:
            return loading_line(placed, sign), False
        if place >= self._known:
            return [], False
        row = self._cache.row(place)
        if row is None:
            return (loading_line(placed, sign) if self._dots else [(sign, Token.HERE)]), under_cursor
        return row_line(placed, row, sign, strong=under_cursor and self.has_focus), under_cursor

    def _sentence(self, y: int) -> Spans:
        if self._failure is not None:
            if y != 0:
                return []
            return [(f"{SENTENCE_INDENT}✕ ", Token.ACT), (self._failure, Token.TEXT)]
        if not 0 <= y < len(self.empty):
            return []
        return [(SENTENCE_INDENT + self.empty[y], Token.TEXT if y == 0 else Token.DIM)]
