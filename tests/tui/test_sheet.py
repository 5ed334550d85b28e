"""The sheet of one system on the screen: read, walked, explained, stepped through, undone."""

from collections.abc import Callable
from pathlib import Path

import pytest
from textual.pilot import Pilot

from fleet.desk.demo import make_demo
from fleet.desk.opened import Desk, open_desk
from fleet.tui.correct import CorrectScreen
from fleet.tui.explaining import ExplainScreen
from fleet.tui.sheet import SystemSheet
from fleet.tui.themes import LIGHT
from tests.desk.systems import TODAY, cooler_rows, open_rows, rack_rows, system_id
from tests.tui.driving import NARROW, WIDE, press, settled, top
from tests.tui.snapshots import check_snapshot, screen_text
from tests.tui.systems import opened, typed

ANSI = "ansi-dark"


@pytest.fixture
def cooler(tmp_path: Path) -> Desk:
    return open_rows(tmp_path, cooler_rows(charge="22lb"))


@pytest.fixture(scope="module")
def demo(tmp_path_factory: pytest.TempPathFactory) -> Desk:
    path, _ = make_demo(TODAY, tmp_path_factory.mktemp("demo") / "demo.sqlite")
    return open_desk(path, today=TODAY)


def _screen(desk: Desk, tag: str = "WC-2", **more: object) -> SystemSheet:
    return SystemSheet(desk, system_id(desk, tag), place="audit", **more)  # type: ignore[arg-type]


def _lines(pilot: Pilot[None]) -> list[str]:
    return screen_text(pilot.app).splitlines()


async def test_shows_what_is_wrong_and_where_the_window_is(cooler: Desk) -> None:
    async with opened(_screen(cooler)) as pilot:
        lines = _lines(pilot)
        assert lines[2].startswith(" Ridge Street  WC-2")
        assert lines[2].endswith("Alder [Foods]")
        assert "walk-in cooler 36F   R-404A   recycling pump-down" in lines[3]
        assert lines[5].startswith("▌■ act now     Cut-in  ")
        assert " 41.0 psig, highest " in lines[5]
        assert "does not restart until the weather warms." in " ".join(lines)
        (cut_in,) = (line for line in lines if line.startswith("   cut-in"))
        assert "]━" in cut_in  # outside is a heavy line from the bracket to the diamond
        assert cut_in.index("[") < cut_in.index("○") < cut_in.index("]") < cut_in.index("◆")
        assert cut_in.rstrip(" │┃").endswith("41.0")


async def test_name_and_facts_stay_while_sections_scroll(cooler: Desk) -> None:
    async with opened(_screen(cooler)) as pilot:
        before = _lines(pilot)[:4]
        await press(pilot, "end")
        lines = _lines(pilot)
        assert lines[:4] == before
        assert any("Do not release product on a program's word." in line for line in lines)
        assert lines[4].endswith("│")  # the light part of the line at the right: there is more above
        assert lines[-2].endswith("┃")
        await press(pilot, "home")
        assert _lines(pilot)[4].startswith(" What is wrong")


async def test_cursor_walks_everything_that_can_be_opened(cooler: Desk) -> None:
    screen = _screen(cooler)
    async with opened(screen) as pilot:
        seen = []
        for _ in range(200):
            stop = screen.main.stop
            assert stop is not None
            if seen and seen[-1] == stop.id:
                break
            seen.append(stop.id)
            # The row under the cursor is on the screen.
            assert any(line.startswith("▌") for line in _lines(pilot)), stop.id
            await pilot.press("down")
        kinds = list(dict.fromkeys(one[0] for one in seen))
        assert kinds == ["finding", "window", "life", "due", "history", "fact"]
        for _ in seen[1:]:
            await pilot.press("up")
        assert screen.main.stop is not None
        assert screen.main.stop.id == seen[0]


async def test_only_the_finding_under_the_cursor_says_why_where_it_is_narrow(cooler: Desk) -> None:
    async with opened(_screen(cooler)) as pilot:
        assert "the low side reaches only" in screen_text(pilot.app)
        await press(pilot, "down")
        assert "the low side reaches only" not in screen_text(pilot.app)
    async with opened(_screen(cooler), size=WIDE) as pilot:
        await press(pilot, "down")
        assert "the low side reaches only" in screen_text(pilot.app)


async def test_enter_explains_and_escape_comes_back(cooler: Desk) -> None:
    screen = _screen(cooler)
    async with opened(screen) as pilot:
        await press(pilot, "enter")
        assert isinstance(top(pilot), ExplainScreen)
        text = screen_text(pilot.app)
        for wanted in ("formula      P(min(T_call, T_rec))", "typed 41psig", "source       D, derived from"):
            assert wanted in text
        await press(pilot, "escape")
        assert top(pilot) is screen


async def test_history_key(cooler: Desk) -> None:
    for size in (NARROW, WIDE):
        screen = _screen(cooler)
        async with opened(screen, size=size) as pilot:
            await press(pilot, "h")
            pane = screen.side if size == WIDE else screen.main
            assert pane.has_focus
            assert pane.stop is not None
            assert pane.stop.id == ("history", "0")
            assert any(line.lstrip("▌ ").startswith("12 Mar 2025") or "▌ 12 Mar 2025" in line or
                       "▌12 Mar 2025" in line for line in _lines(pilot))  # fmt: skip


