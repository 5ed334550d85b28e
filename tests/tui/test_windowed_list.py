"""The list shows what is around the cursor, tells where it is, and never holds the whole table."""

import asyncio
import threading
from collections.abc import Sequence

import pytest
from textual import events

from fleet.errors import RegisterLockedError
from fleet.tui.paging import PAGE_ROWS, PAGES_KEPT, Anchors, Page
from fleet.tui.windowed_list import WindowedList
from tests.tui.demo import DemoSource, Finding, SheetDemo, finding
from tests.tui.driving import NARROW, WIDE, press, running, settled, top
from tests.tui.snapshots import screen_text

MANY = 100_000


def highlighted(seen: list[object]) -> list[int]:
    return [message.index for message in seen if isinstance(message, WindowedList.Highlighted)]


async def test_the_first_rows_are_seen_and_the_first_is_under_the_cursor() -> None:
    async with running(DemoSource(27)) as (_, audit):
        assert audit.list.position == "1–17 of 27"
        assert audit.list.current is not None
        assert audit.list.current.number == 0
        assert highlighted(audit.seen) == [0]


@pytest.mark.parametrize(
    ("keys", "cursor"),
    [
        (["down"], 1),
        (["up"], 0),
        (["end"], MANY - 1),
        (["end", "up"], MANY - 2),
        (["end", "down"], MANY - 1),
        (["pagedown"], 16),
        (["pagedown", "pagedown", "pageup"], 16),
        (["end", "home"], 0),
        (["end", "pageup"], MANY - 17),
    ],
)
async def test_keys_move_the_cursor(keys: list[str], cursor: int) -> None:
    async with running(DemoSource(MANY)) as (pilot, audit):
        await press(pilot, *keys)
        assert audit.list.cursor == cursor
        assert audit.list.current is not None
        assert audit.list.current.number == cursor
        assert highlighted(audit.seen)[-1] == cursor


async def test_position_follows() -> None:
    async with running(DemoSource(MANY)) as (pilot, audit):
        await press(pilot, "end")
        assert audit.list.position == "99,984–100,000 of 100,000"
        assert "99,984–100,000 of 100,000" in screen_text(pilot.app)


