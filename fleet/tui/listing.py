"""What the places that are a list share: filters, search, order, a pane on a wide screen, CSV."""

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING, Any, ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Horizontal, Vertical
from textual.content import Content
from textual.widget import Widget

from fleet.tui.columns import Column
from fleet.tui.csv_out import write_csv
from fleet.tui.filters import FilterPart, FilterSentence
from fleet.tui.frame import FrameScreen
from fleet.tui.paging import PageSource
from fleet.tui.searching import SearchField
from fleet.tui.themes import Spans, lines_to_content, styles_for
from fleet.tui.windowed_list import WindowedList

if TYPE_CHECKING:
    from fleet.desk.csv_files import CsvList
    from fleet.desk.opened import Desk

LONGEST_POSITION = 20
PaneLines = Callable[[int], Sequence[Spans]]
"""Makes the lines of a pane for a width in cells."""


class HeadLines(Widget):
    """The lines between filters and list: counts, a legend, a plain sentence."""

    ALLOW_SELECT = False
    DEFAULT_CSS = "HeadLines { height: auto; width: 1fr; padding: 0 0 1 0; }"

    def __init__(self, lines: Sequence[Spans] = ()) -> None:
        super().__init__()
        self._lines = tuple(lines)

    @property
    def text(self) -> str:
        """What it says."""
        return "\n".join("".join(text for text, _ in line) for line in self._lines)

    def show(self, lines: Sequence[Spans]) -> None:
        """Show other lines."""
        self._lines = tuple(lines)
        self.refresh(layout=True)

    def render(self) -> Content:
        """Return the lines."""
        return lines_to_content(self._lines, styles_for(self.app))


class ListPane(Widget):
    """What is known of the row under the cursor, beside the list on a wide screen."""

    ALLOW_SELECT = False
    DEFAULT_CSS = """
    ListPane { height: 1fr; display: none; border-left: vkey $foreground 30%; padding: 0 1; }
    """

    def __init__(self) -> None:
        super().__init__()
        self._lines: PaneLines | None = None

    def show(self, lines: PaneLines | None) -> None:
        """Show other lines, made for the width there is when they are drawn."""
        self._lines = lines
        self.refresh()

    def render(self) -> Content:
        """Return the lines."""
        if self._lines is None:
            return Content("")
        return lines_to_content(self._lines(self.content_size.width), styles_for(self.app))


def short_position(text: str) -> str:
    """Return ``from–to of all`` without ``to`` where the figures are too long for a narrow screen.

    >>> short_position("1–16 of 27"), short_position("99,984–100,000 of 100,000")
    ('1–16 of 27', '99,984 of 100,000')
    """
    if len(text) <= LONGEST_POSITION:
        return text
    first, _, rest = text.partition("–")
    return f"{first} of{rest.partition(' of')[2]}"


def list_keys(place: str, *, search: bool, sort: str, csv: str) -> list[BindingType]:
    """Return the bindings of a place that is a list, in the order of the footer."""
    field = Binding(
        "slash", "search", "search", key_display="/", id=f"{place}.search", tooltip="Search as you type"
    )
    return [
        *([field] if search else []),
        Binding("f", "filter", "filter", id=f"{place}.filter", tooltip="Change the filters"),
        Binding("s", "sort", "sort", id=f"{place}.sort", tooltip=sort),
        Binding("e", "export", "csv", id=f"{place}.export", tooltip=csv),
        Binding(
            "backspace", "reset", "all", show=False, id=f"{place}.reset", tooltip="Take all filters away"
        ),
    ]


