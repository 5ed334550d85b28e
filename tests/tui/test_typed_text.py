"""Typed text is tried in every part of the interface that shows any."""

from collections.abc import Sequence

import pytest
from textual.app import ComposeResult
from textual.pilot import Pilot

from fleet.text import clean
from fleet.tui.choices import Choice
from fleet.tui.columns import Column
from fleet.tui.filters import FilterPart, FilterSentence
from fleet.tui.frame import FrameApp, FrameFacts, FrameScreen
from fleet.tui.paging import TupleSource
from fleet.tui.themes import Token
from fleet.tui.windowed_list import WindowedList
from tests.tui.driving import press
from tests.tui.snapshots import screen_text

TYPED = [
    "[",
    "[/]",
    "a[/oops]b",
    "\\",
    "\\[b]x",
    "[WP-01]",
    "[@click=app.bell]x",
    "[ @click=app.bell]x",
    "$primary",
    "x\x1b[31mred",
    "x\x9b31m",
    "a\x00b\x7f",
    "\u202eabc",
    "two\nlines\tand a tab",
    "冷蔵庫",
    "e\u0301te\u0301",
    "👩\u200d🔧 van",
]


class TypedScreen(FrameScreen):
    def __init__(self, typed: str) -> None:
        super().__init__()
        self.typed = typed

    def help_page(self) -> str:
        return f"# {self.typed}\n\n- {self.typed}"

    def compose_body(self) -> ComposeResult:
        column: Column[str] = Column("name", 40, lambda row, width: [(row, Token.TEXT)], strong=True)
        part = FilterPart("typed", Choice(1, self.typed), lambda: [Choice(2, f"{self.typed}!")])
        yield FilterSentence([part])
        yield WindowedList([column], TupleSource([self.typed]), empty=(self.typed, self.typed))


def check_screen(pilot: Pilot[None], typed: str, times: int) -> None:
    assert screen_text(pilot.app).count(clean(typed)) >= times
    strips = pilot.app.screen._compositor.render_strips(pilot.app.size)
    assert {strip.cell_length for strip in strips} == {100}
    for strip in strips:
        for text, style, _ in strip:
            assert not any(character < " " or "\x7f" <= character <= "\x9f" for character in text)
            assert style is None or "@click" not in style.meta


@pytest.mark.parametrize("typed", TYPED)
async def test_typed_text_is_shown_and_never_obeyed(typed: str) -> None:
    app = FrameApp(FrameFacts(typed, "25 Nov 2026"))
    async with app.run_test(size=(100, 24)) as pilot:
        screen = TypedScreen(typed)
        await app.push_screen(screen)
        await press(pilot)
        screen.messages.failed("Not saved.", typed)
        await pilot.pause()
        check_screen(pilot, typed, 4)  # register, filter, row, message
        await press(pilot, "f1")
        check_screen(pilot, typed, 1)  # a page has lines of its own, so a break in a heading ends it
        await press(pilot, "escape")
        screen.query_one(FilterSentence).walk()
        await press(pilot, "enter")
        check_screen(pilot, typed, 4)  # register, filter, two choices, row


@pytest.mark.parametrize("typed", ["a[/oops]b", "[@click=app.bell]x"])
async def test_an_empty_list_says_its_sentence_as_it_is(typed: str) -> None:
    app = FrameApp()
    async with app.run_test(size=(100, 24)) as pilot:
        screen = TypedScreen(typed)
        await app.push_screen(screen)
        await press(pilot)
        rows: Sequence[str] = ()
        screen.query_one(WindowedList).set_source(TupleSource(rows))
        await press(pilot)
        check_screen(pilot, typed, 3)
