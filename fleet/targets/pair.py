"""Windows of the low-pressure control of one condensing unit: cut-in, cut-out, differential.

Each has its own window; no bound of cut-in or cut-out depends on the recorded partner, only the
smallest differential depends on the recorded cut-in.
"""

from dataclasses import dataclass

import numpy as np

from fleet.dictionary.words import Strategy
from fleet.properties import bubble_pressure_pa_abs, dew_pressure_pa_abs, glide_k
from fleet.targets.bounds import Bind, WindowMaker, straight_between
from fleet.targets.columns import Bools, Floats, SystemColumns
from fleet.targets.defaults import (
    BAND_PRESSURE_CYCLING_K,
    COIL_CLEARS_K,
    COIL_CLEARS_TOP_K,
    DIFFERENTIAL_CAP_PA,
    DIFFERENTIAL_LEAST_PA,
    DIFFERENTIAL_ONE_TIME_PA,
    DIFFERENTIAL_SHARE,
    GLIDE_MATTERS_K,
    NO_TRIP_LOSS_OF_CHARGE,
    NO_TRIP_PUMP_DOWN,
    PREFERRED_CUT_OUT_LOW_PA,
    PREFERRED_CUT_OUT_MEDIUM_PA,
    PREFERRED_DIFFERENTIAL_PA,
    PSI_OF_GRACE_PA,
    degrees_f,
)
from fleet.targets.floor import CARBON_DIOXIDE, Floor
from fleet.targets.lowside import LowSide
from fleet.targets.running import SystemRunning

_HAIR_PA = 1e-6
"""Less than any rounding of a pressure that matters."""


@dataclass(frozen=True, slots=True)
class StrategyFlags:
    """Which strategy each system follows, as flags."""

    recycling: Bools
    one_time: Bools
    pressure_cycling: Bools
    thermostat: Bools
    carbon_dioxide: Bools

    @property
    def restarts_on_pressure(self) -> Bools:
        """Whether the compressor waits for the low side to come back at a call."""
        return self.recycling | self.one_time | self.thermostat


@dataclass(frozen=True, slots=True)
class PairWindows:
    """Windows and preferred values of one pair of settings; one row per system."""

    cut_in: WindowMaker
    cut_out: WindowMaker
    differential: WindowMaker
    cut_in_preferred_pa: Floats
    cut_out_preferred_pa: Floats
    differential_preferred_pa: Floats
    no_cut_in: Bools
    no_cut_out: Bools
    judged_at_pa: Floats
    """The cut-in at which the smallest differential is taken."""
    no_trip_k: Floats


def cases(systems: SystemColumns) -> StrategyFlags:
    """Return which strategy each system follows."""
    return StrategyFlags(
        recycling=systems.strategy == Strategy.RECYCLING.code,
        one_time=systems.strategy == Strategy.ONE_TIME.code,
        pressure_cycling=systems.strategy == Strategy.PRESSURE.code,
        thermostat=systems.strategy == Strategy.THERMOSTAT.code,
        carbon_dioxide=systems.refrigerant == CARBON_DIOXIDE,
    )


def smallest_differential_pa(cut_in_pa: Floats, sensed_air_pa: Floats, case: StrategyFlags) -> Floats:
    """Return the smallest differential in Pa that does not short-cycle at a cut-in, as read.

    ``min(10 psi, max(5 psi, 25 % of absolute cut-in))``; R-744: 25 % without floor and cap; one-time
    pump-down and thermostat cycling: 2 psi. Engineering judgement; valid above a full vacuum.
    """
    quarter = DIFFERENTIAL_SHARE * (cut_in_pa + sensed_air_pa)
    usual = np.minimum(DIFFERENTIAL_CAP_PA, np.maximum(DIFFERENTIAL_LEAST_PA, quarter))
    short = case.one_time | case.thermostat
    return np.where(short, DIFFERENTIAL_ONE_TIME_PA, np.where(case.carbon_dioxide, quarter, usual))


