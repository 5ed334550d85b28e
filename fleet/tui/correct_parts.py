"""The parts of the form for correcting settings: rows of fields, ruler, verdict, how it was read."""

from collections.abc import Sequence
from typing import TYPE_CHECKING, ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Horizontal
from textual.content import Content
from textual.message import Message
from textual.widget import Widget

from fleet.tui.pressure_axis import Drawing
from fleet.tui.sheet_rows import INDENT, cells, title_row, wrapped
from fleet.tui.signs import SEVERITY_SIGNS
from fleet.tui.themes import Spans, Token, lines_to_content, styles_for, to_content
from fleet.tui.typed_field import TypedField

if TYPE_CHECKING:
    from fleet.desk.axis import PressureAxis, WindowRow
    from fleet.desk.form import Earlier, FieldVerdict, FormField

LABEL_CELLS = 13
FIELD_CELLS = 14
LIMIT_CELLS = (10, 10, 12)
FOUND_AT = INDENT + LABEL_CELLS
HERE_SIGN = "▸"


class Lines(Widget):
    """Lines of spans, as many as it is given."""

    ALLOW_SELECT = False
    DEFAULT_CSS = "Lines { height: auto; width: 1fr; background: $background; }"

    def __init__(self, *, id: str | None = None, classes: str | None = None) -> None:  # noqa: A002
        super().__init__(id=id, classes=classes)
        self.lines: list[Spans] = []

    def show(self, lines: Sequence[Spans]) -> None:
        """Show other lines."""
        grown = len(lines) != len(self.lines)
        self.lines = list(lines)
        self.refresh(layout=grown)

    def get_content_height(self, container: object, viewport: object, width: int) -> int:
        """Return the number of lines."""
        return len(self.lines)

    def render(self) -> Content:
        """Return the lines."""
        return lines_to_content(self.lines, styles_for(self.app))


def title_line() -> Spans:
    """Return the titles over the fields."""
    lead = " " * FOUND_AT
    fields = cells("as found", FIELD_CELLS + 1) + cells("as left", FIELD_CELLS)
    limits = "".join(map(str.rjust, ("lowest", "highest", "preferred"), LIMIT_CELLS))
    return [(lead + fields + limits, Token.DIM)]


class FieldRow(Horizontal):
    """One setting: name, as found, as left, and its limits."""

    DEFAULT_CSS = """
    FieldRow { height: 1; width: 1fr; }
    FieldRow > Lines { height: 1; }
    FieldRow > .name { width: 16; }
    FieldRow > TypedField { width: 14; margin-right: 1; }
    """

    def __init__(self, field: "FormField") -> None:
        super().__init__()
        self.field = field
        shown = field.recorded or "not recorded"
        self.found = TypedField(placeholder=shown, classes="found")
        self.left = TypedField(placeholder="as found", classes="left")
        self._label = Lines(classes="name")
        self._limits = Lines(classes="limits")

    def compose(self) -> ComposeResult:
        """Yield name, fields and limits."""
        yield self._label
        yield self.found
        yield self.left
        yield self._limits

    @property
    def is_here(self) -> bool:
        """Whether one of its fields has the focus."""
        return self.found.has_focus or self.left.has_focus

    def show(self, window: "WindowRow | None", implied: str | None, *, here: bool) -> None:
        """Show its limits, and whether the cursor is in it."""
        sign, token = (HERE_SIGN, Token.HEAD) if here else (" ", Token.TEXT)
        self._label.show([[(f" {sign} ", Token.HERE), (cells(self.field.label, LABEL_CELLS), token)]])
        self._limits.show([limits_line(window)])
        if implied is not None:
            self.left.placeholder = implied
        elif self.field.setting == "low_pressure_differential":
            self.left.placeholder = "as found"


def limits_line(window: "WindowRow | None") -> Spans:
    """Return lowest, highest and preferred; blank where a setting has no window."""
    if window is None:
        return [("not judged yet".rjust(sum(LIMIT_CELLS)), Token.DIM)]
    if window.state == "none":
        return [("no window".rjust(sum(LIMIT_CELLS)), Token.TEXT)]
    texts = (window.lowest, window.highest, window.preferred_text or "—")
    return [
        (text.rjust(width), Token.DIM if text in {"none", "?", "—"} else Token.WIN)
        for text, width in zip(texts, LIMIT_CELLS, strict=True)
    ]


