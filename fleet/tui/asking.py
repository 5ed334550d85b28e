"""One question before something is lost: Enter does it, Escape does not."""

from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Vertical
from textual.content import Content
from textual.screen import ModalScreen
from textual.widget import Widget

from fleet.tui.footer import FrameFooter
from fleet.tui.themes import Token, styles_for, to_content


class _Question(Widget):
    ALLOW_SELECT = False
    DEFAULT_CSS = "_Question { height: auto; width: 1fr; padding: 0 1; }"

    def __init__(self, text: str) -> None:
        super().__init__()
        self._text = text

    def render(self) -> Content:
        """Return the question."""
        return to_content([("? ", Token.NEXT), (self._text, Token.TEXT)], styles_for(self.app))


class AskScreen(ModalScreen[bool]):
    """A question in the place of the message row; the screen underneath stays in sight."""

    DEFAULT_CSS = """
    AskScreen { background: transparent; align: left bottom; }
    AskScreen > Vertical { dock: bottom; height: auto; background: $background; }
    """
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("enter", "answer(True)", "leave", id="ask.yes", tooltip="Leave; what was typed is lost"),
        Binding("escape", "answer(False)", "stay", id="ask.no", tooltip="Stay"),
    ]

    def __init__(self, question: str) -> None:
        super().__init__()
        self.question = question

    def compose(self) -> ComposeResult:
        """Yield the question and its keys."""
        with Vertical():
            yield _Question(self.question)
            yield FrameFooter()

    def action_answer(self, answer: bool) -> None:
        """Answer."""
        self.dismiss(answer)
