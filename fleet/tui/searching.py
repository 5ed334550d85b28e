"""The field one searches in: it opens over the list, every key narrows, Escape takes it away."""

from typing import ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Horizontal
from textual.message import Message
from textual.widgets import Input, Static

from fleet.text import clean


class SearchField(Horizontal):
    """One row with a field in it, there only while one searches."""

    DEFAULT_CSS = """
    SearchField { height: 1; width: 1fr; display: none; padding: 0 1; }
    SearchField Static { width: 8; color: $foreground 74%; }
    SearchField Input { width: 1fr; max-width: 40; background: $panel; }
    SearchField Input:focus { background: $primary 35%; }
    """
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("escape", "leave", "all", id="search.leave", tooltip="Take the search away"),
        Binding("down", "to_list", "list", show=False, id="search.list", tooltip="Go to the list"),
    ]

    class Typed(Message):
        """What is searched for changed."""

        def __init__(self, text: str) -> None:
            super().__init__()
            self.text = text

    def compose(self) -> ComposeResult:
        """Yield the field."""
        yield Static("search", markup=False)
        yield Input(compact=True, placeholder="system, site, customer, refrigerant", select_on_focus=False)

    @property
    def field(self) -> Input:
        """The field."""
        return self.query_one(Input)

    def open(self) -> None:
        """Appear, and take the focus."""
        self.display = True
        self.field.focus()

    def leave(self) -> None:
        """Take the search away."""
        self.display = False
        if self.field.value:
            self.field.value = ""

    def action_leave(self) -> None:
        """Take the search away and go back to the list."""
        self.leave()
        self.action_to_list()

    def action_to_list(self) -> None:
        """Go to the list, keeping the search."""
        from fleet.tui.windowed_list import WindowedList

        self.screen.query_one(WindowedList).focus()

    @on(Input.Changed)
    def tell(self, event: Input.Changed) -> None:
        """Tell every change."""
        event.stop()
        safe = clean(event.value)
        if safe != event.value:
            self.field.value = safe  # which is told in its turn
        else:
            self.post_message(self.Typed(safe.strip()))

    @on(Input.Submitted)
    def submit(self, event: Input.Submitted) -> None:
        """Enter goes to the list."""
        event.stop()
        self.action_to_list()
