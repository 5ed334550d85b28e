"""Values that cannot be true together. What is merely wrong is kept, and judged later as a finding."""

from collections.abc import Callable
from datetime import date, timedelta
from functools import cache

from fleet.dictionary import FILE_BY_NAME
from fleet.exchange.gathering import Gathered
from fleet.exchange.storage import Stored

_DAYS = ("lies before", "expected the same day or a later one")
_TIMES = ("lies before", "expected the same time or a later one")
_AMOUNTS = ("is less than", "expected the same or more")

ORDERS: dict[str, tuple[tuple[str, str, tuple[str, str]], ...]] = {
    "sites": (
        *((f"low_{month}", f"high_{month}", _AMOUNTS) for month in range(1, 13)),
        ("design_cold", "design_hot", _AMOUNTS),
    ),
    "systems": (("charge_low", "charge_high", _AMOUNTS), ("room_low", "room_high", _AMOUNTS)),
    "boxes": (("td_low", "td_high", _AMOUNTS), ("surroundings_low", "surroundings_high", _AMOUNTS)),
    "compressors": (("in_service", "out_of_service", _DAYS),),
    "events": (("called_at", "arrived_at", _TIMES), ("called_at", "restored_at", _TIMES)),
    "checks": (("done_on", "until", _DAYS),),
}
"""By kind of file: a column that cannot exceed another, how that is said, what is expected."""

HAPPENED = {"settings": "recorded_on", "checks": "done_on", "events": "happened_on"}
"""By kind of file: the day on which what a row tells has happened, so that it cannot lie ahead."""


def name_days_ahead(gathered: Gathered, today: date) -> None:
    """Name every record of a day that has not come: it would prevail over all that follow until then.

    Tomorrow is let through, because a site may lie a day ahead of the office.
    """
    latest = today + timedelta(days=1)
    for name, column in HAPPENED.items():
        table = gathered.table(name)
        place = None if table is None else table.place(column)
        if table is None or place is None:
            continue
        for number, cells in table.rows:
            day = cells[place]
            if isinstance(day, date) and day > latest:
                sentence = f"lies ahead of today, {today.isoformat()}; expected a day that has come"
                gathered.problems.add(table.file, number, column, day.isoformat(), sentence)


def contradictions(
    kind: str, value_of: Callable[[str], Stored], text_of: Callable[[str], str]
) -> list[tuple[str, str, str]]:
    """Return the pairs of columns that contradict each other: column, text of its cell, sentence.

    ``value_of`` gives the stored value by attribute, None where nothing is recorded; ``text_of`` the
    text by column, which is asked only for the sentence.
    """
    found = []
    for lower, upper, (stands, expected) in ORDERS.get(kind, ()):
        low, high = value_of(_attribute(kind, lower)), value_of(_attribute(kind, upper))
        if low is not None and high is not None and high < low:  # type: ignore[operator]
            found.append((upper, text_of(upper), f"{stands} {lower} {text_of(lower)}; {expected}"))
    return found


@cache
def _attribute(kind: str, name: str) -> str:
    column = FILE_BY_NAME[kind].column(name)
    assert column is not None
    return column.attribute
