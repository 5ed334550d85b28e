"""Compressors taken out for a flooded start."""

from datetime import date
from itertools import combinations
from math import nan

import numpy as np
import pytest
from dateutil.relativedelta import relativedelta
from hypothesis import given, settings
from hypothesis import strategies as st

from fleet.dictionary.words import Severity
from fleet.reliability import LifeColumns, flooded_start_severity, flooded_starts

EPOCH = date(1970, 1, 1).toordinal()
SYSTEMS = 4


def number(day: date | str) -> int:
    return (date.fromisoformat(day) if isinstance(day, str) else day).toordinal() - EPOCH


def lives_of(*lives: tuple[int, date | str | None]) -> LifeColumns:
    return LifeColumns(
        system=np.array([system for system, _ in lives], dtype=np.int64),
        position=np.arange(1, len(lives) + 1),
        out_day=np.array([nan if day is None else number(day) for _, day in lives], dtype=np.float64),
    )


LIVES = st.lists(
    st.tuples(st.integers(0, SYSTEMS - 1), st.none() | st.dates(date(1995, 1, 1), date(2030, 12, 31))),
    max_size=12,
)


@pytest.mark.independent
@given(LIVES, st.dates(date(2020, 1, 1), date(2031, 1, 1)))
@settings(deadline=None, max_examples=300)
def test_counts_agree_with_pairs_compared_one_by_one(
    lives: list[tuple[int, date | None]], today: date
) -> None:
    found = flooded_starts(lives_of(*lives), SYSTEMS, number(today))
    span = relativedelta(months=24)
    for system in range(SYSTEMS):
        days = [day for owner, day in lives if owner == system]
        dated = sorted(day for day in days if day is not None)
        assert found.ever[system] == len(days)
        assert found.recent[system] == sum(day <= today <= day + span for day in dated)
        assert found.close_together[system] == any(b <= a + span for a, b in combinations(dated, 2))


@pytest.mark.independent
@pytest.mark.parametrize(
    ("first", "second", "close"),
    [
        ("2024-02-29", "2026-02-28", True),  # 29 February and 24 months is 28 February
        ("2024-02-29", "2026-03-01", False),
        ("2022-02-28", "2024-02-28", True),
        ("2022-02-28", "2024-02-29", False),
        ("2023-05-31", "2025-05-31", True),
        ("2023-05-31", "2025-06-01", False),
        ("1969-01-15", "1971-01-15", True),  # across day 0
        ("1969-01-15", "1971-01-16", False),
        ("2025-05-31", "2025-05-31", True),  # two of a rack on one day
    ],
)
def test_the_boundary_of_24_months_is_in(first: str, second: str, close: bool) -> None:
    found = flooded_starts(lives_of((0, second), (0, first)), 1, number("2026-11-01"))
    assert found.close_together.tolist() == [close]
    recent = flooded_starts(lives_of((0, first)), 1, number(second))
    assert recent.recent.tolist() == [int(close)]


def test_compressors_of_two_systems_are_no_pair() -> None:
    found = flooded_starts(lives_of((0, "2025-01-01"), (1, "2025-02-01")), 2, number("2026-01-01"))
    assert found.close_together.tolist() == [False, False]


def test_without_a_date_it_counts_and_is_close_to_nothing() -> None:
    found = flooded_starts(lives_of((0, None), (0, None), (0, "2025-01-01")), 1, number("2025-06-01"))
    assert (found.ever.tolist(), found.recent.tolist(), found.close_together.tolist()) == ([3], [1], [False])


def test_no_lives_and_no_systems() -> None:
    assert flooded_starts(lives_of(), 2, 20000).ever.tolist() == [0, 0]
    assert len(flooded_starts(lives_of(), 0, 20000)) == 0


@pytest.mark.independent
@pytest.mark.parametrize(
    ("days", "low_pressure_open", "expected"),
    [
        ((), True, 0),
        (("2025-01-01",), False, Severity.NEXT_VISIT),
        (("2025-01-01",), True, Severity.NEXT_VISIT),
        (("2021-01-01", "2025-01-01"), True, Severity.NEXT_VISIT),  # twice, but not close
        (("2024-06-01", "2025-01-01"), False, Severity.NEXT_VISIT),  # the setting was put right
        (("2024-06-01", "2025-01-01"), True, Severity.ACT_NOW),
        (("2004-06-01", "2005-01-01"), True, Severity.ACT_NOW),  # however long ago
        ((None, None), True, Severity.NEXT_VISIT),
    ],
)
def test_severity_of_a_history(days: tuple[str | None, ...], low_pressure_open: bool, expected: int) -> None:
    found = flooded_starts(lives_of(*((0, day) for day in days)), 1, number("2026-01-01"))
    assert flooded_start_severity(found, np.array([low_pressure_open])).tolist() == [expected]


@given(LIVES, st.dates(date(2000, 1, 1), date(2031, 1, 1)), st.lists(st.booleans(), min_size=4, max_size=4))
@settings(deadline=None)
def test_severity_depends_on_no_date_and_only_worsens_with_an_open_finding(
    lives: list[tuple[int, date | None]], today: date, low_pressure_open: list[bool]
) -> None:
    columns = lives_of(*lives)
    is_open = np.array(low_pressure_open)
    once = flooded_start_severity(flooded_starts(columns, SYSTEMS, number(today)), is_open)
    later = flooded_start_severity(flooded_starts(columns, SYSTEMS, number(today) + 1000), is_open)
    none_open = flooded_start_severity(flooded_starts(columns, SYSTEMS, number(today)), np.zeros(4, bool))
    assert once.tolist() == later.tolist()
    assert (once <= none_open).all()  # 1 is the worst
    assert ((once == 0) == (none_open == 0)).all()
