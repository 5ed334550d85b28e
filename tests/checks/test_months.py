"""Calendar months over columns of days."""

from datetime import date

import numpy as np
import pytest
from dateutil.relativedelta import relativedelta
from hypothesis import given, settings
from hypothesis import strategies as st

from fleet.checks import add_months
from tests.checks.fleets import EPOCH, day_of, iso, number

DAYS = st.dates(date(1800, 1, 1), date(2300, 12, 31))


@pytest.mark.independent
@pytest.mark.parametrize(
    ("day", "months", "expected"),
    [
        ("2025-01-31", 1, "2025-02-28"),
        ("2024-01-31", 1, "2024-02-29"),
        ("2024-02-29", 12, "2025-02-28"),
        ("2024-02-29", 48, "2028-02-29"),
        ("2025-08-31", 6, "2026-02-28"),
        ("2025-12-31", 2, "2026-02-28"),
        ("2025-10-31", 1, "2025-11-30"),
        ("2026-02-28", 1, "2026-03-28"),  # the end of a month is not remembered
        ("2000-01-31", 1, "2000-02-29"),  # a century that is a leap year
        ("1900-01-31", 1, "1900-02-28"),  # a century that is none
        ("1969-12-31", 2, "1970-02-28"),  # across day 0
        ("2025-03-31", -1, "2025-02-28"),
        ("2025-03-31", 0, "2025-03-31"),
    ],
)
def test_a_calendar_made_by_hand(day: str, months: int, expected: str) -> None:
    assert iso([float(add_months(number(day), months))]) == [expected]


@pytest.mark.independent
@pytest.mark.parametrize("months", [1, 2, 3, 6, 12, 24, 120, -1, -6, -24])
def test_every_day_of_five_centuries_agrees_with_dateutil(months: int) -> None:
    days = range(date(1800, 1, 1).toordinal(), date(2300, 1, 1).toordinal(), 1 if months in (1, 6) else 7)
    expected = [(date.fromordinal(day) + relativedelta(months=months)).toordinal() - EPOCH for day in days]
    assert np.array_equal(add_months(np.array(days) - EPOCH, months), expected)


@pytest.mark.independent
@given(st.lists(st.tuples(DAYS, st.integers(-600, 600)), min_size=1, max_size=40))
@settings(deadline=None)
def test_each_day_may_have_months_of_its_own(pairs: list[tuple[date, int]]) -> None:
    days = np.array([number(day) for day, _ in pairs])
    months = np.array([step for _, step in pairs])
    expected = [day + relativedelta(months=step) for day, step in pairs]
    assert [day_of(moved) for moved in add_months(days, months)] == expected


@given(DAYS, DAYS, st.integers(1, 120))
@settings(deadline=None)
def test_a_later_day_never_comes_out_earlier(one: date, other: date, months: int) -> None:
    first, second = sorted((number(one), number(other)))
    assert add_months(first, months) <= add_months(second, months)


def test_an_unknown_day_stays_unknown_beside_known_ones() -> None:
    assert iso(add_months(np.array([np.nan, number("2025-01-31")]), 1)) == [None, "2025-02-28"]
    assert add_months(np.zeros(0), 1).shape == (0,)
