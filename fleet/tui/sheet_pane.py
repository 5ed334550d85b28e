"""An area of a sheet: rows that scroll, a cursor that stands on those that can be opened."""

from collections.abc import Callable, Iterable
from typing import ClassVar

from textual import events
from textual.binding import Binding, BindingType
from textual.geometry import Region, Size
from textual.message import Message
from textual.scroll_view import ScrollView
from textual.strip import Strip

from fleet.tui.columns import CURSOR_ELSEWHERE, CURSOR_HERE
from fleet.tui.sheet_rows import SheetRow, Stop, StopId
from fleet.tui.themes import Spans, Token, styles_for, to_strip

Builder = Callable[[int, StopId | None], Iterable[SheetRow]]
"""Makes the rows for a width and the stop under the cursor."""


def _hidden(key: str, action: str, tooltip: str) -> Binding:
    return Binding(key, action, key, show=False, id=f"sheet.{key}", tooltip=tooltip)


class SheetPane(ScrollView, can_focus=True):
    """Rows with a cursor; the last column is a line that shows where one is."""

    ALLOW_SELECT = False
    DEFAULT_CSS = """
    SheetPane {
        height: 1fr; background: $background;
        overflow-y: scroll; overflow-x: hidden; scrollbar-size-vertical: 1;
    }
    """
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("enter", "open", "explain", id="sheet.enter", tooltip="Show how this came about"),
        _hidden("up", "move(-1)", "Move up"),
        _hidden("down", "move(1)", "Move down"),
        _hidden("pageup", "page(-1)", "Move a page up"),
        _hidden("pagedown", "page(1)", "Move a page down"),
        _hidden("home", "first", "Move to the top"),
        _hidden("end", "last", "Move to the end"),
    ]

    class Opened(Message):
        """Enter, or a click on the row under the cursor."""

        def __init__(self, stop: Stop) -> None:
            super().__init__()
            self.chosen = stop

    def __init__(self, *, id: str | None = None, classes: str | None = None) -> None:  # noqa: A002
        super().__init__(id=id, classes=classes)
        self._build: Builder = lambda width, cursor: ()
        self._rows: tuple[SheetRow, ...] = ()
        self._cursor: StopId | None = None

    # What others ask -------------------------------------------------------------------------------------

    @property
    def stop(self) -> Stop | None:
        """The stop under the cursor."""
        return next((row.stop for row in self._rows if row.stop and row.stop.id == self._cursor), None)

    def show(self, build: Builder, *, cursor: StopId | None = None) -> None:
        """Show other rows, with the cursor on a stop of them, the first one by default."""
        self._build = build
        self._cursor = cursor or self._cursor
        self._rebuild()
        if cursor is not None:
            self._reveal()

    def start_over(self) -> None:
        """Put the cursor and the view back to the top."""
        self._cursor = None
        self._rebuild()
        self.scroll_to(y=0, animate=False)

    def jump_to(self, section: str) -> None:
        """Bring a section to the top and the cursor to its first stop."""
        at = next((y for y, row in enumerate(self._rows) if row.section == section), None)
        if at is None:
            return
        stop = next((row.stop for row in self._rows[at:] if row.stop is not None), None)
        if stop is not None:
            self._cursor = stop.id
            self._rebuild()
            at = next(y for y, row in enumerate(self._rows) if row.section == section)
        self.scroll_to(y=at, animate=False, force=True)

    # Rows ------------------------------------------------------------------------------------------------

    def _rebuild(self) -> None:
        width = max(20, self.scrollable_content_region.width)
        self._rows = tuple(self._build(width, self._cursor))
        stops = [row.stop.id for row in self._rows if row.stop is not None]
        if self._cursor not in stops:
            self._cursor = stops[0] if stops else None
            self._rows = tuple(self._build(width, self._cursor))
        self.virtual_size = Size(width, len(self._rows))
        self.refresh()

    def on_resize(self, event: events.Resize) -> None:
        """Make the rows anew for the width."""
        self._rebuild()

    def _row_of_cursor(self) -> int | None:
        return next((y for y, row in enumerate(self._rows) if row.stop and row.stop.id == self._cursor), None)

    def _reveal(self) -> None:
        """Scroll so that the row under the cursor is seen with what belongs to it."""
        y = self._row_of_cursor()
        if y is None:
            return
        end = y + 1
        while end < len(self._rows) and self._rows[end].stop is None and self._rows[end].spans:
            end += 1
        top = y - 1 if y > 0 and self._rows[y - 1].section else y
        height = min(end - top, self.scrollable_content_region.height)
        self.scroll_to_region(Region(0, top, 1, max(1, height)), animate=False, force=True)

    # Keys ------------------------------------------------------------------------------------------------

    def action_move(self, step: int) -> None:
        """Move to the next stop; where there is none, or it is far, scroll."""
        stops = [(y, row.stop.id) for y, row in enumerate(self._rows) if row.stop is not None]
        here = self._row_of_cursor()
        beyond = [stop for stop in stops if here is None or (stop[0] - here) * step > 0]
        if not beyond:
            self.scroll_relative(y=step, animate=False, force=True)
            return
        self._cursor = (beyond[0] if step > 0 else beyond[-1])[1]
        self._rebuild()
        self._reveal()
        if step < 0 and len(beyond) == 1:
            self.scroll_to(y=0, animate=False, force=True)

    def action_page(self, direction: int) -> None:
        """Scroll by what is seen, less one row, and bring the cursor along."""
        height = max(2, self.scrollable_content_region.height)
        target = max(0, min(len(self._rows) - height, round(self.scroll_y) + direction * (height - 1)))
        seen = [row.stop.id for row in self._rows[target : target + height] if row.stop is not None]
        if seen:
            self._cursor = seen[0] if direction > 0 else seen[-1]
            if direction < 0 and target == 0:
                self._cursor = seen[0]
            self._rebuild()
        self.scroll_to(y=target, animate=False, force=True)

    def action_first(self) -> None:
        """Go to the top."""
        self.start_over()

    def action_last(self) -> None:
        """Go to the end."""
        stops = [row.stop.id for row in self._rows if row.stop is not None]
        self._cursor = stops[-1] if stops else None
        self._rebuild()
        self.scroll_to(y=len(self._rows), animate=False, force=True)

    def action_open(self) -> None:
        """Open what is under the cursor."""
        stop = self.stop
        if stop is not None:
            self.post_message(self.Opened(stop))

    def on_click(self, event: events.Click) -> None:
        """Move the cursor; a click where it stands opens."""
        y = event.y + round(self.scroll_y)
        if y >= len(self._rows):
            return
        stop = self._rows[y].stop
        if stop is None:
            return
        if stop.id == self._cursor:
            self.action_open()
        else:
            self._cursor = stop.id
            self._rebuild()

    def on_focus(self) -> None:
        """Show the cursor of the area with focus."""
        self.refresh()

    def on_blur(self) -> None:
        """Show the cursor of the others."""
        self.refresh()

    # Drawing ---------------------------------------------------------------------------------------------

    def render_line(self, y: int) -> Strip:
        """Return one line of cells."""
        width = self.scrollable_content_region.width
        styles = styles_for(self.app)
        place = y + round(self.scroll_y)
        if place >= len(self._rows):
            return to_strip([], width, styles)
        row = self._rows[place]
        here = row.stop is not None and row.stop.id == self._cursor
        spans: Spans = list(row.spans)
        if here:
            sign = CURSOR_HERE if self.has_focus else CURSOR_ELSEWHERE
            spans = [(sign, Token.HERE), *_without_first_cell(spans)]
        return to_strip(spans, width, styles, row=here and self.has_focus)


def _without_first_cell(spans: Spans) -> Spans:
    """Return spans without the blank of column 0, which belongs to the cursor."""
    if not spans:
        return spans
    text, token = spans[0]
    return [(text[1:], token), *spans[1:]]