def smallest_cut_in_pa(lowest_cut_out_pa: Floats, sensed_air_pa: Floats, case: StrategyFlags) -> Floats:
    """Return the smallest cut-in x with ``x - smallest differential(x) >= lowest cut-out``."""
    by_quarter = (lowest_cut_out_pa + DIFFERENTIAL_SHARE * sensed_air_pa) / (1 - DIFFERENTIAL_SHARE)
    usual = np.maximum(
        lowest_cut_out_pa + DIFFERENTIAL_LEAST_PA,
        np.minimum(lowest_cut_out_pa + DIFFERENTIAL_CAP_PA, by_quarter),
    )
    short = case.one_time | case.thermostat
    return np.where(
        short,
        lowest_cut_out_pa + DIFFERENTIAL_ONE_TIME_PA,
        np.where(case.carbon_dioxide, by_quarter, usual),
    )


def pair_windows(
    systems: SystemColumns, running: SystemRunning, side: LowSide, floor: Floor, case: StrategyFlags
) -> PairWindows:
    """Return the windows of cut-in, cut-out and differential of every system."""
    no_trip = _no_trip_k(running, case)
    cut_in = _cut_in(systems, running, side, floor, case)
    cut_out = _cut_out(systems, running, side, floor, case, no_trip)
    highest = np.where(np.isinf(cut_in.high), 0.0, cut_in.high)
    pinched = highest - smallest_differential_pa(highest, side.sensed_air_pa, case) < floor.lowest_pa
    no_cut_in = case.restarts_on_pressure & pinched
    no_cut_in |= case.pressure_cycling & ((side.soak_k < running.call_k) | (cut_in.low > cut_in.high))
    no_cut_out = cut_out.low > cut_out.high
    preferred_in, preferred_out = _preferred(systems, running, side, case, cut_in, cut_out)
    recorded = systems.low_pressure_cut_in_pa_gauge
    judged_at = np.where(np.isnan(recorded), preferred_in, np.fmin(recorded, cut_in.high))
    judged_at = np.where(no_cut_in, recorded, judged_at)
    differential = WindowMaker(len(recorded))
    least = smallest_differential_pa(judged_at, side.sensed_air_pa, case)
    differential.at_least(least, Bind.SMALLEST_DIFFERENTIAL, np.ones(len(recorded), dtype=bool))
    return PairWindows(
        cut_in=cut_in,
        cut_out=cut_out,
        differential=differential,
        cut_in_preferred_pa=np.where(no_cut_in, np.nan, preferred_in),
        cut_out_preferred_pa=np.where(no_cut_out, np.nan, preferred_out),
        differential_preferred_pa=np.where(no_cut_in | no_cut_out, np.nan, preferred_in - preferred_out),
        no_cut_in=no_cut_in,
        no_cut_out=no_cut_out,
        judged_at_pa=judged_at,
        no_trip_k=no_trip,
    )


def _no_trip_k(running: SystemRunning, case: StrategyFlags) -> Floats:
    """Return how far below the coldest running suction a cut-out must stay."""
    return np.where(
        case.thermostat,
        straight_between(NO_TRIP_LOSS_OF_CHARGE, running.suction_k),
        straight_between(NO_TRIP_PUMP_DOWN, running.suction_k),
    )


def _cut_in(
    systems: SystemColumns, running: SystemRunning, side: LowSide, floor: Floor, case: StrategyFlags
) -> WindowMaker:
    maker = WindowMaker(len(systems.refrigerant))
    smallest = smallest_cut_in_pa(floor.lowest_pa, side.sensed_air_pa, case)
    maker.at_least(smallest, Bind.ROOM_FOR_DIFFERENTIAL, case.recycling | case.one_time)
    restart = case.restarts_on_pressure
    maker.at_most(side.highest_cut_in_pa, Bind.CALL_DELAY, restart & side.call_delay)
    waits = restart & ~side.call_delay
    by_box = side.soak_k >= running.call_k
    maker.at_most(side.highest_cut_in_pa, Bind.RESTART_BOX, waits & by_box)
    held = side.hold_trusted & (systems.receiver_hold_k >= side.soak_k)
    maker.at_most(side.highest_cut_in_pa, Bind.RESTART_HELD, waits & ~by_box & held)
    maker.at_most(side.highest_cut_in_pa, Bind.RESTART_COLD, waits & ~by_box & ~held)
    if case.pressure_cycling.any():
        _cut_in_pressure_cycling(systems, running, side, case.pressure_cycling, maker)
    return maker


