"""How a number came about, over the screen that shows it; Escape or Enter closes."""

from collections.abc import Iterator
from typing import TYPE_CHECKING, ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Vertical
from textual.content import Content
from textual.screen import ModalScreen
from textual.widget import Widget

from fleet.tui.footer import FrameFooter
from fleet.tui.headings import section_title
from fleet.tui.scrolling import KeyScroll
from fleet.tui.sheet_rows import cells, wrapped
from fleet.tui.themes import Spans, Token, lines_to_content, styles_for

if TYPE_CHECKING:
    from fleet.desk.derivation import Derivation

LABEL_CELLS = 13
BOUNDS = {"highest", "lowest", "preferred", "recorded", "verdict"}
PARAGRAPHS = {"highest", "lowest", "preferred", "assumed", ""}


def derivation_lines(derivation: "Derivation", width: int) -> Iterator[Spans]:
    """Yield the lines of a derivation in ``width`` cells; a bound starts a paragraph of its own."""
    for number, (label, text) in enumerate(derivation.lines):
        bound = label in BOUNDS
        again = number > 0 and label == derivation.lines[number - 1][0] and bool(label)
        if number and not again and label in PARAGRAPHS:
            yield []
        token = Token.HEAD if bound else Token.DIM if label == "source" else Token.TEXT
        room = width if not label else width - LABEL_CELLS
        for place, line in enumerate(wrapped(text, room) or [""]):
            if not label:
                yield [(line, Token.TEXT)]
                continue
            lead = cells(label if place == 0 else "", LABEL_CELLS)
            yield [(lead, Token.HEAD if bound else Token.DIM), (line, token)]


class _Lines(Widget):
    ALLOW_SELECT = False
    DEFAULT_CSS = "_Lines { height: auto; width: 1fr; }"

    def __init__(self, derivation: "Derivation") -> None:
        super().__init__()
        self._derivation = derivation

    def get_content_height(self, container: object, viewport: object, width: int) -> int:
        """Return the number of lines."""
        return len(list(derivation_lines(self._derivation, max(30, width))))

    def render(self) -> Content:
        """Return the lines."""
        lines = derivation_lines(self._derivation, max(30, self.size.width))
        return lines_to_content(lines, styles_for(self.app))


class _Head(Widget):
    ALLOW_SELECT = False
    DEFAULT_CSS = "_Head { height: 2; width: 1fr; }"

    def __init__(self, title: str) -> None:
        super().__init__()
        self._title = title

    def render(self) -> Content:
        """Return the title."""
        return lines_to_content([section_title(self._title, "", self.size.width)], styles_for(self.app))


class ExplainScreen(ModalScreen[None]):
    """The derivation of one number or finding."""

    DEFAULT_CSS = """
    ExplainScreen { align: center middle; background: $background; }
    ExplainScreen > #explain { width: 100%; max-width: 96; height: 1fr; padding: 1 1 0 1; }
    ExplainScreen KeyScroll { height: 1fr; background: $background; scrollbar-size-vertical: 1; }
    ExplainScreen > FrameFooter { dock: bottom; }
    """
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("escape,enter", "dismiss", "back", id="explain.close", tooltip="Back to the sheet"),
    ]

    def __init__(self, derivation: "Derivation") -> None:
        super().__init__()
        self.derivation = derivation

    def compose(self) -> ComposeResult:
        """Yield title, lines and keys."""
        with Vertical(id="explain"):
            yield _Head(self.derivation.title)
            with KeyScroll():
                yield _Lines(self.derivation)
        yield FrameFooter()
