"""A list of choices that opens over a screen; typing narrows it."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import ClassVar

from textual import events, on
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.message import Message
from textual.screen import ModalScreen
from textual.strip import Strip
from textual.widget import Widget

from fleet.errors import ColdroundError
from fleet.text import cell_width, clean
from fleet.tui.columns import CURSOR_HERE, fit
from fleet.tui.footer import FrameFooter
from fleet.tui.themes import Spans, Token, styles_for, to_strip

NARROWEST, WIDEST, TALLEST = 24, 52, 18


@dataclass(frozen=True, slots=True)
class Choice:
    """One thing to choose: a value for the desk, the words for it, and shorter ones for a narrow screen."""

    value: object
    label: str
    short: str = ""


def matching(choices: Sequence[Choice], typed: str) -> list[Choice]:
    """Return the choices that hold what was typed, those that begin with it first.

    >>> [choice.label for choice in matching([Choice(1, "Old Dock"), Choice(2, "Dock 4")], "do")]
    ['Dock 4', 'Old Dock']
    """
    wanted = typed.casefold()
    found = [choice for choice in choices if wanted in choice.label.casefold()]
    return sorted(found, key=lambda choice: not choice.label.casefold().startswith(wanted))


class ChoiceList(Widget, can_focus=True):
    """The choices under what was typed."""

    ALLOW_SELECT = False
    DEFAULT_CSS = "ChoiceList { background: $panel; }"
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("enter", "choose", "choose", id="choices.choose", tooltip="Take the choice under the cursor"),
        Binding("up", "move(-1)", "up", show=False, id="choices.up", tooltip="Move one choice up"),
        Binding("down", "move(1)", "down", show=False, id="choices.down", tooltip="Move one choice down"),
        Binding("pageup", "move(-10)", "up", show=False, id="choices.page_up", tooltip="Move ten choices up"),
        Binding(
            "pagedown", "move(10)", "down", show=False, id="choices.page_down", tooltip="Ten choices down"
        ),
        Binding(
            "backspace", "rub", "rub out", show=False, id="choices.rub", tooltip="Rub out a letter typed"
        ),
    ]

    class Chosen(Message):
        """A choice was made."""

        def __init__(self, choice: Choice) -> None:
            super().__init__()
            self.choice = choice

    class Filled(Message):
        """The choices have been read."""

        def __init__(self, choices: Sequence[Choice], failure: str = "") -> None:
            super().__init__()
            self.choices, self.failure = choices, failure

    def __init__(self, load: Callable[[], Sequence[Choice]], current: object) -> None:
        super().__init__()
        self._load, self._current = load, current
        self._all: tuple[Choice, ...] | None = None
        self._found: list[Choice] = []
        self._typed = ""
        self._cursor = 0
        self._failure = ""

    def on_mount(self) -> None:
        """Read the choices in a thread: there may be thousands of customers."""
        self.run_worker(self._read, thread=True, group="choices", exclusive=True, description="choices")

    def _read(self) -> None:
        try:
            self.post_message(self.Filled(tuple(self._load())))
        except ColdroundError as error:
            self.post_message(self.Filled((), error.message))

    @on(Filled)
    def _fill(self, message: Filled) -> None:
        self._all, self._failure = tuple(message.choices), message.failure
        self._narrow()
        places = [place for place, choice in enumerate(self._found) if choice.value == self._current]
        self._cursor = places[0] if places and not self._typed else self._cursor
        longest = max((cell_width(clean(choice.label)) for choice in self._all), default=0)
        self.styles.width = min(WIDEST, max(NARROWEST, longest + 4))

    def _narrow(self) -> None:
        self._found = matching(self._all or (), self._typed)
        self._cursor = 0
        self.styles.height = min(TALLEST, max(2, len(self._found) + 1))
        self.refresh()

    def on_key(self, event: events.Key) -> None:
        """Letters narrow the list."""
        if event.is_printable and event.character:
            event.stop()
            event.prevent_default()
            self._typed += clean(event.character)
            self._narrow()

    def check_consume_key(self, key: str, character: str | None) -> bool:
        """Letters and digits belong to what is typed here, not to any other binding."""
        return character is not None and character.isprintable()

    def action_rub(self) -> None:
        """Rub out the last letter typed."""
        self._typed = self._typed[:-1]
        self._narrow()

    def action_move(self, count: int) -> None:
        """Move the cursor."""
        self._cursor = max(0, min(len(self._found) - 1, self._cursor + count))
        self.refresh()

    def action_choose(self) -> None:
        """Take the choice under the cursor."""
        if self._found:
            self.post_message(self.Chosen(self._found[self._cursor]))

    def on_click(self, event: events.Click) -> None:
        """Take the choice that was clicked."""
        place = self._top + event.y - 1
        if event.y > 0 and place < len(self._found):
            self._cursor = place
            self.action_choose()

    @property
    def _top(self) -> int:
        seen = max(1, self.size.height - 1)
        return max(0, self._cursor - seen + 1)

    def render_line(self, y: int) -> Strip:
        """Return one line of cells."""
        width = self.size.width
        line, here = self._head(width) if y == 0 else self._choice(self._top + y - 1, width)
        return to_strip(line, width, styles_for(self.app), row=here, ground=self.background_colors[1])

    def _head(self, width: int) -> tuple[Spans, bool]:
        if self._failure:
            return fit([(" ✕ ", Token.ACT), (self._failure, Token.TEXT)], width), False
        note = "…" if self._all is None else f"{len(self._found):,}"
        typed: Spans = [(" ", Token.TEXT), (self._typed, Token.TEXT), (CURSOR_HERE, Token.HERE)]
        hint: Spans = [] if self._typed else [("type to narrow", Token.DIM)]
        return [*fit([*typed, *hint], width - len(note) - 2), (f" {note} ", Token.DIM)], False

    def _choice(self, place: int, width: int) -> tuple[Spans, bool]:
        if place >= len(self._found):
            nothing = place == 0 and self._all is not None
            return ([("  Nothing like that.", Token.DIM)] if nothing else []), False
        choice, here = self._found[place], place == self._cursor
        taken = "✓" if choice.value == self._current else " "
        sign = CURSOR_HERE if here else " "
        return fit([(sign, Token.HERE), (f"{taken} ", Token.WIN), (choice.label, Token.TEXT)], width), here


class ChoicesScreen(ModalScreen[Choice | None]):
    """Choices under the word they belong to; the result is the choice, or None after Escape."""

    DEFAULT_CSS = """
    ChoicesScreen { background: transparent; }
    ChoicesScreen > ChoiceList { width: 24; height: 2; }
    ChoicesScreen > FrameFooter { dock: bottom; }
    """
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("escape", "leave", "leave", id="choices.leave", tooltip="Leave without a choice"),
    ]

    def __init__(
        self, load: Callable[[], Sequence[Choice]], current: object, *, at: tuple[int, int] = (0, 3)
    ) -> None:
        """Open the choices that ``load`` returns (in a thread), at a cell (x, y) of the screen."""
        super().__init__()
        self._load, self._current, self._at = load, current, at

    def compose(self) -> ComposeResult:
        """Yield the list at its place, pulled in from the right edge."""
        choices = ChoiceList(self._load, self._current)
        x, y = self._at
        choices.styles.offset = (max(0, min(x, self.app.size.width - WIDEST)), y)
        choices.styles.max_height = max(3, self.app.size.height - y - 1)
        yield choices
        yield FrameFooter()

    @on(ChoiceList.Chosen)
    def _take(self, message: ChoiceList.Chosen) -> None:
        self.dismiss(message.choice)

    def action_leave(self) -> None:
        """Leave without a choice."""
        self.dismiss(None)
