"""The pressure axis of a system sheet: one line with two scales, and rows of windows above it.

Pressures stand linearly on the axis, so ticks of pressure are evenly spaced and point up; ticks of
saturation temperature stand at the pressures the caller gives for them and point down. Labels come ready
made. A difference has no place here: it has no saturation temperature.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from math import ceil, floor, log10

from fleet.text import cell_width
from fleet.tui.bars import (
    BEYOND_HIGH,
    BEYOND_LOW,
    FOUND,
    LINE,
    NO_BOUND,
    NO_WINDOW_TEXT,
    PREFERRED,
    RECORDED,
    REFERENCE,
    TAIL,
    WindowState,
)
from fleet.tui.themes import Span, Spans, Token

LABEL_GAP = 2
OPEN_LINE = 3  # cells of solid line beside a bracket before an open side turns into dashes

Tick = tuple[float, str]


@dataclass(frozen=True, slots=True)
class Axis:
    """A linear axis: ``low`` stands in the first cell, ``high`` in the last of ``width`` cells."""

    low: float
    high: float
    width: int

    def __post_init__(self) -> None:
        if not self.high > self.low:
            raise ValueError(f"an axis from {self.low} to {self.high}: the end must lie above the start")
        if self.width < 2:
            raise ValueError(f"an axis of {self.width} cells: at least 2 are needed")

    def cell(self, value: float) -> int:
        """Return the cell of a value, the nearest end for one that is off the axis."""
        share = (value - self.low) / (self.high - self.low)
        return min(self.width - 1, max(0, floor(share * (self.width - 1) + 0.5)))

    def holds(self, value: float) -> bool:
        """Return whether the value lies on the axis."""
        return self.low <= value <= self.high


def round_ticks(low: float, high: float, most: int) -> list[float]:
    """Return at most ``most`` + 1 evenly spaced round values (steps 1, 2, 5) that span low to high.

    >>> round_ticks(0, 49.6, 7)
    [0.0, 10.0, 20.0, 30.0, 40.0, 50.0]
    """
    if not high > low:
        high = low + 1
    rough = (high - low) / max(1, most)
    power = 10.0 ** floor(log10(rough))
    for factor in (1, 2, 5, 10, 20):
        step = factor * power
        first, last = floor(low / step), ceil(high / step)
        if last - first <= most:
            break
    return [round(index * step, 10) for index in range(first, last + 1)]


@dataclass(frozen=True, slots=True)
class Ruler:
    """Three lines of the same width: labels of pressure, the axis, labels of saturation temperature."""

    above: Spans
    line: Spans
    below: Spans


def ruler(axis: Axis, pressure: Iterable[Tick], saturation: Iterable[Tick]) -> Ruler:
    """Return the double axis. Labels that would touch are left out, their ticks stay."""
    up = [(axis.cell(value), label) for value, label in pressure if axis.holds(value)]
    down = [(axis.cell(value), label) for value, label in saturation if axis.holds(value)]
    ups, downs = {cell for cell, _ in up}, {cell for cell, _ in down}
    line = "".join(_tick(cell in ups, cell in downs) for cell in range(axis.width))
    return Ruler(
        above=[(_labels(up, axis.width), Token.DIM)],
        line=[(line, Token.DIM)],
        below=[(_labels(down, axis.width), Token.DIM)],
    )


def _tick(up: bool, down: bool) -> str:
    return {(True, True): "┼", (True, False): "┴", (False, True): "┬", (False, False): LINE}[up, down]


def _labels(ticks: Sequence[tuple[int, str]], width: int) -> str:
    """Write each label over its tick; zero has a place before the others, as it is looked for first."""
    taken: list[tuple[int, int, str]] = []
    for cell, label in sorted(ticks, key=lambda tick: (tick[1] != "0", tick[0])):
        length = cell_width(label)
        start = min(max(0, cell - length // 2), width - length)
        apart = all(
            start >= end + LABEL_GAP or start + length + LABEL_GAP <= first for first, end, _ in taken
        )
        if start >= 0 and apart:
            taken.append((start, start + length, label))
    text = ""
    for start, _, label in sorted(taken):
        text += " " * (start - cell_width(text)) + label
    return text + " " * (width - cell_width(text))


@dataclass(frozen=True, slots=True)
class AxisMarks:
    """What one row of the axis shows, in the unit of the axis; None for what there is not.

    ``severity`` colours the tail and a diamond outside, ``settled`` the diamond inside.
    """

    low: float | None = None
    high: float | None = None
    preferred: float | None = None
    recorded: float | None = None
    found: float | None = None
    severity: Token = Token.TEXT
    settled: Token = Token.TEXT
    window: WindowState = "known"


def axis_row(axis: Axis, marks: AxisMarks) -> Spans:
    """Return one row of exactly ``axis.width`` cells: the window and what lies in and outside it."""
    row = _Row(axis.width)
    if marks.window == "none":
        _draw_no_window(row, axis, marks)
    elif marks.window == "known":
        _draw_window(row, axis, marks)
    else:
        for value, mark in ((marks.found, FOUND), (marks.recorded, RECORDED)):
            if value is not None:
                row.put(axis.cell(value), mark, Token.DIM if mark == FOUND else marks.settled)
    return row.spans()


class _Row:
    """Cells that are written over each other and come out as spans."""

    def __init__(self, width: int) -> None:
        self._cells: list[Span] = [(" ", Token.TEXT)] * width

    def put(self, cell: int, text: str, token: Token) -> None:
        for offset, character in enumerate(text):
            if 0 <= cell + offset < len(self._cells):
                self._cells[cell + offset] = (character, token)

    def spans(self) -> Spans:
        joined: Spans = []
        for character, token in self._cells:
            if joined and joined[-1][1] is token:
                joined[-1] = (joined[-1][0] + character, token)
            else:
                joined.append((character, token))
        return joined


@dataclass(frozen=True, slots=True)
class _Window:
    """The cells of the brackets; off the axis (-1 or its width) where a side is open or off the axis."""

    left: int
    right: int
    open_left: bool
    open_right: bool

    def place(self, cell: int) -> int:
        """Move a cell that belongs inside off the brackets."""
        return min(max(cell, self.left + 1), self.right - 1)


def _draw_window(row: _Row, axis: Axis, marks: AxisMarks) -> None:
    window = _place_window(axis, marks)
    first, last = max(0, window.left), min(axis.width - 1, window.right)
    row.put(first, LINE * (last - first + 1), Token.WIN_IN)
    if window.open_left:
        row.put(0, NO_BOUND * (window.right - OPEN_LINE), Token.WIN_IN)
    if window.open_right:
        start = window.left + 1 + OPEN_LINE
        row.put(start, NO_BOUND * (axis.width - start), Token.WIN_IN)
    row.put(window.left, "[", Token.WIN_IN)
    row.put(window.right, "]", Token.WIN_IN)
    if marks.preferred is not None:
        row.put(window.place(axis.cell(marks.preferred)), PREFERRED, Token.WIN_IN)
    if marks.found is not None:
        _draw_value(row, axis, marks, window, marks.found, (FOUND, NO_BOUND, Token.DIM, Token.DIM))
    if marks.recorded is not None:
        look = (RECORDED, TAIL, marks.severity, marks.settled)
        _draw_value(row, axis, marks, window, marks.recorded, look)
    elif marks.found is None:
        row.put(window.place((first + last) // 2), "?", marks.severity.inside)


def _place_window(axis: Axis, marks: AxisMarks) -> _Window:
    """Return the cells of the brackets, with a cell between them and one for a value outside."""
    values = [value for value in (marks.recorded, marks.found) if value is not None]
    low, high = marks.low, marks.high
    shut_left, shut_right = low is not None and axis.holds(low), high is not None and axis.holds(high)
    left = axis.cell(low) if low is not None and shut_left else -1
    right = axis.cell(high) if high is not None and shut_right else axis.width
    if not shut_left:
        right = max(right, 1)
    if not shut_right:
        left = min(left, axis.width - 2)
    if shut_left and any(value < marks.low for value in values if marks.low is not None):
        left = max(left, 1)
    if shut_right and any(value > marks.high for value in values if marks.high is not None):
        right = min(right, axis.width - 2)
    if shut_left and shut_right and right - left < 2:
        left = max(0, min(left, axis.width - 3))
        right = left + 2
    return _Window(left, right, low is None, high is None)


def _draw_value(
    row: _Row,
    axis: Axis,
    marks: AxisMarks,
    window: _Window,
    value: float,
    look: tuple[str, str, Token, Token],
) -> None:
    mark, tail, outside, inside = look
    cell = axis.cell(value)
    if marks.high is not None and value > marks.high:
        end = min(axis.width - 1, max(cell, window.right + 1))
        row.put(window.right + 1, tail * (end - window.right - 1), outside)
        row.put(end, mark if axis.holds(value) else BEYOND_HIGH, outside)
    elif marks.low is not None and value < marks.low:
        end = max(0, min(cell, window.left - 1))
        row.put(end, tail * (window.left - end), outside)
        row.put(end, mark if axis.holds(value) else BEYOND_LOW, outside)
    else:
        row.put(window.place(cell), mark, inside.inside)


def _draw_no_window(row: _Row, axis: Axis, marks: AxisMarks) -> None:
    bounds = [value for value in (marks.low, marks.high, marks.recorded) if value is not None]
    middle = axis.cell(sum(bounds[:2]) / len(bounds[:2])) if bounds else axis.width // 2
    length = len(NO_WINDOW_TEXT)
    start = min(max(0, middle - length // 2), axis.width - length)
    for value, mark, token in ((marks.found, FOUND, Token.DIM), (marks.recorded, RECORDED, marks.severity)):
        if value is not None:
            cell = axis.cell(value)
            # Beside the words, where it would stand among them.
            row.put(cell if not start <= cell < start + length else start + length + 1, mark, token)
    row.put(start, NO_WINDOW_TEXT, marks.severity)


def reference_rows(
    axis: Axis, references: Sequence[Tick], *, lead: int = 0, legend: Sequence[Span] = ()
) -> list[Spans]:
    """Return rows of ``lead`` + axis width cells with ``▴`` under the axis and its label beside it.

    The legend stands at the left of the first row; a reference that would touch anything takes a row of
    its own.
    """
    width = lead + axis.width
    used = sum(cell_width(text) for text, _ in legend)
    rows: list[Spans] = [list(legend)] if legend else []
    for value, label in references:
        if not axis.holds(value):
            continue
        mark = lead + axis.cell(value)
        text, start = f"{REFERENCE} {label}", mark
        if start + cell_width(text) > width:
            text = f"{label} {REFERENCE}"
            start = max(0, mark + 1 - cell_width(text))
        if rows and start >= used + LABEL_GAP:
            rows[-1].append((" " * (start - used) + text, Token.DIM))
        else:
            rows.append([(" " * start + text, Token.DIM)])
        used = start + cell_width(text)
    return rows
