"""The form for correcting settings: windows that follow every key, refusals, saving, leaving."""

from dataclasses import replace
from pathlib import Path

import pytest
from textual.pilot import Pilot
from textual.widgets import Input

from fleet.desk.correcting import Correction, Saved
from fleet.desk.form import PAIR, form, look
from fleet.desk.opened import Desk
from fleet.tui.asking import AskScreen
from fleet.tui.correct import CorrectScreen
from fleet.tui.frame import FrameApp
from fleet.tui.pressure_axis import Drawing
from fleet.tui.sheet import SystemSheet
from tests.desk.systems import TODAY, cooler_rows, open_rows, rack_rows, system_id
from tests.tui.driving import NARROW, WIDE, press, settled, top
from tests.tui.snapshots import check_snapshot, screen_text
from tests.tui.systems import FACTS, correct_screen, opened, typed


@pytest.fixture
def cooler(tmp_path: Path) -> Desk:
    return open_rows(tmp_path, cooler_rows())


def _lines(pilot: Pilot[None]) -> list[str]:
    return screen_text(pilot.app).splitlines()


def _line(pilot: Pilot[None], start: str) -> str:
    return next(line for line in _lines(pilot) if line.startswith(start))


def _records(desk: Desk) -> int:
    with desk.engine.connect() as connection:
        return int(connection.exec_driver_sql("SELECT count(*) FROM setting_records").scalar() or 0)


async def test_window_diamond_and_verdict_follow_every_key(cooler: Desk) -> None:
    async with opened(correct_screen(cooler, system_id(cooler))) as pilot:
        assert " ■ act now   " in _line(pilot, "   ■")
        await typed(pilot, "1")
        assert _line(pilot, "   ?").strip() == "? Add the unit, like 15psig, 1.03bar or 8.3inHg for vacuum."
        assert "◆" not in _line(pilot, "   cut-in")
        assert "◇" in _line(pilot, "   cut-in")
        await typed(pilot, "5psig")
        assert "✓ inside   " in _line(pilot, "   ✓")
        assert "]╌" in _line(pilot, "   cut-in")
        assert (
            _line(pilot, "   cut-in").index("◆")
            < _line(pilot, "   cut-in").index("]")
            < _line(pilot, "   cut-in").index("◇")
        )
        await press(pilot, "down")
        await typed(pilot, "5 psig")
        assert " 10.0 psi " in _line(pilot, "   differential")
        assert _line(pilot, " ▸ cut-out")
        await press(pilot, "backspace", "backspace", "backspace", "backspace")
        assert " — " in _line(pilot, "   differential")


async def test_what_is_no_quantity_is_not_saved(cooler: Desk) -> None:
    before = _records(cooler)
    screen = correct_screen(cooler, system_id(cooler))
    async with opened(screen) as pilot:
        await typed(pilot, "15")
        await press(pilot, "ctrl+s")
        assert top(pilot) is screen
        assert _lines(pilot)[-2].startswith(" ✕ Not saved. cut-in: Add the unit, like 15psig")
    assert _records(cooler) == before


async def test_nothing_typed_is_not_saved(cooler: Desk) -> None:
    screen = correct_screen(cooler, system_id(cooler))
    async with opened(screen) as pilot:
        await press(pilot, "ctrl+s")
        assert _lines(pilot)[-2].startswith(" ✕ Not saved. Nothing was typed")


async def test_preferred_is_taken_with_f2(cooler: Desk) -> None:
    screen = correct_screen(cooler, system_id(cooler))
    async with opened(screen) as pilot:
        await press(pilot, "f2")
        assert screen.rows[0].left.value == "15.0psig"
        await press(pilot, "down", "down", "f2")
        assert screen.rows[2].left.value == ""
        assert _lines(pilot)[-2].strip().startswith("It follows from cut-in and cut-out")


async def test_outside_can_be_saved_and_result_says_what_it_did(cooler: Desk) -> None:
    results: list[Saved | None] = []
    app = FrameApp(FACTS)
    async with app.run_test(size=NARROW) as pilot:
        await app.push_screen(correct_screen(cooler, system_id(cooler)), results.append)
        await settled(pilot)
        await typed(pilot, "50psig")
        await press(pilot, "ctrl+s")
    (saved,) = results
    assert saved is not None
    assert saved.settled == 0
    assert saved.open > 0


async def test_how_who_when_and_note_are_kept(cooler: Desk) -> None:
    cooler.by = None
    screen = correct_screen(cooler, system_id(cooler))
    async with opened(screen) as pilot:
        await typed(pilot, "15psig")
        await press(pilot, "down", "down", "down", "right", "right", "tab")
        await typed(pilot, "j")
        await press(pilot, "right", "tab", "ctrl+u", "home", "ctrl+k")
        await typed(pilot, "2026-11-20")
        await press(pilot, "tab")
        await typed(pilot, "after a [nuisance] trip")
        await press(pilot, "ctrl+s")
    with cooler.engine.connect() as connection:
        row = connection.exec_driver_sql(
            "SELECT r.typed, r.confirmed, r.recorded_on, r.note, p.person FROM setting_records r "
            "JOIN people p ON p.id = r.recorded_by_id ORDER BY r.id DESC LIMIT 1"
        ).one()
    assert tuple(row) == ("15psig", "scale", "2026-11-20", "after a [nuisance] trip", "J. Pell")
    assert cooler.by == "J. Pell"  # chosen once