async def test_focus_puts_the_cursor_on_the_finding_one_came_from(cooler: Desk) -> None:
    with cooler.engine.connect() as connection:
        key = connection.exec_driver_sql(
            "SELECT part, rule, setting FROM findings WHERE setting = 'leak_search'"
        ).one()
    screen = _screen(cooler, focus=tuple(key))
    async with opened(screen):
        assert screen.main.stop is not None
        assert screen.main.stop.id == ("finding", *key)


async def test_next_and_before_go_through_the_list(tmp_path: Path) -> None:
    desk = open_rows(tmp_path, rack_rows())
    ids = [system_id(desk), system_id(desk, "RK-1")]
    at = [0]

    def step(by: int) -> int | None:
        if not 0 <= at[0] + by < len(ids):
            return None
        at[0] += by
        return ids[at[0]]

    async with opened(_screen(desk, step=step)) as pilot:
        await press(pilot, "n")
        assert _lines(pilot)[2].startswith(" Ridge Street  RK-1")
        assert any(line.startswith("   group A") for line in _lines(pilot))
        await press(pilot, "n")
        assert _lines(pilot)[-2].strip() == "That is the last one of the list."
        await press(pilot, "b")
        assert _lines(pilot)[2].startswith(" Ridge Street  WC-2")


async def test_without_a_list_next_is_no_key(cooler: Desk) -> None:
    async with opened(_screen(cooler)) as pilot:
        assert "next" not in _lines(pilot)[-1]
        assert "undo" not in _lines(pilot)[-1]


async def _corrected(pilot: Pilot[None]) -> None:
    await press(pilot, "c")
    assert isinstance(top(pilot), CorrectScreen)
    await typed(pilot, "15psig")
    await press(pilot, "down")
    await typed(pilot, "5psig")
    await press(pilot, "ctrl+s")
    await settled(pilot)


async def test_correction_settles_before_ones_eyes_and_is_undone(cooler: Desk) -> None:
    screen = _screen(cooler)
    async with opened(screen) as pilot:
        await _corrected(pilot)
        assert top(pilot) is screen
        lines = _lines(pilot)
        assert any(line.startswith(" ✓ settled     Cut-in") for line in lines)
        assert lines[-2].startswith(" ✓ Saved. 1 finding settled, ")
        assert lines[-2].endswith("u undoes.")
        assert "u undo" in lines[-1]
        await press(pilot, "u")
        lines = _lines(pilot)
        assert lines[-2].startswith(" ✓ Undone. The values before were appended")
        assert any(line.startswith(("▌■ act now     Cut-in", " ■ act now     Cut-in")) for line in lines)
        assert not any("settled     Cut-in" in line for line in lines)
        assert "u undo" not in lines[-1]


async def test_correction_from_a_box_line_opens_the_box(cooler: Desk) -> None:
    screen = _screen(cooler)
    async with opened(screen) as pilot:
        await press(pilot, "end")
        for _ in range(40):
            stop = screen.main.stop
            if stop is not None and stop.about == ("B1", "setpoint"):
                break
            await press(pilot, "up")
        await press(pilot, "c")
        assert "WC-2 B1" in _lines(pilot)[2]


async def test_escape_goes_back(cooler: Desk) -> None:
    screen = _screen(cooler)
    async with opened(screen) as pilot:
        await press(pilot, "escape")
        assert top(pilot) is not screen


async def test_system_that_is_gone_is_said(cooler: Desk) -> None:
    async with opened(SystemSheet(cooler, 4711, place="register")) as pilot:
        assert _lines(pilot)[-2].startswith(" ✕ Not read. The system is no longer in the register.")


@pytest.mark.parametrize("size", [NARROW, WIDE, (40, 12), (200, 60)])
async def test_every_line_fits(size: tuple[int, int], demo: Desk) -> None:
    with demo.engine.connect() as connection:
        ids = [row[0] for row in connection.exec_driver_sql("SELECT id FROM systems ORDER BY id")]
    step: Callable[[int], int | None] = lambda by: ids.pop() if ids else None  # noqa: E731
    screen = SystemSheet(demo, ids.pop(), place="audit", step=step)
    async with opened(screen, size=size) as pilot:
        for _ in range(6):
            strips = pilot.app.screen._compositor.render_strips(pilot.app.size)
            assert {strip.cell_length for strip in strips} == {size[0]}
            await press(pilot, "end", "n")


@pytest.mark.regression
@pytest.mark.parametrize(("name", "size"), [("80x24", NARROW), ("120x40", WIDE)])
@pytest.mark.parametrize("tag", ["WC-2", "RK-1"])
async def test_looks(tag: str, name: str, size: tuple[int, int], tmp_path: Path) -> None:
    desk = open_rows(tmp_path, rack_rows())
    async with opened(_screen(desk, tag), size=size) as pilot:
        check_snapshot(pilot.app, f"system-{tag.lower()}-{name}")
        if name == "80x24":
            await press(pilot, "enter")
            check_snapshot(pilot.app, f"system-explain-{tag.lower()}-{name}")


@pytest.mark.parametrize("theme", [LIGHT, ANSI])
async def test_text_is_the_same_in_every_theme(theme: str, cooler: Desk) -> None:
    async with opened(_screen(cooler)) as pilot:
        expected = screen_text(pilot.app)
    async with opened(_screen(cooler), theme=theme) as pilot:
        assert screen_text(pilot.app) == expected


async def test_meaning_stays_without_colour(cooler: Desk, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("NO_COLOR", "1")
    async with opened(_screen(cooler)) as pilot:
        text = screen_text(pilot.app)
        for sign in ("■ act now", "[", "]", "◆", "○", "▌"):
            assert sign in text
