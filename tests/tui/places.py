"""Open a place of the interface on a copy of the demo register."""

from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from datetime import date
from pathlib import Path

from textual.pilot import Pilot

from fleet.desk.opened import open_desk
from fleet.tui.app import ColdroundApp
from fleet.tui.listing import ListingScreen
from tests.tui.driving import NARROW, settled

TODAY = date(2026, 11, 25)
KEYS = {"rounds": "2", "customers": "3", "register": "4"}


@asynccontextmanager
async def place(
    name: str, register: Path, size: tuple[int, int] = NARROW, by: str | None = "A. Petrov"
) -> AsyncIterator[tuple[Pilot[None], ListingScreen]]:
    """Start the program and go to a place by its key."""
    desk = open_desk(register, today=TODAY, by=by)
    app = ColdroundApp(desk)
    async with app.run_test(size=size) as pilot:
        await settled(pilot)
        await pilot.press(KEYS[name])
        await settled(pilot)
        screen = app.screen
        assert isinstance(screen, ListingScreen)
        yield pilot, screen
    desk.close()


async def shown_rows(pilot: Pilot[None], screen: ListingScreen) -> list[object]:
    """Return every row of the list by walking through it."""
    rows = []
    for number in range(screen.list.total or 0):
        screen.list.move_to(number)
        if screen.list.current is None:
            await settled(pilot)
        rows.append(screen.list.current)
    return rows
