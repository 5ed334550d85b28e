"""What falls due when."""

from dataclasses import replace
from datetime import date, timedelta

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fleet.checks import (
    CATALOGUE,
    WHOLE_SYSTEM,
    DueBasis,
    DueLines,
    check_index,
    due_lines,
    edited,
    no_records,
)
from fleet.dictionary.words import BoxKind, Defrost, Form, Heater, Status, Strategy, YesNo
from fleet.targets.columns import FleetColumns
from tests.checks.by_hand import Line, lines_by_hand
from tests.checks.fleets import Box, Record, Unit, day_of, fleet_of, iso, number, records_of

DAYS = st.none() | st.dates(date(1996, 1, 1), date(2032, 12, 31))
BOXES = st.builds(
    Box,
    kind=st.none() | st.sampled_from(BoxKind),
    defrost=st.none() | st.sampled_from(Defrost),
    installed=DAYS,
)
UNITS = st.builds(
    Unit,
    strategy=st.none() | st.sampled_from(Strategy),
    form=st.none() | st.sampled_from(Form),
    status=st.none() | st.sampled_from(Status),
    critically_charged=st.none() | st.sampled_from(YesNo),
    installed=DAYS,
    heaters=st.lists(st.none() | st.sampled_from(Heater), max_size=3).map(tuple),
    boxes=st.lists(BOXES, max_size=3).map(tuple),
)
FLEETS = st.lists(UNITS, max_size=5).map(tuple)


@st.composite
def fleets_with_records(draw: st.DrawFn) -> tuple[tuple[Unit, ...], tuple[Record, ...]]:
    units = draw(FLEETS)
    places = [(row, WHOLE_SYSTEM) for row in range(len(units))]
    owners = [row for row, unit in enumerate(units) for _ in unit.boxes]
    places += [(owner, box) for box, owner in enumerate(owners)]
    if not places:
        return units, ()
    codes = [kind.code for kind in CATALOGUE]
    one = st.builds(lambda place, code, done, until: Record(place[0], place[1], code, done, until),
                    st.sampled_from(places), st.sampled_from(codes), DAYS, DAYS)  # fmt: skip
    return units, tuple(draw(st.lists(one, max_size=25)))


def as_lines(lines: DueLines) -> set[Line]:
    return {
        Line(
            CATALOGUE[lines.check[row]].code,
            int(lines.system[row]),
            int(lines.part[row]),
            day_of(lines.due_day[row]),
            day_of(lines.due_by_day[row]),
            day_of(lines.late_from_day[row]),
            int(lines.minutes[row]),
        )
        for row in range(len(lines))
    }


def line_of(lines: DueLines, code: str, part: int = WHOLE_SYSTEM) -> int:
    return int(np.flatnonzero((lines.check == check_index(code)) & (lines.part == part))[0])


@pytest.mark.independent
@given(fleets_with_records())
@settings(deadline=None, max_examples=300)
def test_every_line_agrees_with_one_counted_by_hand(
    made: tuple[tuple[Unit, ...], tuple[Record, ...]],
) -> None:
    units, records = made
    lines = due_lines(fleet_of(*units), records_of(*records))
    expected = lines_by_hand(units, records)
    assert as_lines(lines) == expected
    assert len(lines) == len(expected)  # none twice


@given(fleets_with_records(), st.randoms(use_true_random=False))
@settings(deadline=None)
def test_the_order_of_recording_does_not_matter(
    made: tuple[tuple[Unit, ...], tuple[Record, ...]], random: object
) -> None:
    units, records = made
    shuffled = list(records)
    random.shuffle(shuffled)  # type: ignore[attr-defined]
    fleet = fleet_of(*units)
    assert as_lines(due_lines(fleet, records_of(*records))) == as_lines(
        due_lines(fleet, records_of(*shuffled))
    )


