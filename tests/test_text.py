"""Typed text comes out as one line that a terminal only prints, in an exact number of cells."""

import subprocess
import sys
import unicodedata

import pytest
from hypothesis import given
from hypothesis import strategies as st
from rich.cells import cell_len

from fleet.text import cell_width, clean, cut, pad

NASTY = [
    "[",
    "[/]",
    "[/oops]b",
    "\\",
    "\\[b]",
    "[@click=app.bell]x",
    "[ @click=app.bell]x",
    "[WP-01]",
    "$primary",
    "{x}",
    "%s",
]


@pytest.mark.parametrize("text", NASTY)
def test_brackets_and_backslashes_are_text(text: str) -> None:
    assert clean(text) == text


@pytest.mark.parametrize(
    ("typed", "shown"),
    [
        ("\x1b[31mred\x1b[0m", "[31mred[0m"),  # the escape goes, what it introduced stays to be seen
        ("a\x9b31mb", "a31mb"),  # the C1 form of the same
        ("\x1b]0;title\x07x", "]0;titlex"),
        ("a\x00b\x7fc", "abc"),
        ("one\r\ntwo\nthree\tfour\x0bfive", "one two three four five"),
        ("a\u2028b\u2029c\x85d", "a b c d"),
        ("\u202egnp.exe", "gnp.exe"),
        ("a\u2066b\u2069c\u200ed\u200fe\u061cf", "abcdef"),
        ("\ufeffname\u200b", "name"),
        ("flag\U000e0067\U000e007f", "flag"),
        ("half \ud83d of a pair", "half  of a pair"),
    ],
)
def test_what_a_terminal_would_obey_is_taken_out(typed: str, shown: str) -> None:
    assert clean(typed) == shown


@pytest.mark.parametrize("text", ["می\u200cخواهم", "क्\u200dष", "👩\u200d🔧", "Ångström", "e\u0301", "冷蔵庫"])
def test_joiners_and_marks_of_scripts_stay(text: str) -> None:
    assert clean(text) == text


@given(st.text())
def test_clean_text_holds_no_control_and_is_stable(text: str) -> None:
    shown = clean(text)
    assert clean(shown) == shown
    for character in shown:
        assert unicodedata.category(character) not in {"Cc", "Cs", "Zl", "Zp"}
        assert unicodedata.bidirectional(character) not in {"LRE", "RLE", "LRO", "RLO", "PDF", "LRI", "RLI"}
    shown.encode("utf-8")


# independent: the width tables of the library that draws the screens.
@pytest.mark.independent
@pytest.mark.parametrize(
    "text",
    [
        "plain",
        "冷蔵庫",
        "e\u0301",
        "👍🏽",
        "👩\u200d🔧x",
        "❤\ufe0f",
        "한국어",
        "ﾊﾝｶｸ",
        "ｆｕｌｌ",
        "قفل",
        "■◧□·◆━╌▌▸°−…",
    ],
)
def test_width_agrees_with_the_drawing_library(text: str) -> None:
    assert cell_width(text) == cell_len(text)


@pytest.mark.independent
def test_width_agrees_over_all_letters_and_marks_of_the_first_plane() -> None:
    unlike = []
    for code in range(0x20, 0x10000):
        character = chr(code)
        if clean(character) != character or unicodedata.category(character) in {"Cn", "Co"}:
            continue
        if cell_width(character) != cell_len(character):
            unlike.append(code)
    # Trigrams, monograms and hexagrams became wide in Unicode 16, later than this Python's tables.
    allowed = [range(0x2630, 0x2638), range(0x268A, 0x2690), range(0x4DC0, 0x4E00)]
    assert [code for code in unlike if not any(code in span for span in allowed)] == []


@pytest.mark.parametrize(
    ("text", "cells", "shown"),
    [
        ("Quay Hall Fisheries", 16, "Quay Hall Fishe…"),
        ("Quay Hall", 9, "Quay Hall"),
        ("冷蔵庫", 6, "冷蔵庫"),
        ("冷蔵庫", 5, "冷蔵…"),
        ("冷蔵庫", 4, "冷…"),  # half a wide character is never shown
        ("冷蔵庫", 1, "…"),
        ("e\u0301e\u0301e\u0301", 2, "e\u0301…"),  # a mark stays with its letter
        ("👩\u200d🔧👩\u200d🔧", 3, "👩\u200d🔧…"),
        ("abc", 0, ""),
        ("", 3, ""),
    ],
)
def test_cut_by_cells(text: str, cells: int, shown: str) -> None:
    assert cut(text, cells) == shown


@pytest.mark.parametrize(
    ("text", "cells", "align", "shown"),
    [
        ("ab", 5, "left", "ab   "),
        ("ab", 5, "right", "   ab"),
        ("ab", 5, "center", " ab  "),
        ("冷蔵庫", 4, "left", "冷… "),
    ],
)
def test_pad(text: str, cells: int, align: str, shown: str) -> None:
    assert pad(text, cells, align) == shown  # type: ignore[arg-type]


@given(st.text().map(clean), st.integers(0, 30), st.sampled_from(["left", "right", "center"]))
def test_padded_text_has_exactly_the_cells_asked_for(text: str, cells: int, align: str) -> None:
    assert cell_width(pad(text, cells, align)) == cells  # type: ignore[arg-type]
    assert cell_width(cut(text, cells)) <= cells


def test_the_module_needs_no_library() -> None:
    program = "import sys, fleet.text; print(sorted({'rich', 'textual', 'wcwidth'} & set(sys.modules)))"
    done = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, check=True)
    assert done.stdout == "[]\n"