async def test_unknown_person_is_said_with_the_nearest(cooler: Desk) -> None:
    before = _records(cooler)
    screen = correct_screen(cooler, system_id(cooler))
    async with opened(screen) as pilot:
        await typed(pilot, "15psig")
        screen.query_one("#correct-by", Input).value = "R. Oseo"
        await press(pilot, "ctrl+s")
        text = " ".join(_lines(pilot)[-3:])
        assert "Not saved. There is no person 'R. Oseo'. Nearest: R. Osei" in text
        assert screen.query_one("#correct-by").has_focus
    assert _records(cooler) == before


async def test_people_are_listed_and_chosen(cooler: Desk) -> None:
    cooler.by = None
    screen = correct_screen(cooler, system_id(cooler))
    async with opened(screen) as pilot:
        screen.query_one("#correct-by").focus()
        await press(pilot, "down")
        assert "type to narrow" in screen_text(pilot.app)
        await typed(pilot, "pe")
        await press(pilot, "enter")
        assert screen.query_one("#correct-by", Input).value == "J. Pell"


@pytest.mark.parametrize(
    ("day", "says"), [("soon", "'soon' is no day"), ("2027-01-01", "lies ahead of today")]
)
async def test_days_that_cannot_be_are_refused(day: str, says: str, cooler: Desk) -> None:
    screen = correct_screen(cooler, system_id(cooler))
    async with opened(screen) as pilot:
        await typed(pilot, "15psig")
        screen.query_one("#correct-on", Input).value = day
        await press(pilot, "ctrl+s")
        assert f"Not saved. {day if says.startswith('lies') else ''}".strip() in screen_text(pilot.app)
        assert says in screen_text(pilot.app)


async def test_leaving_asks_only_when_something_was_typed(cooler: Desk) -> None:
    screen = correct_screen(cooler, system_id(cooler))
    async with opened(screen) as pilot:
        await typed(pilot, "15psig")
        await press(pilot, "escape")
        assert isinstance(top(pilot), AskScreen)
        assert "Leave without saving what was typed?" in screen_text(pilot.app)
        await press(pilot, "escape")
        assert top(pilot) is screen
        assert screen.rows[0].left.value == "15psig"
        await press(pilot, "escape", "enter")
        assert top(pilot) is not screen
    screen = correct_screen(cooler, system_id(cooler))
    async with opened(screen) as pilot:
        await press(pilot, "escape")
        assert top(pilot) is not screen


async def test_somebody_else_was_faster(cooler: Desk) -> None:
    screen = correct_screen(cooler, system_id(cooler))
    async with opened(screen) as pilot:
        await typed(pilot, "15psig")
        from fleet.desk.correcting import Correction, save

        one = Correction("", "low_pressure_cut_in", left="20psig")
        save(cooler, system_id(cooler), [one], by="J. Pell", on=TODAY, confirmed="gauge")
        before = _records(cooler)
        await press(pilot, "ctrl+s")
        text = " ".join(line.strip() for line in _lines(pilot)[-5:])
        assert "Not saved. WC-2 was changed by somebody else after you opened it" in text
        assert screen.rows[0].left.value == "15psig"  # what was typed is still there
    assert _records(cooler) == before


async def test_rack_rows_have_their_own_ruler(tmp_path: Path) -> None:
    desk = open_rows(tmp_path, rack_rows())
    screen = correct_screen(desk, system_id(desk, "RK-1"), ("compressor 2", "", "low_pressure_cut_out"))
    async with opened(screen) as pilot:
        assert _line(pilot, " ▸ compressor 2")
        assert sum(line.startswith("   compressor 2") for line in _lines(pilot)) == 1
        await typed(pilot, "1psig")
        assert _line(pilot, "   ✓ inside")
        await press(pilot, "up", "up", "up")
        assert _line(pilot, " ▸ group A")
        assert sum(line.startswith("   group A") for line in _lines(pilot)) == 1


async def test_box_form_reads_with_a_thermometer_and_moves_the_windows(cooler: Desk) -> None:
    screen = correct_screen(cooler, system_id(cooler), ("B1", "", "setpoint"))
    async with opened(screen) as pilot:
        assert "● thermometer" in _line(pilot, "   read with")
        before = _line(pilot, "   cut-out").index("]")
        await typed(pilot, "28F")
        assert _line(pilot, "   cut-out").index("]") != before


TYPED = ("[", "[/]", "a[/oops]b", "\\", "[@click=app.quit]x", "冷蔵庫", "e\u0301", "15psig[b]")
PASTED = ("\x1b[31mred", "\x9b31m", "a\x00b\x7f", "\u202eabc", "\ud800", "x" * 500)