@given(fleets_with_records(), st.integers(0, 24), st.integers(1, 2000))
@settings(deadline=None)
def test_a_later_last_done_never_gives_an_earlier_due(
    made: tuple[tuple[Unit, ...], tuple[Record, ...]], which: int, days_later: int
) -> None:
    units, records = made
    done = [row for row, record in enumerate(records) if record.done is not None]
    if not done:
        return
    row = done[which % len(done)]
    record = records[row]
    assert record.done is not None
    later = replace(record, done=record.done + timedelta(days=days_later))
    fleet = fleet_of(*units)
    before = due_lines(fleet, records_of(*records))
    after = due_lines(fleet, records_of(*records[:row], later, *records[row + 1 :]))
    known = ~np.isnan(before.due_day)
    assert (after.due_day[known] >= before.due_day[known]).all()


@given(fleets_with_records())
@settings(deadline=None)
def test_a_back_dated_older_record_changes_nothing(
    made: tuple[tuple[Unit, ...], tuple[Record, ...]],
) -> None:
    units, records = made
    older = [replace(r, done=r.done - timedelta(days=200), waived_until=None) for r in records if r.done]
    fleet = fleet_of(*units)
    assert as_lines(due_lines(fleet, records_of(*records))) == as_lines(
        due_lines(fleet, records_of(*records, *older))
    )


@given(fleets_with_records(), FLEETS)
@settings(deadline=None)
def test_a_system_falls_due_alone_as_it_does_in_a_fleet(
    made: tuple[tuple[Unit, ...], tuple[Record, ...]], others: tuple[Unit, ...]
) -> None:
    units, records = made
    alone = due_lines(fleet_of(*units), records_of(*records))
    among = due_lines(fleet_of(*units, *others), records_of(*records))
    own = among.system < len(units)
    for name in ("system", "part", "check", "due_day", "due_by_day", "late_from_day", "minutes", "basis"):
        assert np.array_equal(
            getattr(among, name)[own], getattr(alone, name), equal_nan=name.endswith("_day")
        )


def cooler(**changes: object) -> FleetColumns:
    unit = Unit(
        strategy=Strategy.RECYCLING,
        form=Form.SPLIT,
        installed=date(2024, 8, 31),
        heaters=(Heater.WORKING,),
        boxes=(Box(BoxKind.WALK_IN_COOLER, Defrost.OFF_CYCLE),),
    )
    return fleet_of(replace(unit, **changes))  # type: ignore[arg-type]


@pytest.mark.independent
def test_a_check_never_done_counts_from_the_day_of_installing() -> None:
    lines = due_lines(cooler(), no_records())
    row = line_of(lines, "pump_down_hold")
    days = iso([lines.due_day[row], lines.due_by_day[row], lines.late_from_day[row]])
    # 31 August and 6 months is 28 February; 36 days on 5 April; 6 months on 28 August, over it on the 29th.
    assert days == ["2025-02-28", "2025-04-05", "2025-08-29"]
    assert lines.basis[row] == DueBasis.INSTALLED
    assert np.isnan(lines.last_done_day[row])


@pytest.mark.independent
def test_a_box_counts_from_its_own_installing_where_it_is_recorded() -> None:
    fleet = cooler(boxes=(Box(installed=date(2025, 1, 10)), Box()))
    lines = due_lines(fleet, no_records())
    rows = [line_of(lines, "evaporator_coil", part=0), line_of(lines, "evaporator_coil", part=1)]
    assert iso(lines.due_day[rows]) == ["2025-07-10", "2025-02-28"]


@pytest.mark.independent
@pytest.mark.parametrize(
    ("done", "until", "due", "basis"),
    [
        ("2025-03-01", None, "2025-09-01", DueBasis.LAST_DONE),
        ("2025-03-01", "2026-01-31", "2026-02-01", DueBasis.WAIVED),
        ("2025-03-01", "2025-04-30", "2025-09-01", DueBasis.LAST_DONE),  # a waiver never brings forward
        (None, "2026-01-31", "2026-02-01", DueBasis.WAIVED),
    ],
)
def test_a_waiver_puts_off_to_the_day_after_it_ends(
    done: str | None, until: str | None, due: str, basis: DueBasis
) -> None:
    record = Record(0, WHOLE_SYSTEM, "leak_search", _date(done), _date(until))
    lines = due_lines(cooler(), records_of(record))
    row = line_of(lines, "leak_search")
    assert iso([lines.due_day[row]]) == [due]
    assert lines.basis[row] == basis


