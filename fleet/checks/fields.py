"""What each field of a check accepts when a company changes it."""

from collections.abc import Callable

from fleet.checks.applies import APPLIES
from fleet.checks.catalogue import SITE_STAFF, SUMMER, TECHNICIAN, WINTER
from fleet.errors import UnknownNameError

_LONGEST_MONTHS = 120
_LONGEST_MINUTES = 420
"""What one visit holds at most (judgement); a longer check is two checks."""
_LONGEST_TOLERANCE_DAYS = 366

Validator = Callable[[object], object]


class NotAcceptedError(Exception):
    """Carries what would be accepted to where check and field are known; never leaves this package."""

    def __init__(self, expected: str) -> None:
        super().__init__(expected)
        self.expected = expected


def _whole_number(lowest: int, highest: int, unit: str, *, may_be_empty: bool = False) -> Validator:
    empty = ", or empty" if may_be_empty else ""

    def accept(value: object) -> object:
        if value is None and may_be_empty:
            return None
        # True is an int to Python and nothing that a person means as a number.
        if isinstance(value, bool) or not isinstance(value, int) or not lowest <= value <= highest:
            raise NotAcceptedError(f"expected a whole number of {unit} from {lowest} to {highest}{empty}")
        return value

    return accept


def _one_of(*choices: str) -> Validator:
    def accept(value: object) -> object:
        if value not in choices:
            listed = ", ".join(choice or "(empty)" for choice in choices)
            raise NotAcceptedError(f"expected one of: {listed}")
        return value

    return accept


def _text(value: object) -> object:
    if not isinstance(value, str) or not value.strip():
        raise NotAcceptedError("expected a few words that say what is done")
    return value.strip()


def _question(value: object) -> object:
    if not isinstance(value, str) or value not in APPLIES:
        raise UnknownNameError("kind of equipment", str(value), APPLIES)
    return value


def _names(value: object) -> object:
    listed = isinstance(value, list | tuple)
    if not listed or not all(isinstance(name, str) and name.strip() for name in value):  # type: ignore[attr-defined]
        raise NotAcceptedError("expected a list of skills, each a word such as refrigerant")
    return tuple(name.strip() for name in value)  # type: ignore[attr-defined]


_MONTHS = _whole_number(1, _LONGEST_MONTHS, "months")
_MONTHS_OR_EMPTY = _whole_number(1, _LONGEST_MONTHS, "months", may_be_empty=True)
_MINUTES = _whole_number(1, _LONGEST_MINUTES, "minutes")
_MINUTES_OR_EMPTY = _whole_number(1, _LONGEST_MINUTES, "minutes", may_be_empty=True)

VALIDATORS: dict[str, Validator] = {
    "what": _text,
    "applies": _question,
    "who": _one_of(TECHNICIAN, SITE_STAFF),
    "months": _MONTHS,
    "minutes": _MINUTES,
    "months_self_contained": _MONTHS_OR_EMPTY,
    "months_display_case": _MONTHS_OR_EMPTY,
    "months_freezer": _MONTHS_OR_EMPTY,
    "minutes_self_contained": _MINUTES_OR_EMPTY,
    "season": _one_of("", SUMMER, WINTER),
    "skills": _names,
    "tolerance_days": _whole_number(0, _LONGEST_TOLERANCE_DAYS, "days", may_be_empty=True),
}
