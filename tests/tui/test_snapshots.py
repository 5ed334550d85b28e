"""Whole screens as text: they show what changed, they prove nothing."""

import pytest

from tests.tui.demo import DemoSource
from tests.tui.driving import NARROW, WIDE, press, running
from tests.tui.snapshots import check_snapshot

pytestmark = pytest.mark.regression

STATES = {
    "list": (),
    "sheet": ("enter",),
    "filter": ("f", "right"),
    "choices": ("f", "right", "enter", "c"),
    "help": ("f1",),
    "failure": ("x",),
    "work": ("w",),
    "empty": ("f", "right", "right", "enter", "2", "9", "enter"),
}


@pytest.mark.parametrize("state", STATES)
async def test_narrow(state: str) -> None:
    async with running(DemoSource(1000), size=NARROW) as (pilot, _):
        await press(pilot, *STATES[state])
        check_snapshot(pilot.app, f"{state}-80x24")


@pytest.mark.parametrize("state", ["list", "sheet", "help"])
async def test_wide(state: str) -> None:
    async with running(DemoSource(1000), size=WIDE) as (pilot, _):
        await press(pilot, *STATES[state])
        check_snapshot(pilot.app, f"{state}-120x40")
