"""The Register: four lists, searched, narrowed, ordered, opened."""

import shutil
import sqlite3
import threading
from collections.abc import Sequence
from pathlib import Path
from typing import Any

import pytest
from textual.widgets import Input

from fleet.desk.importing import make_empty
from fleet.desk.list_rows import BoxLine, CustomerLine, SiteLine, SystemLine
from fleet.desk.lists import Listed, RegisterSort, asked, register_source
from fleet.desk.opened import Desk
from fleet.desk.paging import Anchors, Page
from fleet.tui.choices import Choice
from fleet.tui.columns import natural_width
from fleet.tui.register import RegisterScreen
from fleet.tui.register_columns import COLUMNS, register_columns
from fleet.tui.sheet import SystemSheet
from tests.desk.conftest import demo, demo_file
from tests.tui.driving import NARROW, WIDE, press, settled, top
from tests.tui.places import place, shown_rows
from tests.tui.snapshots import check_snapshot, screen_text

__all__ = ["demo", "demo_file"]

LISTED = {Listed.SYSTEMS: (), Listed.BOXES: (1,), Listed.SITES: (1, 1), Listed.CUSTOMERS: (1, 1, 1)}


def choose(listed: Listed) -> list[str]:
    return ["f", "enter", *("down" for _ in LISTED[listed]), "enter", "escape"] if LISTED[listed] else []


@pytest.fixture
def register(demo_file: Path, tmp_path: Path) -> Path:
    return Path(shutil.copyfile(demo_file, tmp_path / "demo.sqlite"))


@pytest.mark.regression
@pytest.mark.parametrize("listed", Listed)
@pytest.mark.parametrize(("size", "name"), [(NARROW, "80x24"), (WIDE, "120x40")])
async def test_snapshots(register: Path, listed: Listed, size: tuple[int, int], name: str) -> None:
    async with place("register", register, size) as (pilot, _):
        await press(pilot, *choose(listed))
        check_snapshot(pilot.app, f"register-{listed.value}-{name}")


@pytest.mark.regression
@pytest.mark.parametrize(
    ("name", "keys"),
    [("search", ("slash", "w", "f", "-", "1")), ("nothing", ("slash", "z", "z")), ("help", ("f1",))],
)
async def test_snapshots_of_states(register: Path, name: str, keys: tuple[str, ...]) -> None:
    async with place("register", register) as (pilot, _):
        await press(pilot, *keys)
        check_snapshot(pilot.app, f"register-{name}-80x24")


@pytest.mark.independent
@pytest.mark.parametrize("listed", Listed)
def test_the_columns_fit_on_a_narrow_screen(listed: Listed) -> None:
    assert natural_width(COLUMNS[listed]) <= NARROW[0]


@pytest.mark.independent
@pytest.mark.parametrize("before", Listed)
@pytest.mark.parametrize("listed", Listed)
async def test_rows_of_the_list_before_are_blank_until_the_new_ones_come(
    demo: Desk, before: Listed, listed: Listed
) -> None:
    row = register_source(demo, asked(before, {}, "", RegisterSort.PLACE)).first(1).rows[0]
    texts = [text for column in register_columns(listed) for text, _ in column.render(row, column.width)]
    assert bool(texts) == (before is listed)


@pytest.mark.independent
@pytest.mark.parametrize(
    ("listed", "kind"),
    [
        (Listed.SYSTEMS, SystemLine),
        (Listed.BOXES, BoxLine),
        (Listed.SITES, SiteLine),
        (Listed.CUSTOMERS, CustomerLine),
    ],
)
async def test_the_first_word_says_what_is_listed(register: Path, listed: Listed, kind: type) -> None:
    async with place("register", register) as (pilot, screen):
        await press(pilot, *choose(listed))
        assert isinstance(screen.list.current, kind)
        expected = register_source(screen.desk, asked(listed, {}, "", RegisterSort.PLACE))
        assert screen.list.total == expected.anchors().total
        assert await shown_rows(pilot, screen) == list(expected.first(10_000).rows)


@pytest.mark.independent
async def test_every_key_narrows_and_escape_takes_the_search_away(register: Path) -> None:
    async with place("register", register) as (pilot, screen):
        everything = screen.list.total
        await press(pilot, "slash", "4")
        first = screen.list.total
        await press(pilot, "0", "4")
        second = screen.list.total
        assert everything is not None
        assert first is not None
        assert second is not None
        assert everything > first > second > 0
        expected = register_source(screen.desk, asked(Listed.SYSTEMS, {}, "404", RegisterSort.PLACE))
        assert second == expected.anchors().total
        await press(pilot, "enter")
        assert screen.list.has_focus
        assert screen.list.total == second
        await press(pilot, "escape")
        assert screen.list.total == everything
        assert not screen.query_one(Input).value


