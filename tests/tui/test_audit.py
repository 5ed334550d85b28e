"""The Audit place on the demo register: what is shown follows filters, search, order and changes."""

from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from datetime import date
from pathlib import Path

import pytest
from textual.pilot import Pilot
from textual.widgets import Input

from fleet.desk.findings import FindingFilter, severity_counts
from fleet.desk.importing import make_empty
from fleet.desk.opened import Desk, open_desk
from fleet.tui.app import ColdroundApp
from fleet.tui.audit import AuditScreen
from fleet.tui.choices import Choice
from fleet.units import UnitSystem
from tests.tui.driving import NARROW, WIDE, settled
from tests.tui.snapshots import check_snapshot, screen_text

TODAY = date(2026, 11, 25)


@asynccontextmanager
async def audit(
    register: Path, size: tuple[int, int] = NARROW
) -> AsyncIterator[tuple[Pilot[None], AuditScreen]]:
    desk = open_desk(register, today=TODAY, by="A. Petrov")
    app = ColdroundApp(desk)
    async with app.run_test(size=size) as pilot:
        await settled(pilot)
        screen = app.screen
        assert isinstance(screen, AuditScreen)
        yield pilot, screen
    desk.close()


def counted(desk: Desk, narrowed: FindingFilter) -> int:
    return sum(severity_counts(desk, narrowed).values())


@pytest.mark.regression
@pytest.mark.parametrize(("size", "name"), [(NARROW, "80x24"), (WIDE, "120x40")])
async def test_the_list_as_it_opens(register: Path, size: tuple[int, int], name: str) -> None:
    async with audit(register, size) as (pilot, _):
        check_snapshot(pilot.app, f"audit-{name}")


@pytest.mark.independent
async def test_the_focus_is_on_the_list(register: Path) -> None:
    async with audit(register) as (pilot, screen):
        assert pilot.app.focused is screen.list


@pytest.mark.independent
async def test_a_filter_narrows_list_and_counts(register: Path) -> None:
    async with audit(register) as (pilot, screen):
        screen.filters.choose("severity", Choice(1, "act now"))
        await settled(pilot)
        assert screen.list.total == severity_counts(screen.desk, FindingFilter())[1]
        await pilot.press("backspace")
        await settled(pilot)
        assert screen.list.total == counted(screen.desk, FindingFilter())


@pytest.mark.independent
async def test_choosing_a_customer_takes_a_site_of_another_away(register: Path) -> None:
    async with audit(register, WIDE) as (pilot, screen):
        screen.filters.choose("site_id", Choice(1, "some site"))
        screen.filters.choose("customer_id", Choice(2, "another customer"))
        await settled(pilot)
        assert screen.filters.values["site_id"] is None


@pytest.mark.independent
async def test_search_narrows_with_every_key_and_escape_takes_it_away(register: Path) -> None:
    async with audit(register) as (pilot, screen):
        whole = screen.list.total
        await pilot.press("slash", *"fern wc-2")
        await settled(pilot)
        assert screen.list.total == counted(screen.desk, FindingFilter(search="fern wc-2"))
        assert 0 < (screen.list.total or 0) < (whole or 0)
        await pilot.press("escape")
        await settled(pilot)
        assert screen.list.total == whole
        assert pilot.app.focused is screen.list


@pytest.mark.independent
@pytest.mark.parametrize("typed", ["[", "[/]", "\\", "[@click=app.bell]x", "%", "_", "冷", "\x1b[31m"])
async def test_what_is_searched_for_is_never_markup(register: Path, typed: str) -> None:
    async with audit(register) as (pilot, screen):
        await pilot.press("slash")
        screen.query_one(Input).value = typed
        await settled(pilot)
        assert screen.list.total is not None
        assert "\x1b" not in screen_text(pilot.app)


@pytest.mark.independent
async def test_s_takes_the_next_order(register: Path) -> None:
    async with audit(register) as (pilot, screen):
        await pilot.press("s")
        await settled(pilot)
        names = []
        for place in range(screen.list.total or 0):
            screen.list.move_to(place)
            await settled(pilot)
            assert screen.list.current is not None
            names.append(screen.list.current.row.customer_name)
        assert names == sorted(names)


@pytest.mark.independent
async def test_the_pane_follows_the_cursor(register: Path) -> None:
    async with audit(register, WIDE) as (pilot, screen):
        await pilot.press("down")
        await settled(pilot)
        current = screen.list.current
        assert current is not None
        assert current.row.customer_name in screen_text(pilot.app)


@pytest.mark.independent
async def test_undo_without_a_correction_says_so(register: Path) -> None:
    async with audit(register) as (pilot, screen):
        await pilot.press("u")
        await settled(pilot)
        assert screen.messages.text != ""
        assert "Undone" not in screen.messages.text


@pytest.mark.independent
async def test_an_empty_register_says_what_to_do(tmp_path: Path) -> None:
    make_empty(tmp_path / "empty.sqlite")
    desk = open_desk(tmp_path / "empty.sqlite", today=TODAY)
    app = ColdroundApp(desk)
    async with app.run_test(size=NARROW) as pilot:
        await settled(pilot)
        seen = screen_text(app)
    desk.close()
    assert "This register is empty." in seen
    assert "coldround demo" in seen


@pytest.mark.independent
async def test_two_enters_at_launch_open_one_sheet(register: Path) -> None:
    desk = open_desk(register, today=TODAY)
    app = ColdroundApp(desk)
    async with app.run_test(size=NARROW) as pilot:
        await pilot.press("enter", "enter")
        await settled(pilot)
        sheets = [one for one in app.screen_stack if type(one).__name__ == "SystemSheet"]
        assert len(sheets) == 1
    desk.close()


@pytest.mark.independent
async def test_a_customer_chosen_elsewhere_narrows_the_list(register: Path) -> None:
    async with audit(register) as (pilot, screen):
        await pilot.press("3")
        await settled(pilot)
        await pilot.press("enter")
        await settled(pilot)
        assert pilot.app.screen is screen
        customer = screen.filters.values["customer_id"]
        assert isinstance(customer, int)
        assert screen.list.total == counted(screen.desk, FindingFilter(customer_id=customer))


async def test_metric_units_are_whole(register: Path) -> None:
    desk = open_desk(register, today=TODAY, by="A. Petrov", units=UnitSystem.METRIC)
    app = ColdroundApp(desk)
    async with app.run_test(size=NARROW) as pilot:
        await settled(pilot)
        rows = screen_text(app).splitlines()[6:23]
        assert any(" bar " in row for row in rows)
        assert not any("ba…" in row for row in rows)
    desk.close()


async def test_the_palette_offers_only_what_works_here(register: Path) -> None:
    async with audit(register) as (pilot, screen):
        assert isinstance(pilot.app, ColdroundApp)
        titles = {command.title.partition(":")[0] for command in pilot.app.get_system_commands(screen)}
        assert titles == {"Audit", "Rounds", "Customers", "Register", "Help", "Theme", "Quit"}
