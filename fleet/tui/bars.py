"""The small bar of a list row: a window that always stands in the same cells, and how far out a value is.

A light line is what is allowed, a heavy line is how much is not; brackets are the window, the diamond is
what is recorded. The bar has 21 cells: 7 below the window, 7 of the window, 7 above it. Outside, one cell
stands for a fixed amount, the same for every row, so that lengths compare down the list. Inside, the place
is the share of the window, kept off the brackets.
"""

from math import floor
from typing import Literal

from fleet.tui.themes import Spans, Token

SIDE = 7
WINDOW = 7
BAR_CELLS = SIDE + WINDOW + SIDE

RECORDED, FOUND, PREFERRED, REFERENCE = "◆", "◇", "○", "▴"
TAIL, LINE, NO_BOUND = "━", "─", "╌"
BEYOND_LOW, BEYOND_HIGH = "◀", "▶"
NO_WINDOW_TEXT = "] no window ["
LOADING_BAR = " " * SIDE + "[" + LINE * (WINDOW - 2) + "]" + " " * SIDE

WindowState = Literal["known", "none", "unknown"]


def window_bar(
    low: float | None,
    high: float | None,
    recorded: float | None,
    *,
    out: float = 0.0,
    cell: float,
    severity: Token = Token.TEXT,
    window: WindowState = "known",
    margin: float | None = None,
) -> Spans:
    """Return the 21 cells of a row as spans.

    Parameters
    ----------
    low, high, recorded
        Bounds and value in one unit; None for no bound on that side, or nothing recorded.
    out
        How far outside: negative below the window, positive above it, 0 inside; in the unit of ``cell``.
    cell
        What one cell outside stands for (2 °F of saturation temperature, say).
    severity
        The token of the diamond and of its tail.
    window
        ``none`` where no value can satisfy all constraints, ``unknown`` where too little is recorded to say.
    margin
        Distance to the only bound, inside, in the unit of ``cell``; used where a side is open.
    """
    if window == "none":
        return [(NO_WINDOW_TEXT.center(BAR_CELLS), severity)]
    if window == "unknown":
        return [("?".center(BAR_CELLS), severity)]
    cells = 0 if recorded is None else _cells_out(out, cell)
    below = _tail(cells, severity) if cells < 0 else [(" " * SIDE, Token.TEXT)]
    above = _tail(cells, severity) if cells > 0 else [(" " * SIDE, Token.TEXT)]
    return below + _window(low, high, recorded, cells, cell, severity, margin) + above


def _cells_out(out: float, cell: float) -> int:
    """Return how many cells lie between the bracket and the diamond, the diamond among them."""
    if out == 0:
        return 0
    cells = max(1, floor(abs(out) / cell + 0.5))
    return cells if out > 0 else -cells


def _tail(cells: int, severity: Token) -> Spans:
    count = min(abs(cells), SIDE)
    above = cells > 0
    end = RECORDED if abs(cells) <= SIDE else (BEYOND_HIGH if above else BEYOND_LOW)
    blank = (" " * (SIDE - count), Token.TEXT)
    mark = TAIL * (count - 1) + end if above else end + TAIL * (count - 1)
    return [(mark, severity), blank] if above else [blank, (mark, severity)]


def _window(
    low: float | None,
    high: float | None,
    recorded: float | None,
    cells: int,
    cell: float,
    severity: Token,
    margin: float | None,
) -> Spans:
    drawn = list(_empty_window(low is not None, high is not None))
    if recorded is None:
        # The bounds may stand without a value: "[──?──]".
        drawn[WINDOW // 2] = "?"
        return _marked(drawn, WINDOW // 2, severity)
    if cells != 0:
        return [("".join(drawn), Token.WIN_IN)]
    place = _place_inside(low, high, recorded, None if margin is None else margin / cell)
    drawn[place] = RECORDED
    return _marked(drawn, place, severity)


def _empty_window(has_low: bool, has_high: bool) -> str:
    half = WINDOW // 2
    if has_low and has_high:
        return "[" + LINE * (WINDOW - 2) + "]"
    if has_low:
        return "[" + LINE * half + NO_BOUND * half
    if has_high:
        return NO_BOUND * half + LINE * half + "]"
    return NO_BOUND * WINDOW


def _place_inside(low: float | None, high: float | None, recorded: float, margin_cells: float | None) -> int:
    """Return the cell of the window, 1 to 5: never on a bracket."""
    interior = WINDOW - 2
    if low is not None and high is not None:
        share = 0.5 if high <= low else (recorded - low) / (high - low)
        return 1 + min(interior - 1, max(0, floor(share * interior)))
    if margin_cells is None or (low is None and high is None):
        return WINDOW // 2
    steps = min(interior, max(1, floor(margin_cells + 0.5)))
    return steps if low is not None else WINDOW - 1 - steps


def _marked(drawn: list[str], place: int, token: Token) -> Spans:
    before, mark, after = "".join(drawn[:place]), drawn[place], "".join(drawn[place + 1 :])
    return [(before, Token.WIN_IN), (mark, token.inside), (after, Token.WIN_IN)]


def bar_heading(amount: str) -> Spans:
    """Return the 21 cells above the bars: what lies at their ends, ``−14°   window    +14°``.

    ``amount`` is the text of seven cells, without a sign.
    """
    return [(f"−{amount}".ljust(SIDE) + "window".ljust(WINDOW) + f"+{amount}".rjust(SIDE), Token.DIM)]
