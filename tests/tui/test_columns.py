"""Columns are placed in any width, and their cells fit exactly."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fleet.text import cell_width
from fleet.tui.columns import Column, fit, heading_line, most_skipped, natural_width, place_columns, row_line
from fleet.tui.themes import Spans, Token


def text_of(spans: Spans) -> str:
    return "".join(text for text, _ in spans)


def named(
    title: str, width: int, *, frozen: bool = False, grow: int = 0, strong: bool = False
) -> Column[str]:
    return Column(
        title, width, lambda row, cells: [(row, Token.TEXT)], frozen=frozen, grow=grow, strong=strong
    )


COLUMNS = [named("site", 10, frozen=True, strong=True), named("one", 8), named("two", 8), named("three", 8)]


def test_natural_width_counts_the_cursor_and_no_gap_behind_the_last() -> None:
    assert natural_width(COLUMNS) == 1 + 10 + 2 + 8 + 2 + 8 + 2 + 8
    assert natural_width([]) == 1


def test_columns_follow_each_other_with_their_gaps() -> None:
    assert [(place.start, place.width) for place in place_columns(COLUMNS, 80)] == [
        (1, 10),
        (13, 8),
        (23, 8),
        (33, 8),
    ]


def test_the_last_column_is_cut_and_the_rest_left_out() -> None:
    assert [(place.start, place.width) for place in place_columns(COLUMNS, 26)] == [(1, 10), (13, 8), (23, 3)]


def test_frozen_columns_stay_when_others_are_passed_over() -> None:
    titles = [place.column.title for place in place_columns(COLUMNS, 26, skipped=2)]
    assert titles == ["site", "three"]


def test_how_many_columns_can_be_passed_over() -> None:
    assert most_skipped(COLUMNS, 41) == 0
    assert most_skipped(COLUMNS, 40) == 1
    assert most_skipped(COLUMNS, 31) == 1
    assert most_skipped(COLUMNS, 30) == 2
    assert most_skipped(COLUMNS, 5) == 2


def test_spare_room_goes_to_the_columns_that_grow() -> None:
    columns = [named("a", 10, grow=2), named("b", 5), named("c", 10, grow=1)]
    widths = [place.width for place in place_columns(columns, 40)]
    assert widths == [16, 5, 14]
    assert 1 + sum(widths) + 4 == 40


@pytest.mark.parametrize(
    ("spans", "width", "align", "text"),
    [
        ([("ab", Token.TEXT), ("cd", Token.DIM)], 6, "left", "abcd  "),
        ([("ab", Token.TEXT), ("cd", Token.DIM)], 6, "right", "  abcd"),
        ([("ab", Token.TEXT), ("cd", Token.DIM)], 4, "left", "abcd"),
        ([("ab", Token.TEXT), ("cd", Token.DIM)], 3, "left", "ab…"),
        ([("ab", Token.TEXT), ("cd", Token.DIM)], 2, "left", "a…"),
        ([("ab", Token.TEXT), ("", Token.DIM)], 2, "left", "ab"),
        ([("冷蔵庫", Token.TEXT)], 4, "left", "冷… "),
        ([("a\x1b[b\n", Token.TEXT)], 6, "left", "a[b   "),
        ([], 3, "left", "   "),
    ],
)
def test_fit(spans: Spans, width: int, align: str, text: str) -> None:
    assert text_of(fit(spans, width, align)) == text  # type: ignore[arg-type]


@given(st.lists(st.tuples(st.text(), st.just(Token.TEXT)), max_size=4), st.integers(0, 30))
def test_fitted_spans_have_exactly_the_width(spans: Spans, width: int) -> None:
    assert cell_width(text_of(fit(spans, width))) == width


def test_heading_and_row_stand_under_each_other() -> None:
    placed = place_columns(COLUMNS, 80)
    assert text_of(heading_line(placed)) == " site        one       two       three   "
    line = row_line(placed, "x[b]", "▌", strong=True)
    assert text_of(line) == "▌x[b]        x[b]      x[b]      x[b]    "
    assert [token for text, token in line if text == "x[b]"] == [
        Token.HEAD,
        Token.TEXT,
        Token.TEXT,
        Token.TEXT,
    ]
