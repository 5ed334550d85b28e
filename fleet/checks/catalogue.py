"""The catalogue of preventive checks, with intervals and minutes that every company may change.

Intervals and minutes are common practice weighed by judgement, heavy rather than light; no standard
stands behind them. The maker's manual and the law prevail.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from fleet.checks.applies import Scope
from fleet.errors import UnknownNameError
from fleet.sources import Source, source

TECHNICIAN = "technician"
SITE_STAFF = "site-staff"
WINTER = "winter"
SUMMER = "summer"


@dataclass(frozen=True, slots=True)
class CheckKind:
    """One check of the catalogue: what is done, on what, by whom, how often, and how long it takes."""

    code: str
    what: str
    applies: str
    """Name of a question of `fleet.checks.applies`."""
    scope: Scope
    """Done once for the system, or once for each box."""
    who: str
    months: int
    """Interval in calendar months, where none of the exceptions below holds."""
    minutes: int
    months_self_contained: int | None = None
    months_display_case: int | None = None
    """Interval on boxes of the two display-case kinds; checks of boxes only."""
    months_freezer: int | None = None
    """Interval on walk-in and reach-in freezers; checks of boxes only."""
    minutes_self_contained: int | None = None
    season: str = ""
    """``winter`` or ``summer``: before its onset the check is best done; empty where it matters not."""
    skills: tuple[str, ...] = ()
    tolerance_days: int | None = None
    """Days after the due day before the check is overdue; None takes a fifth of the interval."""
    source_code: str = "check_interval"

    @property
    def source(self) -> Source:
        """What stands behind the interval and the minutes."""
        return source(self.source_code)


CATALOGUE: tuple[CheckKind, ...] = (
    CheckKind(
        "evaporator_coil",
        "Clean the evaporator coil, look at the frost pattern",
        "every-box",
        "box",
        TECHNICIAN,
        6,
        45,
        months_display_case=3,
        season=SUMMER,
    ),
    CheckKind(
        "condenser_coil",
        "Clean the condenser coil",
        "every-system",
        "system",
        TECHNICIAN,
        6,
        40,
        months_self_contained=3,
        minutes_self_contained=15,
        season=SUMMER,
    ),
    CheckKind(
        "pressures_superheat",
        "Read pressures and superheat at the unit",
        "not-critically-charged",
        "system",
        TECHNICIAN,
        6,
        12,
        months_self_contained=12,
        skills=("refrigerant",),
    ),
    CheckKind(
        "crankcase_heater",
        "Measure the crankcase heater's current, feel that the shell is warm at rest",
        "heater-fitted",
        "system",
        TECHNICIAN,
        6,
        5,
        season=WINTER,
        skills=("electrical",),
    ),
    CheckKind(
        "pump_down_hold",
        "Watch the pump-down hold, read cut-in and cut-out by gauge",
        "pump-down",
        "system",
        TECHNICIAN,
        6,
        20,
        season=WINTER,
        skills=("refrigerant",),
    ),
    CheckKind(
        "leak_search",
        "Search the whole circuit for leaks, look at sight glass and receiver",
        "not-critically-charged",
        "system",
        TECHNICIAN,
        6,
        12,
        months_self_contained=12,
        skills=("refrigerant",),
    ),
    CheckKind(
        "defrost",
        "Check defrost heaters, termination and fan delay",
        "heated-defrost",
        "box",
        TECHNICIAN,
        6,
        20,
        months_freezer=3,
        season=SUMMER,
    ),
    CheckKind(
        "control_sequence",
        "Walk the control through its sequence, both ways",
        "not-self-contained",
        "system",
        TECHNICIAN,
        12,
        15,
        season=WINTER,
    ),
    CheckKind(
        "rack",
        "Read the group pressures, check the oil return",
        "rack",
        "system",
        TECHNICIAN,
        3,
        60,
        skills=("rack", "refrigerant"),
    ),
)
"""Lines hold the position of a check here: append only."""

CHECK_CODES: tuple[str, ...] = tuple(kind.code for kind in CATALOGUE)


def check_index(code: str, catalogue: Sequence[CheckKind] = CATALOGUE) -> int:
    """Return the position of a check in a catalogue.

    >>> check_index("condenser_coil")
    1
    """
    codes = [kind.code for kind in catalogue]
    try:
        return codes.index(code)
    except ValueError:
        raise UnknownNameError("check", code, codes) from None


def check_kind(code: str, catalogue: Sequence[CheckKind] = CATALOGUE) -> CheckKind:
    """Return a check of a catalogue by its code.

    >>> check_kind("rack").months
    3
    """
    return catalogue[check_index(code, catalogue)]
