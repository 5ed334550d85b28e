"""The bar of a list row; all expected strings were drawn by hand from the rules of the module."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fleet.tui.bars import BAR_CELLS, bar_heading, window_bar
from fleet.tui.themes import Spans, Token


def drawn(spans: Spans) -> str:
    return "".join(text for text, _ in spans)


def token_of(spans: Spans, mark: str) -> Token:
    return next(token for text, token in spans if mark in text)


@pytest.mark.parametrize(
    ("out", "bar"),
    [
        (11.0, "       [─────]━━━━━◆ "),  # 5.5 cells round up to 6
        (-9.2, "  ◆━━━━[─────]       "),
        (-22.4, "◀━━━━━━[─────]       "),
        (15.0, "       [─────]━━━━━━▶"),  # 7.5 is further than the 7 cells there are
        (14.0, "       [─────]━━━━━━◆"),
        (-14.0, "◆━━━━━━[─────]       "),
        (0.01, "       [─────]◆      "),  # however little, it is seen
        (-0.01, "      ◆[─────]       "),
        (3.0, "       [─────]━◆     "),
        (2.9, "       [─────]◆      "),
    ],
)
def test_outside(out: float, bar: str) -> None:
    assert drawn(window_bar(5.0, 30.2, 99.0, out=out, cell=2.0)) == bar


@pytest.mark.parametrize(
    ("recorded", "bar"),
    [
        (0.0, "       [◆────]       "),  # the bounds belong to the window, but the brackets stay
        (10.0, "       [◆────]       "),
        (25.0, "       [─◆───]       "),
        (50.0, "       [──◆──]       "),
        (75.0, "       [───◆─]       "),
        (100.0, "       [────◆]       "),
    ],
)
def test_inside_stands_at_its_share(recorded: float, bar: str) -> None:
    assert drawn(window_bar(0.0, 100.0, recorded, cell=2.0)) == bar


@pytest.mark.parametrize(
    ("low", "high", "margin", "bar"),
    [
        (3.0, None, 2.0, "       [◆──╌╌╌       "),
        (3.0, None, 9.0, "       [───╌◆╌       "),
        (3.0, None, 99.0, "       [───╌◆╌       "),
        (None, 3.0, 2.0, "       ╌╌╌──◆]       "),
        (None, 3.0, 99.0, "       ╌◆╌───]       "),
        (3.0, None, None, "       [──◆╌╌╌       "),
        (None, None, None, "       ╌╌╌◆╌╌╌       "),
    ],
)
def test_inside_with_an_open_side_stands_by_its_distance(
    low: float | None, high: float | None, margin: float | None, bar: str
) -> None:
    assert drawn(window_bar(low, high, 5.0, cell=2.0, margin=margin)) == bar


@pytest.mark.parametrize(
    ("low", "high", "out", "bar"),
    [
        (10.0, None, -7.0, "   ◆━━━[───╌╌╌       "),
        (None, 10.0, 0.6, "       ╌╌╌───]◆      "),
    ],
)
def test_outside_with_an_open_side(low: float | None, high: float | None, out: float, bar: str) -> None:
    assert drawn(window_bar(low, high, 1.0, out=out, cell=2.0)) == bar


def test_a_window_of_one_value_holds_it_in_the_middle() -> None:
    assert drawn(window_bar(8.0, 8.0, 8.0, cell=2.0)) == "       [──◆──]       "


@pytest.mark.parametrize(
    ("window", "bar"), [("none", "    ] no window [    "), ("unknown", "          ?          ")]
)
def test_no_window_and_unknown_window(window: str, bar: str) -> None:
    spans = window_bar(20.0, 15.0, 12.0, cell=2.0, window=window, severity=Token.ACT)  # type: ignore[arg-type]
    assert drawn(spans) == bar
    assert token_of(spans, bar.strip()) is Token.ACT


def test_not_recorded() -> None:
    spans = window_bar(5.0, 30.0, None, cell=2.0, severity=Token.NEXT)
    assert drawn(spans) == "       [──?──]       "
    assert token_of(spans, "?") is Token.NEXT_IN


def test_the_tail_has_the_severity_and_the_window_its_own_token() -> None:
    spans = window_bar(5.0, 30.2, 41.0, out=11.0, cell=2.0, severity=Token.ACT)
    assert token_of(spans, "◆") is Token.ACT
    assert token_of(spans, "[") is Token.WIN_IN


def test_a_diamond_inside_stands_on_the_tint_of_the_window() -> None:
    assert token_of(window_bar(0.0, 10.0, 5.0, cell=2.0, severity=Token.DIM), "◆") is Token.DIM_IN


def test_heading_stands_over_the_window() -> None:
    assert drawn(bar_heading("14°")) == "−14°   window    +14°"


bound = st.none() | st.floats(-50, 500)


@given(bound, bound, bound, st.floats(-500, 500), st.floats(0.1, 50), st.none() | st.floats(0, 500))
def test_always_21_cells_with_one_mark(
    low: float | None,
    high: float | None,
    recorded: float | None,
    out: float,
    cell: float,
    margin: float | None,
) -> None:
    bar = drawn(window_bar(low, high, recorded, out=out, cell=cell, margin=margin))
    assert len(bar) == BAR_CELLS
    assert sum(bar.count(mark) for mark in "◆◀▶?") == 1
    if recorded is not None and out > 0:
        assert "━" not in bar[:14]
