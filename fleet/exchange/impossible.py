"""Values that cannot be true together. What is merely wrong is kept, and judged later as a finding."""

from collections.abc import Callable
from functools import cache

from fleet.dictionary import FILE_BY_NAME
from fleet.exchange.storage import Stored

_LATER = "expected the same day or a later one"
_HIGHER = "expected the same or more"

ORDERS: dict[str, tuple[tuple[str, str, str], ...]] = {
    "sites": (
        *((f"low_{month}", f"high_{month}", _HIGHER) for month in range(1, 13)),
        ("design_cold", "design_hot", _HIGHER),
    ),
    "systems": (("charge_low", "charge_high", _HIGHER), ("room_low", "room_high", _HIGHER)),
    "boxes": (("td_low", "td_high", _HIGHER), ("surroundings_low", "surroundings_high", _HIGHER)),
    "compressors": (("in_service", "out_of_service", _LATER),),
    "events": (
        ("called_at", "arrived_at", "expected the same time or a later one"),
        ("called_at", "restored_at", "expected the same time or a later one"),
    ),
    "checks": (("done_on", "until", _LATER),),
}
"""By kind of file: a column that cannot exceed another, and what is expected of the other."""


def contradictions(kind: str, value_of: Callable[[str], Stored]) -> list[tuple[str, str, str]]:
    """Return the pairs of columns that contradict each other, with what is expected.

    ``value_of`` gives the stored value by attribute, None where nothing is recorded.
    """
    found = []
    for lower, upper, expected in ORDERS.get(kind, ()):
        low, high = value_of(_attribute(kind, lower)), value_of(_attribute(kind, upper))
        if low is not None and high is not None and high < low:  # type: ignore[operator]
            found.append((lower, upper, expected))
    return found


@cache
def _attribute(kind: str, name: str) -> str:
    column = FILE_BY_NAME[kind].column(name)
    assert column is not None
    return column.attribute
