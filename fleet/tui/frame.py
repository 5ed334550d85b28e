"""What every screen has around its body: places on top, messages and keys below."""

from collections.abc import Iterable
from dataclasses import dataclass
from os import environ
from typing import Any, ClassVar

from textual import events
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Vertical
from textual.content import Content
from textual.message import Message
from textual.screen import Screen
from textual.scrollbar import ScrollBar
from textual.timer import Timer
from textual.widget import Widget

from fleet.text import cell_width, clean, cut
from fleet.tui.asking import AskScreen
from fleet.tui.footer import FrameFooter
from fleet.tui.guard import CrashGuard
from fleet.tui.help import HelpScreen, active_keys, key_name
from fleet.tui.scrollbars import LineScrollBar
from fleet.tui.themes import DARK, Spans, Token, own_themes, styles_for, to_content

PLACES = ("audit", "rounds", "customers", "register")
PLACE_GAP = 3
WIDE = 110
SAVED_FOR_S = 5.0
STOP_HINT = "Esc stops, what is done stays"
LONGEST_BAR, SHORTEST_BAR = 24, 6


@dataclass(frozen=True, slots=True)
class FrameFacts:
    """What stands at the right of the first row."""

    register: str = ""
    date: str = ""


def place_starts() -> list[tuple[str, int, int]]:
    """Return each place with its first cell and its number of cells in the first row."""
    starts, start = [], 1
    for number, place in enumerate(PLACES, 1):
        length = len(f"{number} {place}")
        starts.append((place, start, length))
        start += length + PLACE_GAP
    return starts


def place_rows(current: str, facts: FrameFacts, width: int) -> tuple[Spans, Spans]:
    """Return the row of places and the rule whose heavy part lies under the current one."""
    row: Spans = [(" ", Token.TEXT)]
    heavy = (0, 0)
    end = 1
    for number, (place, start, length) in enumerate(place_starts(), 1):
        here = place == current
        row += [(" " * (start - end), Token.TEXT), (f"{number} ", Token.HERE if here else Token.DIM)]
        row.append((place.capitalize(), Token.HEAD if here else Token.DIM))
        end = start + length
        heavy = (start - 1, length + 2) if here else heavy
    date = clean(facts.date)
    name = cut(clean(facts.register), max(0, width - end - cell_width(date) - 6))
    right = f"{name}  {date}" if name else date
    free = width - end - cell_width(right) - 1
    if free > 0:
        row.append((" " * free + right, Token.DIM))
    rule = [("─" * heavy[0], Token.FAINT), ("━" * heavy[1], Token.HERE)]
    return row, [*rule, ("─" * max(0, width - sum(heavy)), Token.FAINT)]


class Places(Widget):
    """The first two rows. A click on a place is the same as its digit."""

    ALLOW_SELECT = False
    DEFAULT_CSS = """
    Places {
        dock: top; height: 2; width: 1fr; background: $background;
        text-wrap: nowrap; text-overflow: ellipsis;
    }
    """

    def __init__(self, current: str) -> None:
        super().__init__()
        self.current = current

    def render(self) -> Content:
        """Return both rows."""
        facts = self.app.facts if isinstance(self.app, FrameApp) else FrameFacts()
        styles = styles_for(self.app)
        row, rule = place_rows(self.current, facts, self.size.width)
        return Content("\n").join([to_content(row, styles), to_content(rule, styles)])

    async def on_click(self, event: events.Click) -> None:
        """Go to the place that was clicked."""
        for place, start, length in place_starts():
            if event.y == 0 and start <= event.x < start + length and isinstance(self.app, FrameApp):
                await self.app.action_place(place)


