"""When somebody was at a site: every quarter of a year, counted back from the last visit."""

from seeds_demo.parts import System

BETWEEN_VISITS_DAYS = 91
VISITS_OF_MONTHS = {3: 1, 6: 2, 12: 4}
"""Every how many visits a check of so many months is done."""


def visits(system: System, last_visit: int, history_days: int, months: int) -> list[int]:
    """Return the visits, in days ago, on which checks of an interval of ``months`` were done."""
    every, offset = VISITS_OF_MONTHS[months], last_visit % 4
    until = system.idle_days or 0
    days = range(last_visit, min(history_days, system.age_days - 1), BETWEEN_VISITS_DAYS)
    return [day for number, day in enumerate(days) if (number + offset) % every == 0 and day > until]