class ReadWith(Widget, can_focus=True):
    """With what it was read: left and right choose."""

    ALLOW_SELECT = False
    DEFAULT_CSS = "ReadWith { height: 1; width: 1fr; background: $background; }"
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("left", "step(-1)", "left", show=False, id="read.left", tooltip="Choose the one before"),
        Binding("right", "step(1)", "right", show=False, id="read.right", tooltip="Choose the next one"),
    ]

    class Changed(Message):
        """Another one was chosen."""

    def __init__(self, words: Sequence[str], chosen: str) -> None:
        super().__init__()
        self.words, self.chosen = tuple(words), chosen

    def choose(self, word: str) -> None:
        """Choose one."""
        self.chosen = word
        self.refresh()

    def action_step(self, step: int) -> None:
        """Choose a neighbour; it ends at the ends."""
        at = max(0, min(len(self.words) - 1, self.words.index(self.chosen) + step))
        self.choose(self.words[at])
        self.post_message(self.Changed())

    def on_focus(self) -> None:
        """Show that it has the focus."""
        self.refresh()

    def on_blur(self) -> None:
        """Show that it has no focus."""
        self.refresh()

    def render(self) -> Content:
        """Return the words, the chosen one marked."""
        sign = HERE_SIGN if self.has_focus else " "
        spans: Spans = [(f" {sign} ", Token.HERE), (cells("read with", LABEL_CELLS), Token.DIM)]
        for word in self.words:
            here = word == self.chosen
            token = (Token.HERE if self.has_focus else Token.HEAD) if here else Token.DIM
            spans.append((f"{'●' if here else '○'} {word}   ", token))
        return to_content(spans, styles_for(self.app))


def ruler_lines(
    axis: "PressureAxis | None",
    rows: "Sequence[tuple[WindowRow, float | None, bool]]",
    width: int,
) -> list[Spans]:
    """Return windows on the axis; with each its value as found and whether it is shown as left."""
    shown = [(row, found, left) for row, found, left in rows if not row.difference]
    if axis is None or not shown:
        return []
    lead = INDENT + LABEL_CELLS + 1
    drawing = Drawing(axis, width - lead - 3)
    lines: list[Spans] = []
    for row, found, left in shown:
        name = cells(row.part or row.label, LABEL_CELLS + 1)
        lines.append([(" " * INDENT + name, Token.TEXT), *drawing.window(row, found=found, left=left)])
    below = axis.saturation_unit if axis.saturation else ""
    scale = ((axis.unit, drawing.ruler.above), ("", drawing.ruler.line), (below, drawing.ruler.below))
    for name, line in scale:
        lines.append([(" " * INDENT + cells(name, LABEL_CELLS + 1), Token.DIM), *line])
    return [*lines, *drawing.references(lead, "form", INDENT)]


def verdict_lines(problem: str, verdict: "FieldVerdict | None", width: int) -> list[Spans]:
    """Return how the setting under the cursor would stand, or what keeps it from being read."""
    if problem:
        sign, word, token, text = "?", "", Token.NEXT, problem
    elif verdict is None:
        return [[]]
    elif verdict.severity:
        sign, token = SEVERITY_SIGNS[verdict.severity]
        word, text = verdict.severity_words, verdict.text
    elif verdict.inside:
        sign, word, token, text = "✓", "inside", Token.WIN, verdict.text
    else:
        sign, word, token, text = "?", "", Token.DIM, verdict.text
    head = f"{sign} {word}" + ("   " if word else "")
    lines = wrapped(text, width - INDENT - len(head) - 1) or [""]
    first: Spans = [(" " * INDENT, Token.TEXT), (head, token), (lines[0], Token.TEXT)]
    return [first, *([(" " * (INDENT + len(head)) + line, Token.TEXT)] for line in lines[1:])]


def why_lines(
    label: str, window: "WindowRow | None", earlier: "Sequence[Earlier]", width: int, room: int
) -> list[Spans]:
    """Return why the limits stand where they do, and the values before, in at most ``room`` lines."""
    lines: list[Spans] = []
    if window is not None:
        lines.append(list(title_row("Why these limits", f"{label}, {window.unit}", width).spans))
        for name, value, reason in (
            ("highest", window.highest, window.high_reason),
            ("lowest", window.lowest, window.low_reason),
        ):
            for place, text in enumerate(wrapped(reason, width - 26)):
                head = f"   {name:<10}{value:>9}  " if place == 0 else " " * 24
                lines.append([(head[:13], Token.DIM), (head[13:], Token.WIN), (text, Token.TEXT)])
        lines.append([])
    if earlier:
        lines.append(list(title_row("Earlier values", label, width).spans))
    for one in earlier:
        said = f"{one.day.rjust(14)}  {cells(one.who, 16)}{cells(one.value, 12)}"
        lines.append([(said, Token.TEXT), (cells(one.how, width - 45), Token.DIM)])
    return lines[:room]