async def test_few_pages_are_read_and_few_are_kept() -> None:
    source = DemoSource(MANY)
    async with running(source) as (pilot, audit):
        assert source.pages_read == []
        await press(pilot, "end")
        assert source.pages_read == [MANY // PAGE_ROWS - 1]
        for place in range(0, MANY, MANY // 40):
            audit.list.move_to(place)
            await settled(pilot)
        assert len(audit.list._cache) <= PAGES_KEPT


async def test_enter_opens_the_row_under_the_cursor() -> None:
    async with running(DemoSource(27)) as (pilot, _):
        await press(pilot, "down", "enter")
        assert isinstance(top(pilot), SheetDemo)
        await press(pilot, "escape")
        assert top(pilot) is not None
        assert not isinstance(top(pilot), SheetDemo)


async def test_a_click_moves_and_a_second_one_opens() -> None:
    async with running(DemoSource(27)) as (pilot, audit):
        await pilot.click(WindowedList, offset=(10, 4))
        await settled(pilot)
        assert audit.list.cursor == 3
        await pilot.click(WindowedList, offset=(10, 4))
        await settled(pilot)
        assert isinstance(top(pilot), SheetDemo)


async def test_a_click_on_the_heading_or_below_the_rows_does_nothing() -> None:
    async with running(DemoSource(3)) as (pilot, audit):
        await pilot.click(WindowedList, offset=(10, 0))
        await pilot.click(WindowedList, offset=(10, 9))
        await settled(pilot)
        assert audit.list.cursor == 0
        assert top(pilot) is audit


async def test_the_wheel_moves_the_cursor() -> None:
    async with running(DemoSource(27)) as (pilot, audit):
        audit.list.post_message(events.MouseScrollDown(audit.list, 5, 5, 0, 1, 0, False, False, False))
        await settled(pilot)
        assert audit.list.cursor == 3
        audit.list.post_message(events.MouseScrollUp(audit.list, 5, 5, 0, -1, 0, False, False, False))
        await settled(pilot)
        assert audit.list.cursor == 0


async def test_an_empty_list_says_so_and_how_to_get_out() -> None:
    async with running(DemoSource(0)) as (pilot, audit):
        lines = screen_text(pilot.app).splitlines()
        assert "   No open finding matches these filters." in lines
        assert "   Backspace clears the filters, f changes one." in lines
        assert audit.list.position == "0"
        last = audit.seen[-1]
        assert isinstance(last, WindowedList.Highlighted)
        assert last.row is None
        await press(pilot, "down", "end", "enter")
        assert top(pilot) is audit


async def test_a_source_that_fails_says_why() -> None:
    async with running(DemoSource(10, fails=True)) as (pilot, _):
        assert "   ✕ The register is locked by another program." in screen_text(pilot.app).splitlines()


class FailsOnPages(DemoSource):
    """Counts well, and cannot read its pages as long as it is broken."""

    broken = True

    def page(self, index: int, anchors: Anchors) -> Sequence[Finding]:
        if self.broken:
            self.pages_read.append(index)
            raise RegisterLockedError("The register is locked by another program.")
        return super().page(index, anchors)


async def test_a_page_that_fails_is_told_and_asked_for_again_when_the_cursor_moves() -> None:
    source = FailsOnPages(1000)
    async with running(source) as (pilot, audit):
        await press(pilot, "end")
        assert source.pages_read == [4]  # once, not in a circle
        before = audit.list.current
        source.broken = False
        await press(pilot, "up")
        assert (before, audit.list.current) == (None, finding(998))


class GatedSource(DemoSource):
    """Delivers only when a gate is opened."""

    def __init__(self, total: int, *, start: int = 0) -> None:
        super().__init__(total, start=start)
        self.first_gate, self.rest_gate = threading.Event(), threading.Event()

    def first(self, limit: int) -> Page[Finding]:
        self.first_gate.wait(10)
        return super().first(limit)

    def anchors(self) -> Anchors:
        self.rest_gate.wait(10)
        return super().anchors()


async def test_dots_are_shown_only_after_a_while() -> None:
    source = GatedSource(27)
    async with running(DemoSource(5)) as (pilot, audit):
        audit.list.set_source(source)
        await pilot.pause()
        assert "····" not in screen_text(pilot.app)
        assert "WC-0" in screen_text(pilot.app)  # what was there stays until then
        audit.list._show_dots(audit.list._generation)
        await pilot.pause()
        assert "····" in screen_text(pilot.app)
        assert "[─────]" in screen_text(pilot.app)
        source.first_gate.set()
        await settled(pilot)
        assert "····" not in screen_text(pilot.app)


async def test_end_is_remembered_until_the_count_is_known() -> None:
    source = GatedSource(1000)
    source.first_gate.set()
    app_source = DemoSource(5)
    async with running(app_source) as (pilot, audit):
        audit.list.set_source(source)
        while audit.list.total is not None or audit.list.current is None:
            await asyncio.sleep(0.01)
        assert audit.list.position == "1–17 of …"
        await pilot.press("end")
        assert audit.list.cursor == PAGE_ROWS - 1
        source.rest_gate.set()
        await settled(pilot)
        assert audit.list.cursor == 999
        assert audit.list.position == "984–1,000 of 1,000"


async def test_what_an_outdated_source_delivers_is_ignored() -> None:
    slow, quick = GatedSource(300, start=5000), DemoSource(30, start=100)
    async with running(DemoSource(5)) as (pilot, audit):
        audit.list.set_source(slow)
        await pilot.pause()
        audit.list.set_source(quick)
        slow.first_gate.set()
        slow.rest_gate.set()
        await settled(pilot)
        assert audit.list.current is not None
        assert audit.list.current.number == 100
        assert audit.list.total == 30


async def test_a_source_read_anew_keeps_the_cursor_where_it_is_asked_to_be() -> None:
    async with running(DemoSource(MANY)) as (pilot, audit):
        audit.list.set_source(DemoSource(MANY), cursor=54_321)
        await settled(pilot)
        assert audit.list.cursor == 54_321
        assert audit.list.current is not None
        assert audit.list.current.number == 54_321
        audit.list.set_source(DemoSource(10), cursor=54_321)
        await settled(pilot)
        assert audit.list.cursor == 9


async def test_without_focus_the_cursor_is_another_sign() -> None:
    async with running(DemoSource(27)) as (pilot, _):
        assert screen_text(pilot.app).splitlines()[6].startswith("▌■")
        await press(pilot, "f")
        assert screen_text(pilot.app).splitlines()[6].startswith("▸■")


async def test_a_narrow_list_moves_its_columns_and_keeps_the_frozen_ones() -> None:
    async with running(DemoSource(27), size=(60, 24)) as (pilot, _):
        assert "system setting" in screen_text(pilot.app)
        await press(pilot, "right")
        heading = screen_text(pilot.app).splitlines()[5]
        assert heading.startswith("   site")
        assert "system" not in heading
        await press(pilot, "left")
        assert "system setting" in screen_text(pilot.app)


async def test_left_and_right_belong_to_others_where_the_list_has_room() -> None:
    async with running(DemoSource(27), size=NARROW) as (pilot, _):
        assert "left" not in pilot.app.screen.active_bindings


async def test_resizing_keeps_the_cursor_in_sight() -> None:
    async with running(DemoSource(MANY), size=WIDE) as (pilot, audit):
        audit.list.move_to(500)
        await settled(pilot)
        await pilot.resize_terminal(80, 12)
        await settled(pilot)
        assert any(line.startswith("▌") and "WC-500" in line for line in screen_text(pilot.app).splitlines())


async def test_typed_text_in_a_row_is_shown_as_it_is() -> None:
    async with running(DemoSource(27), size=WIDE) as (pilot, _):
        assert "Birchwood [B] H…" in screen_text(pilot.app)


async def test_quitting_while_a_source_still_reads() -> None:
    source = GatedSource(27)
    async with running(DemoSource(5)) as (pilot, audit):
        audit.list.set_source(source)
        await pilot.press("ctrl+q")
        source.first_gate.set()
        source.rest_gate.set()
    assert pilot.app.return_code == 0
