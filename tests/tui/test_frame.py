"""The frame says where one is, what works, what failed, and which keys there are."""

import pytest
from textual.app import ComposeResult
from textual.widgets import Input

from fleet.text import cell_width
from fleet.tui.frame import PLACES, FrameApp, FrameFacts, FrameScreen, place_rows, working_spans
from fleet.tui.headings import section_title
from fleet.tui.help import HelpScreen
from fleet.tui.themes import Spans
from tests.tui.demo import DemoSource
from tests.tui.driving import NARROW, press, running, top
from tests.tui.snapshots import screen_text


def text_of(spans: Spans) -> str:
    return "".join(text for text, _ in spans)


@pytest.mark.parametrize(
    ("title", "note", "width", "text"),
    [
        ("Compressor lives", "last 8 years", 40, "Compressor lives ────────── last 8 years"),
        ("Recorded", "", 20, "Recorded ───────────"),
        ("A very long title", "and a note", 16, "A very long… ───"),
        ("冷蔵", "x", 12, "冷蔵 ───── x"),
    ],
)
def test_section_title(title: str, note: str, width: int, text: str) -> None:
    assert text_of(section_title(title, note, width)) == text
    assert cell_width(text) == width


@pytest.mark.parametrize("place", PLACES)
@pytest.mark.parametrize("width", [80, 120])
def test_the_heavy_part_lies_under_the_current_place(place: str, width: int) -> None:
    row, rule = map(text_of, place_rows(place, FrameFacts("demo", "25 Nov 2026"), width))
    assert cell_width(row) == width - 1
    assert cell_width(rule) == width
    start, end = rule.index("━"), rule.rindex("━")
    assert row[start : end + 1].strip() == f"{PLACES.index(place) + 1} {place.capitalize()}"
    assert row[start] == row[end] == " "


def test_a_long_name_of_the_register_is_cut_and_the_date_stays() -> None:
    row = text_of(place_rows("audit", FrameFacts("north and south " * 5, "25 Nov 2026"), 80)[0])
    assert row.endswith("…  25 Nov 2026")
    assert cell_width(row) == 79


async def test_digits_and_clicks_go_to_places_and_each_keeps_where_one_was() -> None:
    async with running(DemoSource(27)) as (pilot, audit):
        await press(pilot, "down", "down", "3")
        assert screen_text(pilot.app).splitlines()[2].strip() == "customers"
        await pilot.click(offset=(3, 0))
        await press(pilot)
        assert top(pilot) is audit
        assert audit.list.cursor == 2


def test_work_shows_how_far_it_is_and_how_to_stop_it() -> None:
    line = text_of(working_spans("Auditing 100,000 boxes", 61_200, 100_000, width=78))
    assert line == "Auditing 100,000 boxes ━━━━━━━━━━─────── 61,200  Esc stops, what is done stays"
    assert cell_width(line) == 78
    unknown = text_of(working_spans("Reading", 5, None, width=78))
    assert unknown == "Reading  5  Esc stops, what is done stays"


async def test_a_failure_stays_until_a_key_and_the_row_is_given_back() -> None:
    async with running(DemoSource(27)) as (pilot, audit):
        assert not audit.messages.display
        await press(pilot, "x")
        assert audit.messages.text == (
            "✕ Not saved. The register is locked by another program. Ctrl+S tries again."
        )
        assert screen_text(pilot.app).splitlines()[22].startswith(" ✕ Not saved.")
        await press(pilot, "down")
        assert not audit.messages.display
        assert audit.list.cursor == 1


async def test_what_was_saved_is_said_for_some_seconds_and_keys_do_not_end_it() -> None:
    async with running(DemoSource(27)) as (pilot, audit):
        await press(pilot, "y", "down")
        assert audit.messages.text == "✓ Saved. Cut-in 15.0 psig, inside. Finding settled. u undoes."
        timer = audit.messages._timer
        assert timer is not None
        assert timer._interval == 5.0


async def test_escape_stops_work_and_leaves_nothing() -> None:
    async with running(DemoSource(27)) as (pilot, audit):
        await press(pilot, "w")
        assert audit.messages.is_working
        await press(pilot, "escape")
        assert audit.messages.text == "✓ Stopped. 61,200 boxes are audited."
        await press(pilot, "escape", "escape")
        assert top(pilot) is audit


async def test_a_long_failure_is_shown_whole() -> None:
    async with running(DemoSource(27)) as (pilot, audit):
        audit.messages.failed("Not saved.", "word " * 40 + "end.")
        await pilot.pause()
        shown = " ".join(screen_text(pilot.app).split())
        assert ("word " * 40 + "end.") in shown


async def test_typed_text_in_a_message_is_not_markup() -> None:
    async with running(DemoSource(27)) as (pilot, audit):
        audit.messages.failed("Not saved.", "a[/oops]b [@click=app.bell]x \x1b[31m")
        await pilot.pause()
        assert "a[/oops]b [@click=app.bell]x [31m" in screen_text(pilot.app)


