"""Windows drawn on the pressure axis of a system: for the sheet and for the form."""

from typing import TYPE_CHECKING, Literal

from fleet.tui.bars import WindowState
from fleet.tui.rulers import Axis, AxisMarks, Ruler, axis_row, reference_rows, round_ticks, ruler
from fleet.tui.signs import severity_token
from fleet.tui.themes import Span, Spans, Token

if TYPE_CHECKING:
    from fleet.desk.axis import PressureAxis, WindowRow

MOST_TICKS = 7
_STATES: dict[str, WindowState] = {"known": "known", "none": "none", "unknown": "unknown"}
Legend = Literal["sheet", "form"]
_LEGENDS: dict[str, Spans] = {
    "sheet": [("◆ recorded  ○ preferred", Token.DIM)],
    "form": [("◇ found  ◆ left  ○ preferred", Token.DIM)],
}


class Drawing:
    """One axis in a number of cells."""

    def __init__(self, axis: "PressureAxis", width: int) -> None:
        ticks = round_ticks(axis.low, axis.high, MOST_TICKS)
        self.shown = axis
        self.axis = Axis(ticks[0], ticks[-1], width)
        labels = [(value, f"{value:g}".replace("-", "−")) for value in ticks]
        self.ruler: Ruler = ruler(self.axis, labels, axis.saturation)

    def window(self, row: "WindowRow", *, found: float | None = None, left: bool = False) -> Spans:
        """Return one window; ``found`` is what was found, ``left`` whether the form shows it."""
        token = severity_token(row.severity)
        inside = Token.WIN if left and not row.severity else token
        recorded = row.recorded
        if row.verdict == "inside" and recorded is not None:  # by less than the tolerance of the verdict
            recorded = recorded if row.low is None else max(recorded, row.low)
            recorded = recorded if row.high is None else min(recorded, row.high)
        marks = AxisMarks(
            low=row.low,
            high=row.high,
            preferred=row.preferred if row.state == "known" else None,
            recorded=recorded,
            found=found,
            severity=token,
            settled=inside,
            window=_STATES[row.state],
        )
        return axis_row(self.axis, marks)

    def references(self, lead: int, legend: Legend, indent: int) -> list[Spans]:
        """Return the rows under the axis: legend, and marks to compare with."""
        signs: list[Span] = [(" " * indent, Token.TEXT), *_LEGENDS[legend]]
        return reference_rows(self.axis, self.shown.references, lead=lead, legend=signs)