class ListingScreen(FrameScreen):
    """A place that is one list. Subclasses say what its filters, its columns and its rows are."""

    DEFAULT_CSS = """
    ListingScreen #listing-body { height: 1fr; }
    ListingScreen #listing-left { width: 1fr; }
    ListingScreen.-wide #listing-left { width: 80; }
    ListingScreen.-wide ListPane { display: block; width: 1fr; }
    """
    AUTO_FOCUS: ClassVar[str | None] = "WindowedList"  # not the field of a search that is not open
    OPENS: ClassVar[str] = ""
    HAS_SEARCH: ClassVar[bool] = True

    def __init__(self, desk: "Desk") -> None:
        super().__init__()
        self.desk = desk
        self.search_text = ""

    # What a subclass says --------------------------------------------------------------------------------

    def filter_parts(self) -> Sequence[FilterPart]:
        """Return the parts of the sentence in row 2; ``order`` is one of them."""
        raise NotImplementedError

    def columns(self) -> Sequence[Column[Any]]:
        """Return the columns for what is chosen."""
        raise NotImplementedError

    def source(self) -> PageSource[Any]:
        """Return the rows for what is chosen."""
        raise NotImplementedError

    def csv(self) -> "CsvList[Any]":
        """Return what is shown, as it is written to a file."""
        raise NotImplementedError

    def empty_sentences(self) -> Sequence[str]:
        """Return what is said where nothing is found, and the way out."""
        return ("Nothing matches these filters.", "Backspace takes all filters away, f changes one.")

    def open_row(self, row: Any) -> None:
        """Open the row under the cursor."""
        raise NotImplementedError

    def show_row(self, row: Any) -> None:
        """Fill the pane with a row, or empty it."""
        raise NotImplementedError

    def sentence(self) -> FilterSentence:
        """Return the sentence of filters, made once."""
        return FilterSentence(self.filter_parts())

    # The frame of it -------------------------------------------------------------------------------------

    def compose_body(self) -> ComposeResult:
        """Yield filters, head lines, list and pane."""
        yield self.sentence()
        with Horizontal(id="listing-body"):
            with Vertical(id="listing-left"):
                yield HeadLines()
                if self.HAS_SEARCH:
                    yield SearchField()
                yield WindowedList((), opens=self.OPENS, empty=self.empty_sentences())
            yield ListPane()

    def on_mount(self) -> None:
        """Show the list."""
        self.show_anew()

    @property
    def list(self) -> WindowedList[Any]:
        """The list."""
        return self.query_one(WindowedList)

    @property
    def filters(self) -> FilterSentence:
        """The sentence of filters."""
        return self.query_one(FilterSentence)

    @property
    def pane(self) -> ListPane:
        """The pane."""
        return self.query_one(ListPane)

    @property
    def head(self) -> HeadLines:
        """The lines over the list."""
        return self.query_one(HeadLines)

    def chosen(self, part: str) -> Any:
        """Return what is chosen in a part of the sentence."""
        return self.filters.values[part]

    def show_anew(self, cursor: int = 0) -> None:
        """Show what filters, search and order ask for."""
        self.list.set_columns(self.columns())
        self.list.set_empty(*self.empty_sentences())
        self.list.set_source(self.source(), cursor=cursor)

    def refresh_register(self) -> None:
        """Show the register anew, with the cursor where it was."""
        self.show_anew(self.list.cursor)

    @on(FilterSentence.Changed)
    def take_filters(self, message: FilterSentence.Changed) -> None:
        """Show what the filters ask for."""
        self.show_anew()

    @on(SearchField.Typed)
    def take_search(self, message: SearchField.Typed) -> None:
        """Narrow with every key; a list that is still on its way is left aside."""
        if message.text != self.search_text:
            self.search_text = message.text
            self.show_anew()

    @on(WindowedList.Positioned)
    def show_position(self, message: WindowedList.Positioned) -> None:
        """Say where in the list one is."""
        self.filters.set_note(message.text if self.is_wide else short_position(message.text))

    @on(WindowedList.Failed)
    def show_failure(self, message: WindowedList.Failed) -> None:
        """Say why the list is not there."""
        self.messages.failed("Not read.", message.error.message)

    @on(WindowedList.Highlighted)
    def follow(self, message: WindowedList.Highlighted) -> None:
        """Let the pane follow the cursor."""
        if self.is_wide:
            self.show_row(message.row)

    def on_resize(self) -> None:
        """Fill the pane when it appears."""
        if self.is_wide:
            self.show_row(self.list.current)

    @on(WindowedList.Opened)
    def take_opened(self, message: WindowedList.Opened) -> None:
        """Open the row."""
        self.open_row(message.row)

    def open_sheet(self, system_id: int) -> None:
        """Open the sheet of a system of the list."""
        from fleet.tui.sheet import SystemSheet

        self.app.push_screen(SystemSheet(self.desk, system_id, place=self.place, step=self.step))

    def step(self, by: int) -> int | None:
        """Move the cursor to the next other system of the list and return it, None at the end."""
        here = self.list.current
        while here is not None:
            before = self.list.cursor
            self.list.move_to(before + by)
            now = self.list.current
            if now is None or self.list.cursor == before:
                return None
            if now.system_id != here.system_id:
                return int(now.system_id)
        return None

    # Keys ------------------------------------------------------------------------------------------------

    def action_filter(self) -> None:
        """Walk the filters."""
        self.filters.walk()

    def action_reset(self) -> None:
        """Take all filters and the search away."""
        if self.HAS_SEARCH:
            self.query_one(SearchField).leave()
        self.filters.reset()

    def action_search(self) -> None:
        """Search as one types."""
        self.query_one(SearchField).open()

    def action_sort(self) -> None:
        """Take the next order."""
        part = next(part for part in self.filters.parts if part.name == "order")
        orders = list(part.choices())
        at = [choice.value for choice in orders].index(self.chosen("order"))
        self.filters.choose("order", orders[(at + 1) % len(orders)])

    def action_export(self) -> None:
        """Write the list as CSV."""
        write_csv(self, self.desk, self.csv())

    def step_back(self) -> None:
        """Take the search away, if there is one; a place itself is not left."""
        if self.search_text:
            self.query_one(SearchField).action_leave()
