"""One system opened over an empty application, from a small register or from a copy of the demo."""

from collections.abc import AsyncIterator
from contextlib import asynccontextmanager

from textual.pilot import Pilot

from fleet.desk.opened import Desk
from fleet.tui.correct import CorrectScreen
from fleet.tui.frame import FrameApp, FrameFacts
from fleet.tui.sheet import SystemSheet
from tests.tui.driving import NARROW, settled

FACTS = FrameFacts("register", "25 Nov 2026")


@asynccontextmanager
async def opened(
    screen: SystemSheet | CorrectScreen, size: tuple[int, int] = NARROW, theme: str | None = None
) -> AsyncIterator[Pilot[None]]:
    app = FrameApp(FACTS)
    if theme is not None:
        app.theme = theme
    async with app.run_test(size=size) as pilot:
        await app.push_screen(screen)
        await settled(pilot)
        yield pilot


async def typed(pilot: Pilot[None], text: str) -> None:
    """Type a text as keys."""
    await pilot.press(*("space" if character == " " else character for character in text))
    await settled(pilot)


def correct_screen(desk: Desk, system: int, focus: tuple[str, str, str] | None = None) -> CorrectScreen:
    return CorrectScreen(desk, system, place="audit", focus=focus)
