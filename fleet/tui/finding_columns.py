"""The columns of a list of findings; each row draws its window with the recorded value on it."""

from typing import TYPE_CHECKING, Literal

from fleet.text import cell_width
from fleet.tui.bars import BAR_CELLS, LOADING_BAR, bar_heading, window_bar
from fleet.tui.columns import Column
from fleet.tui.signs import SEVERITY_SIGNS, severity_token
from fleet.tui.themes import Spans, Token

if TYPE_CHECKING:
    from fleet.desk.findings import FindingView

WHOLE_CELLS = 5
"""Cells before the decimal point of a recorded value."""
SPREAD_US, SPREAD_METRIC = "14°", "8°"


def _sign(view: "FindingView", width: int) -> Spans:
    return [SEVERITY_SIGNS[view.severity]]


def _system(view: "FindingView", width: int) -> Spans:
    whole = view.system_and_part
    return [(whole if cell_width(whole) <= width else view.row.system, Token.TEXT)]


def _recorded(view: "FindingView", width: int) -> Spans:
    if not view.figure:
        return [(" " * (width - cell_width(view.unit)) + view.unit, Token.DIM)]
    whole, point, decimals = view.figure.partition(".")
    number = whole.rjust(WHOLE_CELLS) + (point + decimals if point else "  ")
    unit = view.unit
    if cell_width(f"{number} {unit}") > width:
        unit = unit.removesuffix("(g)")  # a pressure is gauge unless it says absolute
    return [(number, Token.TEXT), (f" {unit}", Token.DIM)]


def _bar(view: "FindingView", width: int) -> Spans:
    bar = view.bar
    if bar is None:
        return [(" " * BAR_CELLS, Token.TEXT)]
    state: Literal["known", "none", "unknown"] = "known"
    if bar.state in {"none", "unknown"}:
        state = "none" if bar.state == "none" else "unknown"
    token = severity_token(view.severity)
    return window_bar(
        bar.low,
        bar.high,
        bar.recorded,
        out=bar.out,
        cell=bar.cell,
        severity=token,
        window=state,
    )


def _out(view: "FindingView", width: int) -> Spans:
    out = view.out if view.out.endswith("°") or not view.out else view.out + " "
    return [(out, severity_token(view.severity))]


def finding_columns(spread: str) -> "tuple[Column[FindingView], ...]":
    """Return the columns; ``spread`` is what the bar's sides stand for."""
    return (
        Column("", 1, _sign, gap=1, frozen=True, loading="·"),
        Column("site", 15, lambda v, w: [(v.site_name, Token.TEXT)], gap=1, frozen=True, strong=True),
        Column("system", 7, _system, gap=1, strong=True),
        Column("finding", 12, lambda v, w: [(v.label, Token.TEXT)], gap=0),
        Column("recorded", 12, _recorded, gap=1),
        Column(bar_heading(spread), BAR_CELLS, _bar, gap=0, loading=LOADING_BAR),
        Column("out ", 7, _out, align="right", gap=0, loading=""),
    )
