"""The double axis and the rows on it; expected strings drawn by hand."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fleet.tui.rulers import Axis, AxisMarks, axis_row, reference_rows, round_ticks, ruler
from fleet.tui.themes import Spans, Token

TEN = Axis(0.0, 10.0, 11)  # one cell for each unit


def drawn(spans: Spans) -> str:
    return "".join(text for text, _ in spans)


def row(**marks: object) -> str:
    return drawn(axis_row(TEN, AxisMarks(**marks)))  # type: ignore[arg-type]


def test_ticks_up_down_and_both() -> None:
    scale = ruler(TEN, [(0, "0"), (5, "5"), (10, "10")], [(2, "−20"), (5, "−10"), (9, "0")])
    assert drawn(scale.above) == "0    5   10"
    assert drawn(scale.line) == "┴─┬──┼───┬┴"
    assert drawn(scale.below) == " −20     0 "  # −10 would touch −20


def test_labels_that_would_touch_are_left_out_and_their_ticks_stay() -> None:
    scale = ruler(TEN, [(0, "100"), (2, "200"), (4, "300"), (8, "400")], [])
    assert drawn(scale.above) == "100    400 "
    assert drawn(scale.line) == "┴─┴─┴───┴──"


def test_zero_keeps_its_label() -> None:
    scale = ruler(TEN, [], [(3, "−10"), (5, "0"), (9, "10")])
    assert drawn(scale.below) == "     0  10 "


def test_ticks_off_the_axis_are_left_out() -> None:
    scale = ruler(TEN, [(-5, "−5"), (15, "15")], [(20, "90")])
    assert drawn(scale.line) == "─" * 11
    assert drawn(scale.above).strip() == ""


@pytest.mark.parametrize(
    ("marks", "expected"),
    [
        ({"low": 2, "high": 6, "recorded": 4}, "  [─◆─]    "),
        ({"low": 2, "high": 6, "recorded": 4, "preferred": 3}, "  [○◆─]    "),
        ({"low": 2, "high": 6, "recorded": 4, "preferred": 4}, "  [─◆─]    "),  # what is recorded is on top
        ({"low": 2, "high": 6, "recorded": 9}, "  [───]━━◆ "),
        ({"low": 4, "high": 6, "recorded": 1}, " ◆━━[─]    "),
        ({"low": 2, "high": 6, "recorded": 20}, "  [───]━━━▶"),
        ({"low": 4, "high": 6, "recorded": -3}, "◀━━━[─]    "),
        ({"low": 2, "high": 6, "recorded": 6.2}, "  [───]◆   "),  # the same cell as the bracket
        ({"low": 2, "high": 6, "recorded": 6}, "  [──◆]    "),  # on the bound is inside
        ({"low": 2, "high": 6, "recorded": 2}, "  [◆──]    "),
        ({"low": 2, "high": 6, "preferred": 2, "recorded": 5}, "  [○─◆]    "),
        ({"low": 3, "high": 3.2, "recorded": 3.1}, "   [◆]     "),  # narrower than it can be drawn
        ({"low": 2, "high": None, "recorded": 4}, "  [─◆─╌╌╌╌╌"),
        ({"low": None, "high": 8, "recorded": 9}, "╌╌╌╌╌───]◆ "),
        ({"low": None, "high": None, "recorded": 5}, "╌╌╌╌╌◆╌╌╌╌╌"),
        ({"low": 2, "high": 6}, "  [─?─]    "),
        ({"low": 2, "high": 6, "recorded": 4, "found": 9}, "  [─◆─]╌╌◇ "),
        ({"low": 2, "high": 5, "recorded": 7, "found": 9}, "  [──]━◆╌◇ "),
        ({"low": 4, "high": 8, "recorded": 6, "found": 1}, " ◇╌╌[─◆─]  "),
        ({"low": 2, "high": 6, "recorded": 3, "found": 5}, "  [◆─◇]    "),
        ({"low": 2, "high": 6, "found": 5}, "  [──◇]    "),  # what was typed is no quantity: ◆ goes
        ({"low": 0, "high": 10, "recorded": 12}, "[────────]▶"),  # room is made for what is outside
        ({"low": 0, "high": 10, "recorded": -1}, "◀[────────]"),
        ({"low": 2, "high": 15, "recorded": 12}, "  [───────◆"),  # the bound lies off the axis: no bracket
        ({"window": "unknown", "recorded": 4}, "    ◆      "),
    ],
)
def test_row(marks: dict[str, float | str | None], expected: str) -> None:
    assert row(**marks) == expected


def test_no_window_keeps_the_words_and_the_diamond() -> None:
    axis = Axis(0.0, 30.0, 31)
    none = AxisMarks(low=20, high=12, recorded=28, window="none", severity=Token.ACT)
    assert drawn(axis_row(axis, none)) == "          ] no window [     ◆  "
    among = AxisMarks(low=20, high=12, recorded=15, window="none", severity=Token.ACT)
    assert drawn(axis_row(axis, among)) == "          ] no window [ ◆      "


def test_tokens_of_a_row() -> None:
    marks = AxisMarks(low=2, high=5, recorded=7, found=9, preferred=3, severity=Token.ACT)
    tokens = {text.strip(): token for text, token in axis_row(TEN, marks) if text.strip()}
    assert tokens == {"[○─]": Token.WIN_IN, "━◆": Token.ACT, "╌◇": Token.DIM}
    settled = axis_row(TEN, AxisMarks(low=2, high=6, recorded=4, settled=Token.WIN))
    assert ("[─◆─]", Token.WIN_IN) in settled


def test_references_stand_under_the_axis_beside_the_legend() -> None:
    axis = Axis(0.0, 20.0, 21)
    rows = reference_rows(axis, [(3, "cold, 3")], lead=10, legend=[(" ◆ recorded", Token.DIM)])
    assert [drawn(spans) for spans in rows] == [" ◆ recorded  ▴ cold, 3"]


def test_a_reference_without_room_takes_its_own_row_or_turns_its_label() -> None:
    axis = Axis(0.0, 20.0, 21)
    rows = reference_rows(axis, [(2, "cold"), (5, "hot"), (19, "warmest")], legend=[("◆ left", Token.DIM)])
    expected = ["◆ left", "  ▴ cold", "     ▴ hot", "           warmest ▴"]
    assert [drawn(spans) for spans in rows] == expected


def test_a_reference_off_the_axis_is_left_out() -> None:
    assert reference_rows(TEN, [(40, "hot")]) == []


@pytest.mark.parametrize(
    ("low", "high", "most", "ticks"),
    [
        (0, 49.6, 7, [0, 10, 20, 30, 40, 50]),
        (-4.2, 41, 6, [-10, 0, 10, 20, 30, 40, 50]),
        (0.2, 0.9, 5, [0.2, 0.4, 0.6, 0.8, 1.0]),
        (5, 5, 4, [5, 5.2, 5.4, 5.6, 5.8, 6]),
    ],
)
def test_round_ticks(low: float, high: float, most: int, ticks: list[float]) -> None:
    found = round_ticks(low, high, most)
    if low == high:
        assert found[0] <= low < found[-1]
    else:
        assert found == pytest.approx(ticks)


@given(st.floats(-30, 600), st.floats(0.01, 600), st.integers(2, 12))
def test_round_ticks_span_what_was_asked_for(low: float, length: float, most: int) -> None:
    ticks = round_ticks(low, low + length, most)
    assert ticks[0] <= low + 1e-6
    assert ticks[-1] >= low + length - 1e-6
    assert len(ticks) <= most + 1


@pytest.mark.parametrize(
    ("low", "high", "width", "message"),
    [
        (5, 5, 10, "an axis from 5 to 5: the end must lie above the start"),
        (0, 5, 1, "an axis of 1 cells: at least 2 are needed"),
    ],
)
def test_an_axis_that_cannot_be_drawn_is_refused(low: float, high: float, width: int, message: str) -> None:
    with pytest.raises(ValueError, match=message):
        Axis(low, high, width)


value = st.none() | st.floats(-20, 120)


@given(value, value, value, value, value, st.sampled_from(["known", "none", "unknown"]), st.integers(16, 80))
def test_a_row_always_fills_its_axis(
    low: float | None,
    high: float | None,
    preferred: float | None,
    recorded: float | None,
    found: float | None,
    window: str,
    width: int,
) -> None:
    if low is not None and high is not None and low > high and window == "known":
        low, high = high, low
    marks = AxisMarks(low, high, preferred, recorded, found, window=window)  # type: ignore[arg-type]
    text = drawn(axis_row(Axis(0.0, 100.0, width), marks))
    assert len(text) == width
    if recorded is not None and window == "known":
        assert sum(text.count(mark) for mark in "◆◀▶") >= 1