def _date(text: str | None) -> date | None:
    return None if text is None else date.fromisoformat(text)


def test_without_any_date_the_line_is_kept_and_never_due() -> None:
    lines = due_lines(cooler(installed=None), no_records())
    assert len(lines) > 0
    assert np.isnan(lines.due_day).all()
    assert np.isnan(lines.late_from_day).all()
    assert (lines.basis == DueBasis.NO_DATE).all()


@pytest.mark.parametrize("status", [Status.IDLE, Status.REMOVED])
def test_what_is_out_of_use_has_nothing_due(status: Status) -> None:
    assert len(due_lines(cooler(status=status), no_records())) == 0


def test_a_record_of_the_system_is_none_of_its_box_and_the_other_way_round() -> None:
    day = date(2026, 1, 15)
    misplaced = records_of(Record(0, 0, "leak_search", day), Record(0, WHOLE_SYSTEM, "evaporator_coil", day))
    lines = due_lines(cooler(), misplaced)
    assert as_lines(lines) == as_lines(due_lines(cooler(), no_records()))


def test_records_of_checks_outside_the_catalogue_are_passed_over() -> None:
    unknown = replace(
        records_of(Record(0, WHOLE_SYSTEM, "leak_search", date(2026, 1, 15))), check=np.array([-1])
    )
    assert as_lines(due_lines(cooler(), unknown)) == as_lines(due_lines(cooler(), no_records()))


def test_an_empty_fleet_and_an_empty_catalogue_have_no_lines() -> None:
    assert len(due_lines(fleet_of(), no_records())) == 0
    assert len(due_lines(cooler(), no_records(), ())) == 0


def test_a_changed_catalogue_moves_dates_and_undone_restores_them() -> None:
    delivered = due_lines(cooler(), no_records())
    changed = edited(CATALOGUE, {"leak_search": {"months": 1, "tolerance_days": 0, "minutes": 25}})
    lines = due_lines(cooler(), no_records(), changed)
    row = line_of(lines, "leak_search")
    assert iso([lines.due_day[row], lines.due_by_day[row]]) == ["2024-09-30", "2024-09-30"]
    assert lines.minutes[row] == 25
    undone = edited(changed, {"leak_search": {"months": 6, "tolerance_days": None, "minutes": 12}})
    assert as_lines(due_lines(cooler(), no_records(), undone)) == as_lines(delivered)


def test_a_question_about_systems_may_choose_boxes() -> None:
    changed = edited(CATALOGUE, {"evaporator_coil": {"applies": "not-self-contained"}})
    fleet = fleet_of(Unit(form=Form.SELF_CONTAINED, boxes=(Box(),)), Unit(boxes=(Box(), Box())))
    lines = due_lines(fleet, no_records(), changed)
    assert lines.part[lines.check == check_index("evaporator_coil")].tolist() == [1, 2]


def test_a_tolerance_longer_than_the_interval_never_makes_late_before_overdue() -> None:
    changed = edited(CATALOGUE, {"rack": {"months": 1, "tolerance_days": 90}})
    lines = due_lines(cooler(strategy=Strategy.RACK), no_records(), changed)
    row = line_of(lines, "rack")
    assert lines.due_by_day[row] == lines.due_day[row] + 90
    assert lines.late_from_day[row] == lines.due_by_day[row] + 1


def test_a_check_done_before_installing_counts_from_when_it_was_done() -> None:
    record = Record(0, WHOLE_SYSTEM, "condenser_coil", date(2023, 1, 15))  # a unit that was moved here
    lines = due_lines(cooler(), records_of(record))
    assert lines.due_day[line_of(lines, "condenser_coil")] == number("2023-07-15")