@pytest.mark.parametrize("text", [*TYPED, *PASTED])
async def test_any_text_in_any_field_is_only_text(text: str, cooler: Desk) -> None:
    screen = correct_screen(cooler, system_id(cooler))
    async with opened(screen) as pilot:
        for field in screen.query(Input):
            field.value = text
        await settled(pilot)
        strips = pilot.app.screen._compositor.render_strips(pilot.app.size)
        shown = "".join(segment.text for strip in strips for segment in strip)
        assert {strip.cell_length for strip in strips} == {80}
        assert not set("\x1b\x9b\x00\x7f\u202e\ud800") & set(shown)
        await press(pilot, "ctrl+s")
        assert top(pilot) is screen
        assert "✕ Not saved." in screen_text(pilot.app)


async def test_people_and_places_with_brackets_are_only_text(tmp_path: Path) -> None:
    rows = cooler_rows()
    rows["people"][0]["person"] = "[red]Osei[/]"
    for row in rows["settings"]:
        row["recorded_by"] = "[red]Osei[/]"
    desk = open_rows(tmp_path, rows, by="[red]Osei[/]")
    async with opened(correct_screen(desk, system_id(desk)), size=WIDE) as pilot:
        text = screen_text(pilot.app)
        assert "by           [red]Osei[/]" in text
        assert "[red]Osei[/]    41psig" in text
    async with opened(SystemSheet(desk, system_id(desk), place="audit"), size=WIDE) as pilot:
        assert "12 Mar 2025  [red]Osei[/]" in screen_text(pilot.app)


@pytest.mark.regression
@pytest.mark.parametrize(("name", "size"), [("80x24", NARROW), ("120x40", WIDE)])
async def test_looks(name: str, size: tuple[int, int], cooler: Desk) -> None:
    async with opened(correct_screen(cooler, system_id(cooler)), size=size) as pilot:
        await press(pilot, "f2", "down")
        await typed(pilot, "5psig")
        check_snapshot(pilot.app, f"correct-{name}")


@pytest.mark.regression
async def test_looks_with_a_bare_number_and_for_a_box(cooler: Desk) -> None:
    async with opened(correct_screen(cooler, system_id(cooler))) as pilot:
        await typed(pilot, "15")
        check_snapshot(pilot.app, "correct-bare-80x24")
    async with opened(correct_screen(cooler, system_id(cooler), ("B1", "", "setpoint"))) as pilot:
        check_snapshot(pilot.app, "correct-box-80x24")


async def test_every_key_of_both_screens_has_words(cooler: Desk) -> None:
    for screen in (CorrectScreen, SystemSheet):
        for binding in screen.BINDINGS:
            assert binding.id, binding  # type: ignore[union-attr]
            assert binding.tooltip, binding  # type: ignore[union-attr]


async def test_quitting_with_something_typed_asks_first(cooler: Desk) -> None:
    screen = correct_screen(cooler, system_id(cooler))
    async with opened(screen) as pilot:
        await typed(pilot, "15psig")
        await press(pilot, "ctrl+q")
        assert isinstance(top(pilot), AskScreen)
        assert "? Quit without saving what was typed?" in _line(pilot, " ?")
        await press(pilot, "escape")
        assert top(pilot) is screen
        assert screen.rows[0].left.value == "15psig"
        assert pilot.app.is_running
        await press(pilot, "ctrl+q", "ctrl+q")
        assert pilot.app._exit


async def test_quitting_with_nothing_typed_does_not_ask(cooler: Desk) -> None:
    async with opened(correct_screen(cooler, system_id(cooler))) as pilot:
        await press(pilot, "ctrl+q")
        assert pilot.app._exit


async def test_what_else_would_be_outside_is_said_for_a_value_outside_too(cooler: Desk) -> None:
    async with opened(correct_screen(cooler, system_id(cooler))) as pilot:
        await typed(pilot, "-3psig")
        verdict = " ".join(" ".join(_lines(pilot)).split())
        assert "below the lowest. Then outside: differential." in verdict


async def test_without_a_name_the_field_for_it_is_gone_to(cooler: Desk) -> None:
    cooler.by = None
    screen = correct_screen(cooler, system_id(cooler))
    async with opened(screen) as pilot:
        await typed(pilot, "15psig")
        await press(pilot, "ctrl+s")
        assert _lines(pilot)[-2].startswith(" ✕ Not saved. Say who")
        assert screen.query_one("#correct-by", Input).has_focus


def test_a_value_inside_by_the_tolerance_is_drawn_inside(cooler: Desk) -> None:
    shown = form(cooler, system_id(cooler))
    seen = look(cooler, shown, [Correction("", PAIR[0], left="15psig")])
    window, axis = seen.windows["", PAIR[0]], seen.axis
    assert axis is not None
    assert window.high is not None
    assert window.verdict == "inside"
    for recorded in (window.high, window.high + 0.05):
        drawn = Drawing(axis, 60).window(replace(window, recorded=recorded))
        assert "◆]" in "".join(text for text, _ in drawn)
