"""Start the demo application and wait for what its threads bring."""

from collections.abc import AsyncIterator
from contextlib import asynccontextmanager, suppress
from typing import Any

from textual.pilot import Pilot
from textual.screen import Screen
from textual.worker import WorkerCancelled

from tests.tui.demo import AuditDemo, DemoApp, DemoSource

NARROW, WIDE = (80, 24), (120, 40)


async def settled(pilot: Pilot[None]) -> None:
    """Wait until no thread works and all messages are handled."""
    for _ in range(3):
        # One that was called off ends the waiting for the others, so it is waited once more.
        with suppress(WorkerCancelled):
            await pilot.app.workers.wait_for_complete()
        await pilot.pause()


@asynccontextmanager
async def running(
    source: DemoSource, size: tuple[int, int] = NARROW, theme: str | None = None
) -> AsyncIterator[tuple[Pilot[None], AuditDemo]]:
    app = DemoApp(source)
    if theme is not None:
        app.theme = theme
    async with app.run_test(size=size) as pilot:
        await settled(pilot)
        yield pilot, app.audit


def top(pilot: Pilot[None]) -> Screen[Any]:
    """Return the screen on top now."""
    return pilot.app.screen


async def press(pilot: Pilot[None], *keys: str) -> None:
    """Press keys one after the other, each when the one before is done."""
    await settled(pilot)
    for key in keys:
        await pilot.press(key)
        await settled(pilot)
