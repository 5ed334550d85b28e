"""The sentence of filters is walked by keys, opens choices, and tells what changed."""

import pytest
from textual import events

from fleet.text import cell_width
from fleet.tui.choices import Choice, ChoiceList, ChoicesScreen, matching
from fleet.tui.filters import FilterSentence, fitted_labels
from tests.tui.demo import DemoSource
from tests.tui.driving import WIDE, press, running, top
from tests.tui.snapshots import screen_text


def changes(seen: list[object]) -> list[tuple[str | None, object]]:
    return [(message.name, message.value) for message in seen if isinstance(message, FilterSentence.Changed)]


async def test_f_walks_arrows_step_enter_opens_typing_narrows_enter_takes() -> None:
    async with running(DemoSource(1000)) as (pilot, audit):
        await press(pilot, "f", "right", "right", "enter", "2", "9", "enter")
        assert changes(audit.seen) == [("refrigerant", "R-290")]
        assert audit.filters.values == {
            "status": "open",
            "customer": None,
            "severity": None,
            "refrigerant": "R-290",
            "order": "worst",
        }
        assert "R-290 ▾" in screen_text(pilot.app).splitlines()[2]
        assert "No open finding matches these filters." in screen_text(pilot.app)


async def test_keys_typed_in_one_go_reach_the_sentence() -> None:
    async with running(DemoSource(1000)) as (pilot, audit):
        for key in ("f", "right", "enter"):
            pilot.app.post_message(events.Key(key, key if len(key) == 1 else None))
        await press(pilot)
        assert isinstance(top(pilot), ChoicesScreen)
        assert audit.list.cursor == 0


async def test_backspace_resets_all_and_says_it_once() -> None:
    async with running(DemoSource(1000)) as (pilot, audit):
        await press(pilot, "f", "enter", "down", "enter")
        assert changes(audit.seen) == [("status", "all")]
        await press(pilot, "backspace", "backspace")
        assert changes(audit.seen)[1:] == [(None, None)]
        assert audit.filters.is_usual


async def test_escape_leaves_the_choices_then_the_sentence() -> None:
    async with running(DemoSource(1000)) as (pilot, audit):
        await press(pilot, "f", "enter")
        assert type(top(pilot)) is ChoicesScreen
        await press(pilot, "escape")
        assert top(pilot) is audit
        assert audit.filters.has_focus
        await press(pilot, "escape")
        assert audit.list.has_focus
        assert changes(audit.seen) == []


async def test_the_same_choice_again_tells_nothing() -> None:
    async with running(DemoSource(1000)) as (pilot, audit):
        await press(pilot, "f", "enter", "enter")
        assert top(pilot) is audit
        assert changes(audit.seen) == []


async def test_steps_go_round_the_ends() -> None:
    async with running(DemoSource(27)) as (pilot, _):
        await press(pilot, "f", "left")
        assert "▌worst first ▾" in screen_text(pilot.app).splitlines()[2]
        await press(pilot, "right")
        assert screen_text(pilot.app).splitlines()[2].startswith("▌Open findings ▾")


async def test_typing_that_finds_nothing_can_be_rubbed_out() -> None:
    async with running(DemoSource(27)) as (pilot, audit):
        await press(pilot, "f", "right", "enter", "z", "z", "enter")
        assert isinstance(top(pilot), ChoicesScreen)
        assert "Nothing like that." in screen_text(pilot.app)
        await press(pilot, "backspace", "backspace", "d", "enter")
        assert changes(audit.seen) == [("customer", 4)]


async def test_choices_are_text() -> None:
    async with running(DemoSource(27)) as (pilot, _):
        await press(pilot, "f", "right", "enter", "b", "i")
        assert "Birchwood [B] Hall Foods" in screen_text(pilot.app)


async def test_the_choice_in_force_is_marked_and_under_the_cursor() -> None:
    async with running(DemoSource(27)) as (pilot, _):
        await press(pilot, "f", "right", "right", "enter", "down", "down", "enter", "enter")
        assert "▌✓ R-134a" in screen_text(pilot.app)


async def test_a_click_opens_a_part_and_another_takes_a_choice() -> None:
    async with running(DemoSource(27)) as (pilot, audit):
        await pilot.click(FilterSentence, offset=(22, 0))
        await press(pilot)
        assert isinstance(top(pilot), ChoicesScreen)
        await pilot.click(ChoiceList, offset=(6, 2))
        await press(pilot)
        assert changes(audit.seen) == [("customer", 0)]


async def test_a_wide_screen_has_more_parts() -> None:
    async with running(DemoSource(27)) as (pilot, _):
        assert "any severity ▾" not in screen_text(pilot.app)
    async with running(DemoSource(27), size=WIDE) as (pilot, _):
        assert "any severity ▾" in screen_text(pilot.app)


async def test_position_stands_at_the_right_edge() -> None:
    async with running(DemoSource(100_000)) as (pilot, _):
        line = screen_text(pilot.app).splitlines()[2]
        assert line.endswith("1–17 of 100,000")
        assert cell_width(line) == 79


@pytest.mark.parametrize(
    ("room", "labels", "gap"),
    [
        (40, ["Open findings", "all customers"], 2),
        (32, ["Open findings", "all customers"], 2),
        (31, ["Open findings", "all customers"], 1),
        (30, ["Open findings", "customers"], 1),
        (26, ["Open findin…", "customers"], 1),
        (1, ["Open fi…", "custome…"], 1),
    ],
)
def test_labels_give_way_step_by_step(room: int, labels: list[str], gap: int) -> None:
    choices = [Choice("open", "Open findings"), Choice(None, "all customers", "customers")]
    assert fitted_labels(choices, room) == (labels, gap)


def test_choices_that_begin_with_what_was_typed_come_first() -> None:
    choices = [Choice(1, "Old Mill"), Choice(2, "Mill Lane"), Choice(3, "Dock")]
    assert [choice.value for choice in matching(choices, "MILL")] == [2, 1]
    assert matching(choices, "") == choices
    assert matching(choices, "x") == []
