"""Which lines are overdue, and from when to when."""

from datetime import date

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fleet.audit.findings import NEVER
from fleet.checks import CATALOGUE, NEVER_DAY, WHOLE_SYSTEM, DueLines, check_kind, due_lines, edited, overdue
from fleet.checks.due import no_records
from fleet.dictionary.words import Severity
from fleet.targets.columns import (
    BoxColumns,
    CompressorColumns,
    FleetColumns,
    GroupColumns,
    SystemColumns,
    empty_columns,
)
from tests.checks.fleets import Record, Unit, fleet_of, number, records_of

# Done on 1 January 2026: due 1 July, due by 6 August, late (over 6 months) from 2 January 2027.
DONE, WATCH_FROM, LATE_FROM = date(2026, 1, 1), number("2026-08-07"), number("2027-01-02")


def leak_search(**changes: object) -> DueLines:
    catalogue = (check_kind("leak_search", edited(CATALOGUE, {"leak_search": changes})),)
    record = records_of(Record(0, WHOLE_SYSTEM, "leak_search", DONE))
    record.check[:] = 0
    return due_lines(fleet_of(Unit()), record, catalogue)


def shown(lines: DueLines, today: float, horizon: int = 0) -> list[tuple[int, int, int]]:
    found = overdue(lines, int(today), horizon)
    return list(zip(found.severity.tolist(), found.from_day.tolist(), found.until_day.tolist(), strict=True))


WATCH = (int(Severity.WATCH), int(WATCH_FROM), int(LATE_FROM))
LATE = (int(Severity.NEXT_VISIT), int(LATE_FROM), NEVER_DAY)


@pytest.mark.independent
@pytest.mark.parametrize(
    ("today", "horizon", "expected"),
    [
        (WATCH_FROM - 1, 0, []),  # the last day of grace
        (WATCH_FROM, 0, [WATCH]),
        (WATCH_FROM - 62, 61, []),
        (WATCH_FROM - 62, 62, [WATCH]),  # the last day of the horizon is in it
        (LATE_FROM - 1, 0, [WATCH]),
        (LATE_FROM - 1, 1, [WATCH, LATE]),  # one line, two rows
        (LATE_FROM, 0, [LATE]),  # the watch is over
        (LATE_FROM + 5000, 0, [LATE]),
        (WATCH_FROM - 1, 400, [WATCH, LATE]),
    ],
)
def test_watch_then_next_visit(today: float, horizon: int, expected: list[tuple[int, int, int]]) -> None:
    assert shown(leak_search(), today, horizon) == expected


def test_a_tolerance_longer_than_the_interval_skips_the_watch() -> None:
    lines = leak_search(months=1, tolerance_days=90)
    assert [row[0] for row in shown(lines, lines.due_by_day[0] + 1)] == [Severity.NEXT_VISIT]
    assert shown(lines, lines.due_by_day[0]) == []
    # Seen from the day before there is no row either that would hold on no day at all.
    assert [row[0] for row in shown(lines, lines.due_by_day[0], horizon=1)] == [Severity.NEXT_VISIT]


def test_what_has_no_date_is_never_overdue() -> None:
    lines = due_lines(fleet_of(Unit()), records_of())
    assert len(lines) > 0
    assert len(overdue(lines, today_day=10**6)) == 0


@given(
    done=st.lists(st.none() | st.dates(date(2020, 1, 1), date(2028, 1, 1)), min_size=1, max_size=8),
    today=st.integers(int(number("2024-01-01")), int(number("2028-01-01"))),
    horizon=st.integers(0, 100),
)
@settings(deadline=None)
def test_a_list_of_any_day_up_to_the_horizon_is_the_list_of_an_audit_that_day(
    done: list[date | None], today: int, horizon: int
) -> None:
    units = [Unit() for _ in done]
    records = [Record(row, WHOLE_SYSTEM, "leak_search", day) for row, day in enumerate(done)]
    lines = due_lines(fleet_of(*units), records_of(*records))
    ahead = overdue(lines, today, horizon)
    for day in (today, today + horizon // 2, today + horizon):
        holds = (ahead.from_day <= day) & (day < ahead.until_day)
        then = overdue(lines, day, 0)
        rows = zip(ahead.line[holds], ahead.severity[holds], strict=True)
        assert sorted(rows) == sorted(zip(then.line, then.severity, strict=True))
        assert len(set(ahead.line[holds].tolist())) == np.count_nonzero(holds)  # one severity a day
        assert set(ahead.line[holds].tolist()) == set(np.flatnonzero(lines.due_by_day < day).tolist())


def test_for_ever_is_the_same_day_here_and_in_the_audit() -> None:
    assert NEVER_DAY == NEVER


def test_without_any_record_a_line_stays_a_watch_however_late() -> None:
    systems = empty_columns(SystemColumns, 1)
    systems.installed_day[0] = 10_000
    fleet = FleetColumns(
        systems,
        empty_columns(BoxColumns, 0),
        empty_columns(GroupColumns, 0),
        empty_columns(CompressorColumns, 0),
        (),
        (),
    )
    late = overdue(due_lines(fleet, no_records()), today_day=20_000)
    assert len(late) > 0
    assert set(late.severity.tolist()) == {int(Severity.WATCH)}
    assert set(late.until_day.tolist()) == {NEVER_DAY}