def _cut_in_pressure_cycling(
    systems: SystemColumns, running: SystemRunning, side: LowSide, where: Bools, maker: WindowMaker
) -> None:
    """The low-pressure control is the thermostat: it starts where the idle coil is at the call."""
    refrigerant, call, air = systems.refrigerant, running.call_k, side.sensed_air_pa

    def dew(temperature_k: Floats | float) -> Floats:
        at = np.broadcast_to(np.asarray(temperature_k, dtype=np.float64), call.shape)
        return dew_pressure_pa_abs(refrigerant, at) - air

    clears = where & running.medium & ~running.heated_defrost
    glides = where & (glide_k(refrigerant, call) > GLIDE_MATTERS_K)
    maker.at_least(dew(call - BAND_PRESSURE_CYCLING_K), Bind.BOX_CALLS_LOW, where)
    maker.at_least(dew(COIL_CLEARS_K), Bind.COIL_CLEARS, clears)
    maker.at_most(dew(call + BAND_PRESSURE_CYCLING_K), Bind.BOX_CALLS_HIGH, where & ~glides)
    if glides.any():
        maker.at_most(bubble_pressure_pa_abs(refrigerant, call) - air, Bind.IDLE_BLEND, glides)
    maker.lift_high(dew(COIL_CLEARS_TOP_K) + PSI_OF_GRACE_PA, Bind.COIL_CLEARS_TOP, clears)


def _cut_out(
    systems: SystemColumns,
    running: SystemRunning,
    side: LowSide,
    floor: Floor,
    case: StrategyFlags,
    no_trip_k: Floats,
) -> WindowMaker:
    refrigerant, air = systems.refrigerant, side.sensed_air_pa
    maker = WindowMaker(len(refrigerant))
    maker.low, maker.low_code = floor.lowest_pa.copy(), floor.lowest_code.copy()
    trip = dew_pressure_pa_abs(refrigerant, running.suction_k - no_trip_k) - air
    maker.at_most(trip, Bind.NO_TRIP, case.recycling | case.one_time)
    maker.at_most(trip, Bind.NO_TRIP_LOSS_OF_CHARGE, case.thermostat)
    if case.pressure_cycling.any():
        coldest = dew_pressure_pa_abs(refrigerant, running.suction_low_k) - air
        warmest = dew_pressure_pa_abs(refrigerant, running.suction_high_k) - air
        maker.at_least(coldest - PSI_OF_GRACE_PA, Bind.RUNNING_LOW, case.pressure_cycling)
        maker.at_most(warmest + PSI_OF_GRACE_PA, Bind.RUNNING_HIGH, case.pressure_cycling)
    return maker


def _preferred(
    systems: SystemColumns,
    running: SystemRunning,
    side: LowSide,
    case: StrategyFlags,
    cut_in: WindowMaker,
    cut_out: WindowMaker,
) -> tuple[Floats, Floats]:
    """Return the customary cut-in and cut-out, moved inside their windows and kept apart.

    Where the highest cut-in leaves no room for the customary pair, the cut-out gives way, so that
    the three preferred values always fit each other; where no pair fits at all there is none.
    """
    air = side.sensed_air_pa
    out = np.where(running.medium, PREFERRED_CUT_OUT_MEDIUM_PA, PREFERRED_CUT_OUT_LOW_PA)
    out = out + side.local_air_pa - air
    if case.carbon_dioxide.any():
        pumped = dew_pressure_pa_abs(systems.refrigerant, running.suction_k - degrees_f(10)) - air
        out = np.where(case.carbon_dioxide, pumped, out)
    if case.pressure_cycling.any():
        usual = dew_pressure_pa_abs(systems.refrigerant, running.suction_k) - air
        out = np.where(case.pressure_cycling, usual, out)
    out = cut_out.moved_inside(out)
    quarter = DIFFERENTIAL_SHARE / (1 - DIFFERENTIAL_SHARE) * (out + air)
    apart = np.where(
        case.carbon_dioxide, np.maximum(quarter, PREFERRED_DIFFERENTIAL_PA), PREFERRED_DIFFERENTIAL_PA
    )
    call = dew_pressure_pa_abs(systems.refrigerant, running.call_k) - air
    least = np.maximum(call, smallest_cut_in_pa(cut_out.low, air, case))
    wanted = cut_in.moved_inside(np.where(case.pressure_cycling, least, out + apart))
    room = wanted - smallest_differential_pa(wanted, air, case)
    out = np.where(np.isfinite(room), np.maximum(cut_out.low, np.minimum(out, room)), out)
    fits = ~(out - room > _HAIR_PA)
    return np.where(fits, wanted, np.nan), np.where(fits, out, np.nan)