async def test_the_footer_shows_keys_that_work_and_ends_with_help() -> None:
    async with running(DemoSource(27)) as (pilot, _):
        assert (
            screen_text(pilot.app).splitlines()[23]
            == " Enter sheet  f filter  w work  x fail  y save  F1 help"
        )


async def test_control_c_says_how_to_leave_in_the_message_row() -> None:
    async with running(DemoSource(27)) as (pilot, audit):
        await press(pilot, "ctrl+c")
        assert audit.messages.text == "Ctrl+Q quits."


class Form(FrameScreen):
    def compose_body(self) -> ComposeResult:
        yield Input(compact=True)


async def test_in_a_field_letters_digits_and_question_marks_type() -> None:
    async with running(DemoSource(27)) as (pilot, _):
        form = Form()
        await pilot.app.push_screen(form)
        await press(pilot, "1", "f", "?", "x")
        assert form.query_one(Input).value == "1f?x"
        assert top(pilot) is form
        await press(pilot, "f1")
        assert type(top(pilot)) is HelpScreen
        await press(pilot, "escape", "escape")
        assert form not in pilot.app.screen_stack


async def test_a_wide_screen_knows_that_it_is() -> None:
    async with running(DemoSource(27), size=(110, 40)) as (pilot, audit):
        before = (audit.is_wide, audit.has_class("-wide"))
        await pilot.resize_terminal(*NARROW)
        await press(pilot)
        assert (before, (audit.is_wide, audit.has_class("-wide"))) == ((True, True), (False, False))


async def test_another_register_is_shown_at_once() -> None:
    async with running(DemoSource(27)) as (pilot, _):
        assert isinstance(pilot.app, FrameApp)
        pilot.app.show_facts(FrameFacts("south", "1 Dec 2026"))
        await pilot.pause()
        assert screen_text(pilot.app).splitlines()[0].endswith("south  1 Dec 2026")


@pytest.mark.parametrize(
    ("asked", "theme"),
    [
        (None, "coldround-dark"),
        ("coldround-light", "coldround-light"),
        ("nord", "nord"),
        ("?", "coldround-dark"),
    ],
)
def test_the_theme_asked_for_is_taken_if_there_is_one(
    monkeypatch: pytest.MonkeyPatch, asked: str | None, theme: str
) -> None:
    if asked is not None:
        monkeypatch.setenv("TEXTUAL_THEME", asked)
    app = FrameApp()
    assert app.theme == theme
    assert {"textual-dark", "ansi-light", "coldround-light"} <= set(app.available_themes)


async def test_the_screen_follows_a_change_of_theme() -> None:
    async with running(DemoSource(27)) as (pilot, audit):
        await press(pilot, "x")
        for name, background in (("coldround-light", "#f8f7f3"), ("coldround-dark", "#11171b")):
            pilot.app.theme = name
            await press(pilot)
            for row, strip in enumerate(audit._compositor.render_strips(pilot.app.size)):
                last = list(strip)[-1].style
                assert last is not None, row
                assert last.bgcolor is not None, row
                cursor_row = 6  # stands on a tint
                assert last.bgcolor.name == background or row == cursor_row, (name, row)


def test_without_room_the_places_are_not_followed_by_the_date() -> None:
    row, rule = map(text_of, place_rows("audit", FrameFacts("demo", "25 Nov 2026"), 40))
    assert row == " 1 Audit   2 Rounds   3 Customers   4 Register"
    assert cell_width(rule) == 40


@pytest.mark.parametrize(
    ("width", "footer"),
    [
        (80, " Enter sheet  f filter  w work  x fail  y save  F1 help"),
        (40, " Enter sheet  f filter  w work  F1 help"),
        (20, " F1 help"),
    ],
)
async def test_the_footer_leaves_out_what_does_not_fit_but_not_help(width: int, footer: str) -> None:
    async with running(DemoSource(27), size=(width, 12)) as (pilot, _):
        assert screen_text(pilot.app).splitlines()[11].rstrip() == footer


async def test_the_first_rows_stay_two_on_a_screen_that_is_too_narrow() -> None:
    async with running(DemoSource(27), size=(40, 12)) as (pilot, _):
        first, second = screen_text(pilot.app).splitlines()[:2]
        assert first.startswith(" 1 Audit   2 Rounds   3 Customers")
        assert second.startswith("━━━━━━━━━──")


async def test_a_text_longer_than_its_field_is_shown_not_a_scrollbar() -> None:
    async with running(DemoSource(27)) as (pilot, _):
        form = Form()
        await pilot.app.push_screen(form)
        form.query_one(Input).styles.width = 12
        await press(pilot, *"abcdefghijklmnopqrstuvwxyz")
        shown = screen_text(pilot.app).splitlines()[2]
        assert shown[:12].strip().endswith("xyz")