class MessageRow(Widget):
    """The row above the footer, there only while there is something to say."""

    ALLOW_SELECT = False
    DEFAULT_CSS = """
    MessageRow {
        height: auto; max-height: 4; width: 1fr; padding: 0 1; display: none; background: $background;
    }
    """

    def __init__(self) -> None:
        super().__init__()
        self._spans: Spans = []
        self._progress: tuple[str, int, int | None] | None = None
        self._until_key = False
        self._timer: Timer | None = None

    @property
    def is_working(self) -> bool:
        """Whether it shows work that can be stopped."""
        return self._progress is not None

    @property
    def text(self) -> str:
        """What it says, for tests and for a screen reader."""
        return "".join(text for text, _ in self._shown())

    def working(self, what: str, done: int, total: int | None = None) -> None:
        """Show progress: ``what`` is done ``done`` times of ``total``."""
        self._say([], progress=(what, done, total))

    def failed(self, head: str, text: str) -> None:
        """Say what did not happen, the cause and what to do; it stays until a key is pressed."""
        self._say([("✕ ", Token.ACT), (head, Token.ACT), (f" {text}", Token.TEXT)], until_key=True)

    def saved(self, head: str, text: str) -> None:
        """Say what was done and what it changed, for five seconds."""
        self._say([("✓ ", Token.WIN), (head, Token.WIN), (f" {text}", Token.TEXT)], seconds=SAVED_FOR_S)

    def note(self, text: str) -> None:
        """Say something plain, until a key is pressed."""
        self._say([(text, Token.TEXT)], until_key=True)

    def clear(self) -> None:
        """Give the row back to the body."""
        self._say([])

    def key_pressed(self) -> None:
        """Take away what has been read: a failure or a note."""
        if self._until_key:
            self.clear()

    def _say(
        self,
        spans: Spans,
        *,
        progress: tuple[str, int, int | None] | None = None,
        until_key: bool = False,
        seconds: float | None = None,
    ) -> None:
        if self._timer is not None:
            self._timer.stop()
        self._timer = None if seconds is None else self.set_timer(seconds, self.clear)
        self._spans, self._progress, self._until_key = spans, progress, until_key
        self.display = bool(spans) or progress is not None
        self.refresh(layout=True)

    def _shown(self) -> Spans:
        if self._progress is None:
            return self._spans
        return working_spans(*self._progress, width=self.size.width)

    def render(self) -> Content:
        """Return the message."""
        return to_content(self._shown(), styles_for(self.app))


