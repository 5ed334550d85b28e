"""One system on one sheet: what is wrong, its windows, its past, what is due, what is recorded."""

from collections.abc import Callable, Iterator
from typing import TYPE_CHECKING, ClassVar

from textual import on, work
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Horizontal
from textual.content import Content
from textual.message import Message
from textual.widget import Widget

from fleet.desk.correcting import Saved, last_correction, undo
from fleet.desk.opened import Desk
from fleet.errors import ColdroundError
from fleet.text import cell_width, clean, cut
from fleet.tui.explaining import ExplainScreen
from fleet.tui.frame import FrameScreen
from fleet.tui.lives import life_rows
from fleet.tui.messages import RegisterChanged
from fleet.tui.sheet_pane import SheetPane
from fleet.tui.sheet_rows import SheetRow, Stop, StopId
from fleet.tui.sheet_sections import (
    HISTORY,
    caution_rows,
    control_rows,
    due_rows,
    history_rows,
    recorded_rows,
    wrong_rows,
)
from fleet.tui.themes import Spans, Token, lines_to_content, styles_for

if TYPE_CHECKING:
    from fleet.desk.sheet import Sheet, SheetFinding

FACT_GAP = 3
FindingKey = tuple[str, str, str]


def head_lines(sheet: "Sheet", width: int) -> list[Spans]:
    """Return name and facts, which stay while the sections scroll."""
    name = f"{clean(sheet.site)}  {clean(sheet.system)}"
    customer = clean(sheet.customer)
    room = width - 3 - cell_width(name)
    right = cut(customer, max(0, room))
    gap = " " * max(1, width - 2 - cell_width(name) - cell_width(right))
    facts = (" " * FACT_GAP).join(clean(fact) for fact in sheet.headline)
    return [
        [(" ", Token.TEXT), (cut(name, width - 2), Token.HEAD), (gap + right, Token.DIM)],
        [(" ", Token.TEXT), (cut(facts, width - 2), Token.DIM)],
    ]


class SheetHead(Widget):
    """Name and facts of the system."""

    ALLOW_SELECT = False
    DEFAULT_CSS = """
    SheetHead { height: 2; width: 1fr; background: $background; }
    """

    def __init__(self) -> None:
        super().__init__()
        self._sheet: Sheet | None = None

    def show(self, sheet: "Sheet") -> None:
        """Show another system."""
        self._sheet = sheet
        self.refresh()

    def render(self) -> Content:
        """Return both lines."""
        width = self.size.width
        if self._sheet is None:
            return lines_to_content([[(" ····", Token.FAINT)]], styles_for(self.app))
        return lines_to_content(head_lines(self._sheet, width), styles_for(self.app))


