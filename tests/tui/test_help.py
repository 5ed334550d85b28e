"""Help shows the page as text and the keys that work."""

import pytest

from fleet.tui.help import HelpScreen, active_keys, key_lines, key_name, page_lines
from fleet.tui.themes import Spans, Token
from tests.tui.demo import DemoSource
from tests.tui.driving import press, running, top
from tests.tui.snapshots import screen_text


def text_of(lines: list[Spans]) -> list[str]:
    return ["".join(text for text, _ in line) for line in lines]


@pytest.mark.parametrize("key", ["f1", "question_mark"])
async def test_help_opens_with_the_page_and_the_keys_and_closes(key: str) -> None:
    async with running(DemoSource(27)) as (pilot, audit):
        await press(pilot, key)
        assert type(top(pilot)) is HelpScreen
        text = screen_text(pilot.app)
        assert "[b]Brackets[/b] are text here." in text
        assert "Open the row under the cursor" in text
        await press(pilot, key)
        assert top(pilot) is audit


async def test_only_keys_that_work_are_listed_and_same_ones_stand_together() -> None:
    async with running(DemoSource(27)) as (_, audit):
        keys = {what: key for key, what in active_keys(audit)}
        assert keys["Open the row under the cursor"] == "Enter"
        assert keys["What is shown, and the keys"] == "F1  ?"
        assert keys["Go to Customers"] == "3"
        assert "Show the columns further left" not in keys
        assert keys["Quit"] == "Ctrl+Q"


async def test_help_scrolls_by_keys() -> None:
    async with running(DemoSource(27)) as (pilot, _):
        await press(pilot, "f1")
        assert "Quit" not in screen_text(pilot.app)
        await press(pilot, "end")
        assert "Quit" in screen_text(pilot.app)


def test_a_page_is_wrapped_and_nothing_in_it_is_interpreted() -> None:
    page = "# Head\nOne two\nthree [b]x[/b] `c`\n\n- a long item here\n    kept   as it is\nlast"
    assert text_of(page_lines(page, 14)) == [
        "Head",
        "One two three",
        "[b]x[/b] `c`",
        "",
        "- a long item",
        "  here",
        "    kept   as it is",
        "last",
    ]
    assert page_lines("# Head", 20)[0][0][1] is Token.HEAD


def test_an_escape_sequence_in_a_page_is_harmless() -> None:
    assert text_of(page_lines("a\x1b[31mb", 20)) == ["a[31mb"]


def test_long_words_for_a_key_are_wrapped_beside_it() -> None:
    lines = text_of(key_lines([("Enter", "Open the row that is under the cursor")], 40))
    assert lines == ["  Enter       Open the row that is under", "              the cursor"]


@pytest.mark.parametrize(
    ("key", "name"),
    [
        ("ctrl+s", "Ctrl+S"),
        ("shift+tab", "Shift+Tab"),
        ("f12", "F12"),
        ("f", "f"),
        ("pagedown", "PgDn"),
        ("slash", "/"),
    ],
)
def test_keys_are_named_as_they_are_written_on_them(key: str, name: str) -> None:
    assert key_name(key) == name