class Gated:
    """A list that arrives when it is let go."""

    def __init__(self, row: SystemLine, gate: threading.Event) -> None:
        self.row, self.gate = row, gate

    def first(self, limit: int) -> Page[SystemLine]:
        self.gate.wait(5)
        return Page((self.row,), more=False)

    def anchors(self) -> Anchors:
        return Anchors(1, (0,))

    def page(self, index: int, anchors: Anchors) -> Sequence[SystemLine]:
        return (self.row,)


@pytest.mark.independent
async def test_a_search_that_comes_late_does_not_replace_a_later_one(
    register: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    async with place("register", register) as (pilot, screen):
        first, second = (await shown_rows(pilot, screen))[:2]
        gates = {"a": threading.Event(), "ab": threading.Event()}
        rows = {"a": first, "ab": second}

        def gated(desk: Any, wanted: Any) -> Any:
            text = wanted.narrowed.search
            return Gated(rows[text], gates[text])

        monkeypatch.setattr("fleet.tui.register.register_source", gated)
        await pilot.press("slash", "a", "b")
        gates["ab"].set()
        await pilot.pause(0.05)
        gates["a"].set()
        await settled(pilot)
        assert screen.search_text == "ab"
        assert screen.list.current == second


@pytest.mark.independent
async def test_enter_goes_in_and_escape_comes_back_to_the_same_row(register: Path) -> None:
    async with place("register", register) as (pilot, screen):
        await press(pilot, *choose(Listed.CUSTOMERS), "down", "down")
        customer = screen.list.current
        await press(pilot, "enter", "down")
        site = screen.list.current
        assert site.customer_id == customer.customer_id
        assert screen.list.total == customer.sites
        await press(pilot, "enter")
        assert isinstance(screen.list.current, SystemLine)
        assert screen.list.current.site_id == site.site_id
        assert screen.list.total == site.systems
        await press(pilot, "escape")
        assert screen.list.current == site
        await press(pilot, "escape")
        assert screen.list.current == customer
        await press(pilot, "escape")
        assert screen.list.current == customer
        assert top(pilot) is screen


@pytest.mark.independent
async def test_a_search_is_found_again_on_the_way_back(register: Path) -> None:
    async with place("register", register) as (pilot, screen):
        await press(pilot, *choose(Listed.SITES), "slash", "r", "o", "enter", "down")
        site, found = screen.list.current, screen.list.total
        await press(pilot, "enter")
        assert screen.list.total == site.systems
        assert screen.search_text == ""
        await press(pilot, "escape")
        assert (screen.list.current, screen.list.total, screen.search_text) == (site, found, "ro")


@pytest.mark.independent
async def test_s_takes_the_other_order_and_keeps_all_rows(register: Path) -> None:
    async with place("register", register) as (pilot, screen):
        by_place = await shown_rows(pilot, screen)
        await press(pilot, "s")
        worst = await shown_rows(pilot, screen)
        assert worst != by_place
        assert sorted(row.system_id for row in worst) == sorted(row.system_id for row in by_place)  # type: ignore[attr-defined]
        await press(pilot, "s")
        assert await shown_rows(pilot, screen) == by_place


@pytest.mark.independent
async def test_filters_narrow_and_backspace_takes_them_away_but_not_what_is_listed(register: Path) -> None:
    async with place("register", register) as (pilot, screen):
        await press(pilot, *choose(Listed.BOXES))
        everything = screen.list.total
        screen.filters.choose("kind", Choice("walk-in-freezer", "walk-in freezer"))
        screen.filters.choose("refrigerant", Choice("R-404A", "R-404A"))
        await settled(pilot)
        rows = await shown_rows(pilot, screen)
        assert rows
        assert {(row.kind, row.refrigerant) for row in rows} == {("walk-in freezer", "R-404A")}  # type: ignore[attr-defined]
        await press(pilot, "backspace")
        assert isinstance(screen.list.current, BoxLine)
        assert screen.list.total == everything


@pytest.mark.independent
async def test_another_customer_lets_go_of_the_site(register: Path) -> None:
    async with place("register", register) as (pilot, screen):
        await press(pilot, *choose(Listed.SITES), "enter")
        assert screen.chosen("site_id") is not None
        other = await shown_rows(pilot, screen)
        assert other
        screen.filters.choose("customer_id", Choice(None, "all customers", "customers"))
        await settled(pilot)
        assert screen.chosen("site_id") is None
        assert screen.list.total is not None
        assert screen.list.total > len(other)


@pytest.mark.independent
async def test_enter_opens_the_sheet_of_the_system(register: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    async with place("register", register) as (pilot, screen):
        opened: list[int] = []
        monkeypatch.setattr(RegisterScreen, "open_sheet", lambda self, system_id: opened.append(system_id))
        system = screen.list.current
        await press(pilot, "enter")
        await press(pilot, *choose(Listed.BOXES))
        box = screen.list.current
        await press(pilot, "enter")
        assert opened == [system.system_id, box.system_id]


@pytest.mark.independent
async def test_n_on_a_sheet_steps_to_the_next_other_system(register: Path) -> None:
    async with place("register", register) as (pilot, screen):
        await press(pilot, *choose(Listed.BOXES))
        rows = await shown_rows(pilot, screen)
        screen.list.move_to(0)
        systems = [rows[0].system_id]  # type: ignore[attr-defined]
        for _ in range(5):
            following = screen.step(1)
            assert following is not None
            systems.append(following)
        expected = list(dict.fromkeys(row.system_id for row in rows))  # type: ignore[attr-defined]
        assert systems == expected[:6]
        screen.list.move_to(len(rows) - 1)
        assert screen.step(1) is None


NASTY = (
    "[b]Dock[/b]",
    "a[/oops]b",
    "[@click=app.quit]x[/]",
    "back\\slash\\",
    "x\x1b[31m\x07red",
    "冷蔵庫 北\u202e",
    "=1+1",
)


@pytest.mark.independent
@pytest.mark.parametrize("name", NASTY)
@pytest.mark.parametrize("size", [NARROW, WIDE])
async def test_typed_text_is_only_text(register: Path, name: str, size: tuple[int, int]) -> None:
    with sqlite3.connect(register) as connection:
        connection.execute("UPDATE sites SET site = ? || id, name = ?, address = ?", (name, name, name))
        connection.execute("UPDATE customers SET name = ?, contact = ?", (name, name))
        connection.execute("UPDATE systems SET system = ? || id, name = ?", (name, name))
        connection.execute("UPDATE boxes SET name = ?, box = ? || id", (name, name))
    connection.close()
    async with place("register", register, size) as (pilot, screen):
        for listed in Listed:
            screen.filters.choose("what", Choice(listed, listed.value.capitalize()))
            await settled(pilot)
            assert screen.list.total
            seen = screen_text(pilot.app)
            assert "\x1b" not in seen
            assert "\x07" not in seen
            assert "\u202e" not in seen
            assert all(line.rstrip() == line for line in seen.splitlines())
        await press(pilot, "slash", *name[:3].replace("\x1b", "").replace("[", "["))
        assert pilot.app.return_code in {None, 0}


@pytest.mark.independent
async def test_a_change_is_shown_with_the_cursor_where_it_was(register: Path) -> None:
    async with place("register", register) as (pilot, screen):
        await press(pilot, "down", "down")
        before = screen.list.current
        with sqlite3.connect(register) as connection:
            connection.execute("UPDATE systems SET refrigerant = 'R-290' WHERE id = ?", (before.system_id,))
        connection.close()
        screen.refresh_register()
        await settled(pilot)
        assert screen.list.cursor == 2
        assert screen.list.current.refrigerant == "R-290"


@pytest.mark.independent
async def test_the_sheet_opens_over_the_list_and_n_moves_the_cursor_of_the_list(register: Path) -> None:
    async with place("register", register) as (pilot, screen):
        rows = await shown_rows(pilot, screen)
        screen.list.move_to(3)
        await press(pilot, "enter")
        sheet = top(pilot)
        assert isinstance(sheet, SystemSheet)
        assert sheet.system_id == rows[3].system_id  # type: ignore[attr-defined]
        await press(pilot, "n")
        assert screen.list.current == rows[4]
        await press(pilot, "escape")
        assert top(pilot) is screen
        assert screen.list.cursor == 4


async def test_an_empty_register_says_so_and_the_way_out(tmp_path: Path) -> None:
    path = tmp_path / "empty.sqlite"
    make_empty(path)
    async with place("register", path, by=None) as (pilot, _):
        text = screen_text(pilot.app)
        assert "No systems yet." in text
        assert "'coldround import' reads them." in text
