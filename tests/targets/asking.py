"""What the cases of the engineering basis share: the usual cooler, and asking the product about a system."""

from fleet.dictionary.words import Severity, Verdict
from fleet.targets.explain import Explanation, explain
from fleet.targets.judge import Judged
from fleet.targets.lowpressure import LowPressure, low_pressure
from fleet.units import UnitSystem
from tests.targets.building import fleet_of
from tests.targets.reference import System

VERDICTS = [verdict.value for verdict in Verdict]
COOLER = System(cut_in=15.0, cut_out=5.0)
"""R-404A walk-in cooler, recycling pump-down, outdoors at 0 °F, at sea level."""
R404A_0F_PSIG = 32.6
"""Dew pressure at 0 °F: CoolProp's equation gives 47.3 psia."""


def found_of(*systems: System) -> LowPressure:
    return low_pressure(fleet_of(systems))


def said(judged: Judged, row: int = 0) -> tuple[str, str | None]:
    severity = int(judged.severity[row])
    return VERDICTS[judged.verdict[row]], Severity(severity).value_name if severity else None


def explained(system: System, name: str, units: UnitSystem = UnitSystem.US) -> Explanation:
    fleet = fleet_of([system])
    found = low_pressure(fleet)
    return explain(fleet, found, getattr(found, name), 0, units)
