"""Writing a list as CSV from the screen: the name is shown and changed, what happens is told."""

import csv
import shutil
import threading
from collections.abc import Sequence
from pathlib import Path

import pytest
from textual.pilot import Pilot
from textual.widgets import Input

from fleet.desk.csv_files import CsvColumn, csv_list
from fleet.desk.paging import Anchors, Page
from fleet.tui.csv_out import CsvScreen
from fleet.tui.listing import ListingScreen
from tests.desk.conftest import demo_file
from tests.tui.driving import press, settled, top
from tests.tui.places import place, shown_rows
from tests.tui.snapshots import check_snapshot

__all__ = ["demo_file"]

pytestmark = pytest.mark.independent


@pytest.fixture
def register(demo_file: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    folder = tmp_path / "here"
    folder.mkdir()
    monkeypatch.chdir(folder)
    return Path(shutil.copyfile(demo_file, tmp_path / "demo.sqlite"))


def csv_screen(pilot: Pilot[None]) -> CsvScreen:
    screen = top(pilot)
    assert isinstance(screen, CsvScreen)
    return screen


def read(path: Path) -> list[dict[str, str]]:
    with path.open(encoding="utf-8", newline="") as stream:
        return list(csv.DictReader(stream))


async def test_all_rows_filtered_and_ordered(register: Path) -> None:
    async with place("register", register) as (pilot, screen):
        await press(pilot, "s", "slash", "4", "0", "4", "enter")
        rows = await shown_rows(pilot, screen)
        await press(pilot, "e")
        path = Path(csv_screen(pilot).query_one(Input).value)
        assert path == Path.cwd() / "systems-2026-11-25.csv"
        await press(pilot, "enter")
        assert top(pilot) is screen
        assert screen.messages.text == f"✓ Written. {len(rows)} rows to {path}"
    assert [(row["site"], row["system"]) for row in read(path)] == [(row.site, row.system) for row in rows]  # type: ignore[attr-defined]


@pytest.mark.regression
async def test_snapshot(register: Path) -> None:
    async with place("register", register) as (pilot, _):
        await press(pilot, "e")
        csv_screen(pilot).query_one(Input).value = "boxes.csv"
        await press(pilot, "end")
        check_snapshot(pilot.app, "csv-80x24")


async def test_findings_are_written_from_audit(register: Path, tmp_path: Path) -> None:
    async with place("register", register) as (pilot, _):
        await press(pilot, "1", "e")
        csv_screen(pilot).query_one(Input).value = str(tmp_path / "findings.csv")
        await press(pilot, "enter")
    rows = read(tmp_path / "findings.csv")
    assert rows
    assert all(row["reason"] and row["severity"] for row in rows)


async def test_a_file_that_is_there_is_replaced_only_by_a_second_enter(register: Path) -> None:
    old = Path.cwd() / "mine.csv"
    old.write_text("mine")
    async with place("customers", register) as (pilot, screen):
        await press(pilot, "e")
        ask = csv_screen(pilot)
        ask.query_one(Input).value = "mine.csv"
        await press(pilot, "enter")
        assert ask.line.text == "There is a file of this name. Enter again replaces it."
        assert old.read_text() == "mine"
        await press(pilot, "x", "backspace", "enter")
        assert old.read_text() == "mine"
        await press(pilot, "enter")
        assert top(pilot) is screen
    assert len(read(old)) == 8


@pytest.mark.parametrize(
    ("typed", "told"),
    [
        ("", "✕ Not written. Name a file."),
        ("  ", "✕ Not written. Name a file."),
        ("nowhere/a.csv", "✕ Not written. nowhere/a.csv: there is no folder nowhere. Name one that exists."),
        (".", "✕ Not written. .: this is a folder. Add a file name."),
    ],
)
async def test_what_cannot_be_written_is_told_and_the_name_can_be_changed(
    register: Path, typed: str, told: str
) -> None:
    async with place("customers", register) as (pilot, screen):
        await press(pilot, "e")
        ask = csv_screen(pilot)
        ask.query_one(Input).value = typed
        await press(pilot, "enter")
        assert ask.line.text == told
        assert ask.query_one(Input).has_focus
        ask.query_one(Input).value = "good.csv"
        await press(pilot, "enter")
        assert top(pilot) is screen
        assert (Path.cwd() / "good.csv").exists()


async def test_escape_leaves_without_a_file(register: Path) -> None:
    async with place("register", register) as (pilot, screen):
        await press(pilot, "e", "escape")
        assert top(pilot) is screen
        assert list(Path.cwd().iterdir()) == []


class Slow:
    """A list whose pages come one by one, when they are let go."""

    def __init__(self) -> None:
        self.gate = threading.Semaphore(1)

    def first(self, limit: int) -> Page[int]:
        return Page(tuple(range(limit)), more=True)

    def anchors(self) -> Anchors:
        return Anchors(1_000, tuple(range(0, 1_000, 200)))

    def page(self, index: int, anchors: Anchors) -> Sequence[int]:
        self.gate.acquire(timeout=5)
        return range(index * 200, index * 200 + 200)


async def test_it_tells_how_far_it_is_and_escape_stops_it(
    register: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    slow = Slow()
    listed = csv_list("numbers", slow, [CsvColumn("number", str)])
    monkeypatch.setattr(ListingScreen, "csv", lambda self: listed)
    monkeypatch.setattr("fleet.tui.register.RegisterScreen.csv", lambda self: listed)
    async with place("register", register) as (pilot, screen):
        await press(pilot, "e")
        ask = csv_screen(pilot)
        await pilot.press("enter")
        for _ in range(100):
            await pilot.pause(0.01)
            if "200" in ask.line.text.split("numbers")[-1]:
                break
        assert ask.line.text.startswith("Writing 1,000 numbers ━━━━")
        assert ask.line.text.endswith(" 200  Esc stops, no file stays")
        await pilot.press("escape")
        slow.gate.release()
        slow.gate.release()
        await settled(pilot)
        assert top(pilot) is screen
        assert screen.messages.text == "Stopped. No file was written."
        assert list(Path.cwd().iterdir()) == []
