"""The key ``e``: a list, as it is filtered and ordered, written as CSV to a file one names."""

from pathlib import Path
from typing import TYPE_CHECKING, Any, ClassVar

from textual import on, work
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Horizontal, Vertical
from textual.content import Content
from textual.message import Message
from textual.screen import ModalScreen
from textual.widget import Widget
from textual.widgets import Input, Static
from textual.worker import get_current_worker

from fleet.desk.csv_files import CsvList, Written, is_there, proposed_file, write_list
from fleet.errors import ColdroundError
from fleet.text import cell_width, clean
from fleet.tui.footer import FrameFooter
from fleet.tui.frame import FrameScreen
from fleet.tui.themes import Spans, Token, styles_for, to_content

if TYPE_CHECKING:
    from fleet.desk.opened import Desk

STOP_HINT = "Esc stops, no file stays"
LONGEST_BAR = 24


def write_csv(screen: FrameScreen, desk: "Desk", listed: CsvList[Any]) -> None:
    """Ask for a file name over a screen, write the list, and say there where it was written."""

    def tell(written: Written | None) -> None:
        if written is None:
            return
        if written.stopped:
            screen.messages.note("Stopped. No file was written.")
        else:
            rows = "1 row" if written.rows == 1 else f"{written.rows:,} rows"
            screen.messages.saved("Written.", f"{rows} to {written.path}")

    screen.app.push_screen(CsvScreen(listed, proposed_file(listed.what, desk.today)), tell)


class _CsvLine(Widget):
    """What there is to say above the field: a question, a failure, or how far it is."""

    ALLOW_SELECT = False
    DEFAULT_CSS = "_CsvLine { height: auto; max-height: 3; width: 1fr; }"

    def __init__(self) -> None:
        super().__init__()
        self._spans: Spans = []

    @property
    def text(self) -> str:
        """What it says."""
        return "".join(text for text, _ in self._spans)

    def say(self, spans: Spans) -> None:
        """Say something else."""
        self._spans = spans
        self.refresh(layout=True)

    def render(self) -> Content:
        """Return the line."""
        return to_content(self._spans, styles_for(self.app))


class _NameField(Input):
    """The file name."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("enter", "submit", "write", id="csv.submit", tooltip="Write the file"),
    ]


class CsvScreen(ModalScreen[Written | None]):
    """A file name under the list; Enter writes, Escape leaves, or stops what is being written."""

    DEFAULT_CSS = """
    CsvScreen { background: transparent; }
    CsvScreen > #csv-bottom { dock: bottom; height: auto; background: $background; }
    CsvScreen _CsvLine { padding: 0 1; }
    CsvScreen #csv-name { height: 1; padding: 0 1; }
    CsvScreen #csv-name Static { width: 5; color: $foreground 74%; }
    CsvScreen Input {
        width: 1fr; background: $panel; color: $foreground;
        &:focus { background: $primary 35%; }
        &:ansi { background: ansi_default; text-style: underline; }
    }
    """
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("escape", "leave", "leave", id="csv.leave", tooltip="Leave; stops what is being written"),
    ]

    class Told(Message):
        """So many rows of so many are written."""

        def __init__(self, done: int, total: int) -> None:
            super().__init__()
            self.done, self.total = done, total

    class Ended(Message):
        """The file is written, or it is not."""

        def __init__(self, written: Written | None, error: ColdroundError | None = None) -> None:
            super().__init__()
            self.written, self.error = written, error

    def __init__(self, listed: CsvList[Any], proposed: Path) -> None:
        super().__init__()
        self.listed, self.proposed = listed, proposed
        self._agreed: Path | None = None
        self._writing = False

    def compose(self) -> ComposeResult:
        """Yield the question, the field and the keys."""
        with Vertical(id="csv-bottom"):
            yield _CsvLine()
            with Horizontal(id="csv-name"):
                yield Static("file", markup=False)
                yield _NameField(str(self.proposed), compact=True, select_on_focus=False)
            yield FrameFooter()

    @property
    def line(self) -> _CsvLine:
        """What is said above the field."""
        return self.query_one(_CsvLine)

    def on_mount(self) -> None:
        """Ask."""
        self._ask()
        field = self.query_one(Input)
        field.focus()
        field.cursor_position = len(field.value)

    def _ask(self) -> None:
        what = f"Write these {self.listed.what} as CSV, all of them, in this order."
        self.line.say([(what, Token.TEXT)])

    @on(Input.Submitted)
    def submit(self, event: Input.Submitted) -> None:
        """Enter in the field writes."""
        event.stop()
        self.action_write()

    @on(Input.Changed)
    def name_anew(self, event: Input.Changed) -> None:
        """Another name is another question."""
        event.stop()
        self._agreed = None
        if not self._writing:
            self._ask()

    def action_write(self) -> None:
        """Write, after a second Enter where a file would be replaced."""
        typed = clean(self.query_one(Input).value).strip()
        if self._writing:
            return
        if not typed:
            self._fail("Name a file.")
            return
        path = Path(typed).expanduser()
        if is_there(path) and path != self._agreed:
            self._agreed = path
            self.line.say([("There is a file of this name. Enter again replaces it.", Token.NEXT)])
            return
        self._writing = True
        self.query_one(Input).disabled = True
        self.set_focus(None)
        self._show(0, 0)
        self._write(path)

    @work(thread=True, exclusive=True, group="csv", exit_on_error=False)
    def _write(self, path: Path) -> None:
        worker = get_current_worker()

        def tell(done: int, total: int) -> None:
            self.post_message(self.Told(done, total))

        try:
            written = write_list(path, self.listed, tell=tell, stop=lambda: worker.is_cancelled)
        except ColdroundError as error:
            self.post_message(self.Ended(None, error))
            return
        self.post_message(self.Ended(written))

    @on(Told)
    def show_told(self, message: Told) -> None:
        """Show how far it is."""
        if self._writing:
            self._show(message.done, message.total)

    def _show(self, done: int, total: int) -> None:
        what = f"Writing {total:,} {self.listed.what} " if total else f"Writing {self.listed.what} "
        figure = f" {done:,}  "
        room = self.app.size.width - 2 - cell_width(what) - len(figure) - len(STOP_HINT)
        length = max(0, min(LONGEST_BAR, room))
        heavy = length * done // total if total else 0
        bar: Spans = [("━" * heavy, Token.HERE), ("─" * (length - heavy), Token.FAINT)]
        self.line.say([(what, Token.TEXT), *bar, (figure, Token.TEXT), (STOP_HINT, Token.DIM)])

    @on(Ended)
    def end(self, message: Ended) -> None:
        """Leave with what was written; stay where it was not."""
        self._writing = False
        if message.error is None:
            self.dismiss(message.written)
            return
        field = self.query_one(Input)
        field.disabled = False
        field.focus()
        self._fail(message.error.message)

    def _fail(self, why: str) -> None:
        self.line.say([("✕ Not written. ", Token.ACT), (why, Token.TEXT)])

    def action_leave(self) -> None:
        """Stop what is being written, else leave."""
        if self._writing:
            self.workers.cancel_group(self, "csv")
        else:
            self.dismiss(None)