def working_spans(what: str, done: int, total: int | None, *, width: int) -> Spans:
    """Return ``Auditing 100,000 boxes ━━━━━──── 61,200  Esc stops, what is done stays``."""
    figure = f" {done:,}  "
    spans: Spans = [(f"{what} ", Token.TEXT)]
    if total:
        room = width - cell_width(what) - 1 - len(figure) - len(STOP_HINT)
        length = min(LONGEST_BAR, max(SHORTEST_BAR, room))
        heavy = min(length, max(0, length * done // total))
        spans += [("━" * heavy, Token.HERE), ("─" * (length - heavy), Token.FAINT)]
    return [*spans, (figure, Token.TEXT), (STOP_HINT, Token.DIM)]


def _hidden(key: str, action: str, tooltip: str) -> Binding:
    return Binding(key, action, key, show=False, id=f"frame.{key}", tooltip=tooltip)


class FrameScreen(Screen[Any]):
    """A screen in its frame; subclasses yield their body and override :meth:`step_back`.

    The focus goes to the first widget with the class ``first-focus``, or to a list or a field.
    """

    HORIZONTAL_BREAKPOINTS = [(0, "-narrow"), (WIDE, "-wide")]  # noqa: RUF012 (the toolkit's own form)
    AUTO_FOCUS: ClassVar[str | None] = ".first-focus, WindowedList, Input"
    PLACE: ClassVar[str] = PLACES[0]
    HELP_PAGE: ClassVar[str] = ""
    DEFAULT_CSS = """
    FrameScreen { background: $background; color: $foreground; layout: vertical; }
    FrameScreen ScrollableContainer { scrollbar-size: 1 1; }
    FrameScreen Input, FrameScreen FrameFooter { scrollbar-size: 0 0; }
    FrameScreen Input.-textual-compact {
        background: $panel; color: $foreground;
        &:focus { background: $primary 35%; }
        &:ansi { background: ansi_default; text-style: underline; }
    }
    FrameScreen > #frame-bottom { dock: bottom; height: auto; background: $background; }
    """
    BINDINGS: ClassVar[list[BindingType]] = [
        _hidden("escape", "back", "One step back; stops what is working"),
        _hidden("tab", "app.focus_next", "Next area or field"),
        _hidden("shift+tab", "app.focus_previous", "Area or field before"),
    ]

    class WorkStopped(Message):
        """Escape, while the message row showed work."""

    def __init__(self, place: str | None = None) -> None:
        """Make a screen; ``place`` is where it was opened from, if that is not its own place."""
        super().__init__()
        self.place = place or self.PLACE

    def compose(self) -> ComposeResult:
        """Yield the frame around the body."""
        yield Places(self.place)
        yield from self.compose_body()
        with Vertical(id="frame-bottom"):
            yield MessageRow()
            yield FrameFooter()

    def compose_body(self) -> ComposeResult:
        """Yield what stands between the rule and the message row."""
        yield from ()

    @property
    def messages(self) -> MessageRow:
        """The message row."""
        return self.query_one(MessageRow)

    @property
    def is_wide(self) -> bool:
        """Whether a second column is to be had."""
        return self.size.width >= WIDE

    def help_page(self) -> str:
        """Return the page of the handbook that belongs to this screen."""
        return self.HELP_PAGE

    @property
    def is_changed(self) -> bool:
        """Whether something was typed that would be lost."""
        return False

    def action_back(self) -> None:
        """Stop what is working, else go one step back."""
        if self.messages.is_working:
            self.post_message(self.WorkStopped())
        else:
            self.step_back()

    def step_back(self) -> None:
        """Leave a screen that was opened over another one; never the program."""
        if len(self.app.screen_stack) > 1:
            self.dismiss()


def _place(number: int, place: str) -> Binding:
    words = f"Go to {place.capitalize()}"
    return Binding(str(number), f"place('{place}')", show=False, id=f"place.{place}", tooltip=words)


class FrameApp(CrashGuard[None]):
    """An application of framed screens, with the two own themes and the keys that work everywhere."""

    ENABLE_COMMAND_PALETTE = True
    TITLE = "Coldround"
    BINDINGS: ClassVar[list[BindingType]] = [
        *(_place(number, place) for number, place in enumerate(PLACES, 1)),
        Binding("f1,question_mark", "help", "help", id="app.help", tooltip="What is shown, and the keys"),
        Binding("ctrl+q", "quit", show=False, priority=True, id="app.quit", tooltip="Quit"),
        Binding("ctrl+c", "help_quit", show=False, id="app.interrupt", tooltip="Copy what is selected"),
    ]

    def __init__(self, facts: FrameFacts | None = None) -> None:
        super().__init__()
        self.facts = facts or FrameFacts()
        ScrollBar.renderer = LineScrollBar
        for theme in own_themes():
            self.register_theme(theme)
        asked = environ.get("TEXTUAL_THEME", DARK)
        self.theme = asked if asked in self.available_themes else DARK

    def show_facts(self, facts: FrameFacts) -> None:
        """Show another register or another day at the right of the first row."""
        self.facts = facts
        for screen in self.screen_stack:
            for places in screen.query(Places):
                places.refresh()

    def get_key_display(self, binding: Binding) -> str:
        """Name a key as it is written on it."""
        return binding.key_display or key_name(binding.key)

    async def on_event(self, event: events.Event) -> None:
        """Before a key does anything, take away the message that waited for one."""
        if isinstance(event, events.Key) and not event.is_forwarded:
            for row in self._message_rows():
                row.key_pressed()
        await super().on_event(event)

    def _message_rows(self) -> Iterable[MessageRow]:
        return self.screen.query(MessageRow) if self._screen_stack else ()

    async def action_place(self, place: str) -> None:
        """Go to a place; each keeps where one was."""
        if place in self._modes:
            await self.switch_mode(place)

    def action_help(self) -> None:
        """Show the help of the screen."""
        page = self.screen.help_page() if isinstance(self.screen, FrameScreen) else ""
        self.push_screen(HelpScreen(page, active_keys(self.screen)))

    async def action_quit(self) -> None:
        """Quit; ask first when something that was typed is not saved. Quitting again is an answer."""
        screens = (screen for stack in self._screen_stacks.values() for screen in stack)
        unsaved = any(isinstance(screen, FrameScreen) and screen.is_changed for screen in screens)
        if not unsaved or isinstance(self.screen, AskScreen):
            self.exit()
            return

        def answered(leave: bool | None) -> None:
            if leave:
                self.exit()

        await self.push_screen(AskScreen("Quit without saving what was typed?"), answered)

    def action_help_quit(self) -> None:
        """Say how to leave, where Ctrl+C was meant to."""
        for row in self._message_rows():
            row.note("Ctrl+Q quits.")
