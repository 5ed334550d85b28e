"""Rounds: the due list, until rounds are planned."""

import csv
from dataclasses import replace
from datetime import timedelta
from pathlib import Path

import pytest
from textual.widgets import Input

from fleet.desk.due import due_checks
from fleet.desk.due_list import DueCounts
from fleet.errors import RegisterLockedError
from fleet.tui.columns import natural_width
from fleet.tui.rounds import RoundsScreen, counts_line, due_columns
from tests.tui.driving import NARROW, WIDE, press, settled
from tests.tui.places import place, shown_rows
from tests.tui.snapshots import check_snapshot, screen_text


@pytest.mark.regression
@pytest.mark.parametrize(("size", "name"), [(NARROW, "80x24"), (WIDE, "120x40")])
async def test_snapshots(register: Path, size: tuple[int, int], name: str) -> None:
    async with place("rounds", register, size) as (pilot, _):
        check_snapshot(pilot.app, f"rounds-{name}")


@pytest.mark.independent
async def test_it_lists_what_falls_due_in_the_period(register: Path) -> None:
    async with place("rounds", register) as (pilot, screen):
        for weeks in (4, 1, 2):
            screen.filters.choose("weeks", _weeks(screen, weeks))
            await settled(pilot)
            desk = screen.desk
            expected = due_checks(desk, desk.today, desk.today + timedelta(weeks=weeks))
            rows = await shown_rows(pilot, screen)
            assert [(row.system_id, row.due_by) for row in rows] == [  # type: ignore[attr-defined]
                (due.system_id, due.due_by) for due in expected
            ]
        assert natural_width(due_columns(screen.desk)) <= NARROW[0]


def _weeks(screen: object, weeks: int):  # type: ignore[no-untyped-def]
    return next(choice for choice in screen.filters.parts[0].choices() if choice.value == weeks)  # type: ignore[attr-defined]


@pytest.mark.independent
async def test_it_says_what_it_shows_and_every_key_of_the_footer_works(register: Path) -> None:
    async with place("rounds", register) as (pilot, screen):
        assert "no rounds are planned here" in screen.head.text
        shown = {active.binding.key for active in screen.active_bindings.values() if active.binding.show}
        assert shown == {"enter", "f", "s", "e", "f1"} | ({"question_mark"} & shown)
        assert screen_text(pilot.app).splitlines()[-1].split() == [
            "Enter",
            "sheet",
            "f",
            "filter",
            "s",
            "sort",
            "e",
            "csv",
            "F1",
            "help",
        ]


@pytest.mark.independent
async def test_a_customer_narrows_lines_and_counts(register: Path) -> None:
    async with place("rounds", register) as (pilot, screen):
        before = screen.head.text
        choices = screen.filters.parts[2].choices()
        screen.filters.choose("customer", choices[0])
        await settled(pilot)
        rows = await shown_rows(pilot, screen)
        assert {row.customer for row in rows} == {choices[0].value}  # type: ignore[attr-defined]
        assert f"{sum(row.minutes for row in rows):,} min" in screen.head.text  # type: ignore[attr-defined]
        assert screen.head.text != before


@pytest.mark.independent
async def test_the_file_holds_what_is_shown(register: Path, tmp_path: Path) -> None:
    async with place("rounds", register) as (pilot, screen):
        await press(pilot, "s")
        rows = await shown_rows(pilot, screen)
        await press(pilot, "e")
        pilot.app.screen.query_one(Input).value = str(tmp_path / "due.csv")
        await press(pilot, "enter")
        assert f"{len(rows)} rows to {tmp_path / 'due.csv'}" in screen.messages.text
    with (tmp_path / "due.csv").open(encoding="utf-8", newline="") as stream:
        written = list(csv.DictReader(stream))
    assert [(row["system"], row["check"], row["due by"]) for row in written] == [
        (row.system, row.check, row.due_by.isoformat())  # type: ignore[attr-defined]
        for row in rows
    ]


@pytest.mark.independent
async def test_a_register_that_cannot_be_read_is_told(
    register: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    async with place("rounds", register) as (pilot, screen):

        def locked(*_: object) -> None:
            raise RegisterLockedError("The register is locked by another program.")

        monkeypatch.setattr("fleet.tui.rounds.due_book", locked)
        screen.refresh_register()
        await settled(pilot)
        assert screen.messages.text == "✕ Not read. The register is locked by another program."
        await press(pilot, "e")
        assert screen.messages.text == "What falls due is still being read."


@pytest.mark.independent
async def test_enter_opens_the_sheet(register: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    opened: list[int] = []
    monkeypatch.setattr(RoundsScreen, "open_sheet", lambda self, system_id: opened.append(system_id))
    async with place("rounds", register) as (pilot, screen):
        await press(pilot, "down", "enter")
        assert opened == [screen.list.current.system_id]


@pytest.mark.independent
def test_counts_in_words() -> None:
    spans = counts_line(DueCounts(12, 3, 9, 15, 41, 1930))
    text = "".join(text for text, _ in spans)
    assert text == " 12 overdue: ◧ 3 next visit, □ 9 watch   15 in 7 days   41 in 30 days   1,930 min"


async def test_while_it_is_read_it_does_not_say_that_nothing_falls_due(register: Path) -> None:
    async with place("rounds", register) as (_, screen):
        assert isinstance(screen, RoundsScreen)
        screen._book = None
        assert screen.empty_sentences() == ()


@pytest.mark.parametrize(
    ("days", "text"), [(0, ""), (7, "7 d"), (999, "999 d"), (1000, "1000d"), (3033, "3033d")]
)
async def test_days_late_are_never_cut(register: Path, days: int, text: str) -> None:
    async with place("rounds", register) as (_, screen):
        (column,) = (one for one in screen.columns() if one.title == "late")
        line = replace(screen.list.current, overdue_days=days)  # type: ignore[type-var]
        shown = "".join(part for part, _ in column.render(line, column.width))
        assert shown == text
        assert len(shown) <= column.width