class SystemSheet(FrameScreen):
    """One system, opened from any list."""

    AUTO_FOCUS = ".first-focus"
    DEFAULT_CSS = """
    SystemSheet #sheet-body { height: 1fr; }
    SystemSheet #sheet-main { width: 1fr; }
    SystemSheet #sheet-side { width: 40; display: none; }
    SystemSheet.-wide #sheet-side { display: block; }
    SystemSheet.-wide SheetHead { height: 3; }
    """
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("c", "correct", "correct", id="sheet.correct", tooltip="Correct the settings of this system"),
        Binding("n", "step(1)", "next", id="sheet.next", tooltip="Next system of the list one came from"),
        Binding(
            "b",
            "step(-1)",
            "before",
            show=False,
            id="sheet.before",
            tooltip="System before in the list one came from",
        ),
        Binding("h", "history", "history", id="sheet.history", tooltip="Go to the history"),
        Binding(
            "u",
            "undo",
            "undo",
            id="sheet.undo",
            tooltip="Undo the correction made here: appends the values before",
        ),
        Binding("escape", "back", "back", id="sheet.back", tooltip="Back to where one came from"),
    ]

    class Loaded(Message):
        """A sheet was read, or was not."""

        def __init__(self, sheet: "Sheet | None", error: ColdroundError | None = None) -> None:
            super().__init__()
            self.sheet, self.error = sheet, error

    class Undone(Message):
        """An undo ended; ``error`` says why it did not, where it did not."""

        def __init__(self, error: ColdroundError | None = None) -> None:
            super().__init__()
            self.error = error

    def __init__(
        self,
        desk: Desk,
        system_id: int,
        *,
        place: str,
        step: Callable[[int], int | None] | None = None,
        focus: FindingKey | None = None,
    ) -> None:
        """Open a system.

        Parameters
        ----------
        place
            The place one came from, which stays marked.
        step
            Moves the cursor of the list one came from and returns the next system, None at its end.
        focus
            Part, rule and setting of the finding one came from.
        """
        super().__init__(place)
        self.desk, self.system_id = desk, system_id
        self._step = step
        self._wanted: StopId | None = None if focus is None else ("finding", *focus)
        self._sheet: Sheet | None = None
        self._settled: list[SheetFinding] = []
        self._correction: int | None = None
        self._opened_at = desk.now()

    def help_page(self) -> str:
        """Return the page of the handbook."""
        from fleet.handbook import page

        return page("sheet")

    def compose_body(self) -> ComposeResult:
        """Yield the head, the sections, and beside them what is recorded and what happened."""
        yield SheetHead()
        with Horizontal(id="sheet-body"):
            yield SheetPane(id="sheet-main", classes="first-focus")
            yield SheetPane(id="sheet-side")

    @property
    def main(self) -> SheetPane:
        """The sections."""
        return self.query_one("#sheet-main", SheetPane)

    @property
    def side(self) -> SheetPane:
        """What stands beside them on a wide screen."""
        return self.query_one("#sheet-side", SheetPane)

    @property
    def sheet(self) -> "Sheet | None":
        """What is shown, None while it is on its way."""
        return self._sheet

    # Reading ---------------------------------------------------------------------------------------------

    def on_mount(self) -> None:
        """Read the system."""
        self._load()

    def refresh_register(self) -> None:
        """Show the register anew."""
        self._load()

    @work(thread=True, exclusive=True, group="sheet")
    def _load(self) -> None:
        from fleet.desk.sheet import sheet

        try:
            self.post_message(self.Loaded(sheet(self.desk, self.system_id)))
        except ColdroundError as error:
            self.post_message(self.Loaded(None, error))

    @on(Loaded)
    def show_sheet(self, message: Loaded) -> None:
        """Show what was read; what was open before and is not any more reads as settled."""
        if message.error is not None or message.sheet is None:
            self.messages.failed("Not read.", "" if message.error is None else message.error.message)
            return
        before, now = self._sheet, message.sheet
        if now.system_id != self.system_id:
            return
        if before is not None and before.system_id == now.system_id:
            self._keep_settled(before, now)
        self._sheet = now
        self.query_one(SheetHead).show(now)
        self._show_rows()
        self.refresh_bindings()

    def _keep_settled(self, before: "Sheet", now: "Sheet") -> None:
        still = {one.key for one in now.findings}
        known = [*self._settled, *before.findings]
        self._settled = list({one.key: one for one in known if one.key not in still}.values())

    def _show_rows(self) -> None:
        wanted, self._wanted = self._wanted, None
        self.main.show(self._main_rows, cursor=wanted)
        self.side.show(self._side_rows)

    def on_resize(self) -> None:
        """Sections move to the second column when there is room for one."""
        if self._sheet is not None:
            self.call_after_refresh(self._show_rows)

    def _main_rows(self, width: int, cursor: StopId | None) -> Iterator[SheetRow]:
        sheet = self._sheet
        if sheet is None:
            return
        yield from wrong_rows(sheet, self._settled, width, cursor, all_said=self.is_wide)
        yield from control_rows(sheet, width)
        yield from life_rows(sheet, width)
        yield from due_rows(sheet, width)
        if not self.is_wide:
            yield from history_rows(sheet, width)
            yield from recorded_rows(sheet, width)
        yield from caution_rows(sheet, width)

    def _side_rows(self, width: int, cursor: StopId | None) -> Iterator[SheetRow]:
        if self._sheet is not None and self.is_wide:
            yield from recorded_rows(self._sheet, width)
            yield from history_rows(self._sheet, width)

    # Keys ------------------------------------------------------------------------------------------------

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Show only the keys that do something now."""
        if action == "step":
            return self._step is not None
        if action == "undo":
            return self._correction is not None
        if action in {"correct", "history"}:
            return self._sheet is not None
        return True

    @on(SheetPane.Opened)
    def explain(self, message: SheetPane.Opened) -> None:
        """Show how what is under the cursor came about."""
        self.app.push_screen(ExplainScreen(message.chosen.explained))

    def _stop(self) -> Stop | None:
        pane = self.focused if isinstance(self.focused, SheetPane) else self.main
        return pane.stop

    def action_step(self, by: int) -> None:
        """Go to another system of the list one came from."""
        system_id = self._step(by) if self._step is not None else None
        if system_id is None:
            self.messages.note("That is the last one of the list." if by > 0 else "That is the first one.")
            return
        self.system_id = system_id
        self._settled, self._correction = [], None
        self._sheet = None
        self.main.start_over()
        self.side.start_over()
        self._load()

    def action_history(self) -> None:
        """Go to the history."""
        pane = self.side if self.is_wide else self.main
        pane.focus()
        pane.jump_to(HISTORY)

    def action_correct(self) -> None:
        """Correct the settings of this system, beginning with what is under the cursor."""
        from fleet.tui.correct import CorrectScreen

        stop = self._stop()
        about = None if stop is None or stop.about is None else (stop.about[0], "", stop.about[1])
        self.app.push_screen(
            CorrectScreen(self.desk, self.system_id, place=self.place, focus=about), self._corrected
        )

    def _corrected(self, saved: Saved | None) -> None:
        if saved is None:
            return
        self._correction = saved.act_id
        self._load()
        self.app.post_message(RegisterChanged())
        self.messages.saved("Saved.", saved_words(saved))
        self.refresh_bindings()

    @work(thread=True, exclusive=True, group="undo")
    def action_undo(self) -> None:
        """Append the values that stood before the correction made here."""
        try:
            if self._correction is not None:
                undo(self.desk, self._correction)
                self._correction = last_correction(self.desk, self.system_id, since=self._opened_at)
        except ColdroundError as error:
            self.post_message(self.Undone(error))
            return
        self.post_message(self.Undone())

    @on(Undone)
    def show_undone(self, message: Undone) -> None:
        """Say what was undone."""
        if message.error is not None:
            self.messages.failed("Not undone.", message.error.message)
            return
        self._load()
        self.app.post_message(RegisterChanged())
        self.messages.saved("Undone.", "The values before were appended; nothing was taken out.")
        self.refresh_bindings()


def saved_words(saved: Saved) -> str:
    """Return what a correction changed, in words."""
    settled = "1 finding settled" if saved.settled == 1 else f"{saved.settled} findings settled"
    return f"{settled}, {saved.open} open on this system. u undoes."
