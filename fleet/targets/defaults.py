"""Numbers taken where nothing is recorded, and numbers of judgement; each with its source.

Temperatures differences are written in °F as the trade says them, and kept in kelvin.
"""

from fleet.dictionary.words import BoxKind, Stored
from fleet.units import FAHRENHEIT_K, PSI_PA, STANDARD_AIR_PA, ZERO_FAHRENHEIT_K


def degrees_f(difference_f: float) -> float:
    """Return a difference in °F as kelvin."""
    return difference_f * FAHRENHEIT_K


def at_f(temperature_f: float) -> float:
    """Return a temperature in °F as kelvin."""
    return ZERO_FAHRENHEIT_K + temperature_f * FAHRENHEIT_K


GRAVITY_M_S2 = 9.80665
"""Standard acceleration of free fall (NIST SP 811, Appendix B.8)."""

LINE_LOSS_K = degrees_f(2)  # source: line_loss_default
DIFFERENTIAL_ASSUMED_K = degrees_f(4)  # source: differential_assumed
GLIDE_SHARE = 0.35  # source: glide_share
TOLERANCE_PA = 0.1 * PSI_PA
"""A value this far past a bound is still inside: no gauge in a van reads finer (judgement)."""

MARGIN_LEAST_PA = 3 * PSI_PA  # source: margin_restart
MARGIN_SHARE = 0.10  # source: margin_restart
DIFFERENTIAL_LEAST_PA = 5 * PSI_PA  # source: smallest_differential
DIFFERENTIAL_CAP_PA = 10 * PSI_PA  # source: smallest_differential
DIFFERENTIAL_SHARE = 0.25  # source: smallest_differential
DIFFERENTIAL_ONE_TIME_PA = 2 * PSI_PA  # source: smallest_differential
PREFERRED_DIFFERENTIAL_PA = 10 * PSI_PA  # source: preferred_pair
PREFERRED_CUT_OUT_MEDIUM_PA = 5 * PSI_PA  # source: preferred_pair
PREFERRED_CUT_OUT_LOW_PA = 2 * PSI_PA  # source: preferred_pair
SCROLL_LOWEST_SST_K = at_f(-20)  # source: scroll_lowest_suction
TRIPLE_POINT_CO2_PA_ABS = 517_950.0  # source: dry_ice, 5.1795 bar as CoolProp's equation has it
DRY_ICE_FLOOR_PA_ABS = 75 * PSI_PA + STANDARD_AIR_PA  # source: dry_ice_margin, some 15 psi above it
BAND_PRESSURE_CYCLING_K = degrees_f(3)  # source: pressure_cycling_band
GLIDE_MATTERS_K = degrees_f(3)  # source: idle_coil_blend
COIL_CLEARS_K = at_f(35)  # source: coil_clears
COIL_CLEARS_TOP_K = at_f(38)  # source: coil_clears
PSI_OF_GRACE_PA = 1 * PSI_PA  # source: pressure_cycling_band
GROUP_BAND_K = degrees_f(5)  # source: group_band
BOXES_APART_K = degrees_f(10)  # source: boxes_apart

NO_TRIP_PUMP_DOWN = ((at_f(-10), degrees_f(5)), (at_f(0), degrees_f(10)))
"""(suction temperature, margin below it) between which the margin is straight; no_trip_in_running."""
NO_TRIP_LOSS_OF_CHARGE = ((at_f(-20), degrees_f(5)), (at_f(0), degrees_f(15)))

TD_BY_KIND_F: dict[BoxKind, tuple[float, float]] = {
    BoxKind.WALK_IN_COOLER: (10, 12),
    BoxKind.WALK_IN_FREEZER: (8, 10),
    BoxKind.REACH_IN_COOLER: (15, 25),
    BoxKind.REACH_IN_FREEZER: (15, 25),
    BoxKind.DISPLAY_CASE_MEDIUM: (8, 14),
    BoxKind.DISPLAY_CASE_LOW: (5, 10),
    BoxKind.PREPARATION_ROOM: (15, 20),
}
"""Air on the coil minus dew point, by kind of box; sources td_by_class, td_display."""
TD_BY_STORED_F: dict[Stored, tuple[float, float]] = {
    Stored.PRODUCE: (8, 10),
    Stored.FLOWERS: (8, 10),
    Stored.BEVERAGES: (12, 16),
}
"""What a walk-in cooler keeps may narrow its class; source td_by_class."""
