"""Where the low side can still get to: the pressure that comes back when the box calls.

When a call opens the liquid line, the low side rises towards the saturation pressure of the coldest
of two: the box, and the place in which condenser and receiver have soaked. If that place is colder
than the temperature that the cut-in asks for, the compressor never starts.
"""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from fleet.atmosphere import air_pressure_pa
from fleet.dictionary.words import UNRECORDED, Heater, Place, Placement, Sensor, StartDelay, Strategy, YesNo
from fleet.properties import dew_pressure_pa_abs, liquid_density_kg_m3
from fleet.targets.columns import Bools, Floats, SystemColumns
from fleet.targets.defaults import GRAVITY_M_S2, MARGIN_LEAST_PA, MARGIN_SHARE
from fleet.targets.missing import Missing
from fleet.targets.running import SystemRunning
from fleet.units import STANDARD_AIR_PA


@dataclass(frozen=True, slots=True)
class LowSide:
    """One row per system. Pressures are as the control reads them, except where they say absolute."""

    sensed_air_pa: Floats
    """What the control's sensor subtracts: local air, sea-level air, nothing."""
    local_air_pa: Floats
    soak_k: Floats
    """Coldest temperature that condenser and receiver soak to at design cold; inf: nothing limits."""
    soak_extreme_k: Floats
    """The same on the coldest day of many years; at design cold where that is not recorded."""
    hold_trusted: Bools
    hold_contradicted: Bools
    """A held receiver is recorded, and so are fittings that cannot hold it."""
    call_delay: Bools
    liquid_column_pa: Floats
    reach_pa: Floats
    """P_call: the pressure that the low side reaches at a call on a day of design cold."""
    reach_extreme_pa: Floats
    margin_pa: Floats
    highest_cut_in_pa: Floats
    """`reach_pa` less the margin; with a delay that the call starts, the same at the box's stop."""
    stop_pressure_pa: Floats
    missing: npt.NDArray[np.int32]


def low_side(systems: SystemColumns, running: SystemRunning) -> LowSide:
    """Return where the low side of each system can still get to.

    Valid within the refrigerants' saturation tables; outside them the values are NaN.
    """
    local_air = air_pressure_pa(systems.elevation_m)
    sensed_air = np.where(
        systems.low_pressure_sensor == Sensor.ABSOLUTE.code,
        0.0,
        np.where(systems.low_pressure_sensor == Sensor.SEALED.code, STANDARD_AIR_PA, local_air),
    )
    contradicted = _hold_contradicted(systems)
    held = ~np.isnan(systems.receiver_hold_k) & ~contradicted
    soak, missing = _soak(systems, systems.design_cold_k, held)
    unset = np.isnan(systems.extreme_cold_k)
    soak_extreme, _ = _soak(systems, np.where(unset, systems.design_cold_k, systems.extreme_cold_k), held)
    call_delay = systems.start_delay == StartDelay.CALL.code
    # A delay helps a compressor that a thermostat calls; pressure cycling needs the pressure itself.
    missing[call_delay & (systems.strategy != Strategy.PRESSURE.code)] = 0
    column = _liquid_column_pa(systems, running.call_k, soak)
    reach = _reach_pa_abs(systems, running.call_k, soak) - column
    reach_extreme = _reach_pa_abs(systems, running.call_k, soak_extreme)
    reach_extreme -= _liquid_column_pa(systems, running.call_k, soak_extreme)
    stop = dew_pressure_pa_abs(systems.refrigerant, running.stop_k)
    restart = np.where(call_delay, stop, reach)
    # A share of the pressure above the local air, whatever the control's sensor subtracts.
    margin = np.maximum(MARGIN_LEAST_PA, MARGIN_SHARE * (restart - local_air))
    return LowSide(
        sensed_air_pa=sensed_air,
        local_air_pa=local_air,
        soak_k=soak,
        soak_extreme_k=soak_extreme,
        hold_trusted=held,
        hold_contradicted=contradicted,
        call_delay=call_delay,
        liquid_column_pa=column,
        reach_pa=reach - sensed_air,
        reach_extreme_pa=reach_extreme - sensed_air,
        margin_pa=margin,
        highest_cut_in_pa=restart - margin - sensed_air,
        stop_pressure_pa=stop - sensed_air,
        missing=missing,
    )


def _soak(systems: SystemColumns, cold_k: Floats, held: Bools) -> tuple[Floats, npt.NDArray[np.int32]]:
    """Return the coldest temperature of the places of condenser and receiver, and what it lacks."""
    missing = np.zeros(len(cold_k), dtype=np.int32)
    placement = systems.placement
    outdoor = placement == Placement.OUTDOOR.code
    heated = placement == Placement.INDOOR_HEATED.code
    unheated = placement == Placement.INDOOR_UNHEATED.code
    receiver_outdoors = systems.receiver_place == Place.OUTDOOR.code
    room = np.where(heated & np.isnan(systems.room_low_k), np.inf, systems.room_low_k)
    soak = np.where(outdoor, cold_k, np.where(placement == UNRECORDED, np.nan, room))
    soak = np.where(receiver_outdoors & ~outdoor, np.minimum(soak, cold_k), soak)
    soak = np.where(held, np.fmax(soak, systems.receiver_hold_k), soak)
    unknown = np.isnan(soak)
    missing[unknown & (placement == UNRECORDED)] |= Missing.PLACEMENT
    missing[unknown & (outdoor | receiver_outdoors) & np.isnan(cold_k)] |= Missing.DESIGN_COLD
    missing[unknown & unheated & np.isnan(systems.room_low_k)] |= Missing.ROOM_LOW
    return soak, missing


def _hold_contradicted(systems: SystemColumns) -> Bools:
    """Return where a held receiver is recorded although its recorded fittings cannot hold it.

    Not recorded fittings are assumed to be there, and the sentences say so.
    """
    heater, insulated = systems.receiver_heater, systems.receiver_insulated
    dead = (heater == Heater.FAILED.code) | (heater == Heater.OFF.code)
    bare = (heater == Heater.NONE.code) & (insulated == YesNo.NO.code)
    dead &= insulated != YesNo.YES.code
    unchecked = systems.check_valve == YesNo.NO.code
    contradicted: Bools = ~np.isnan(systems.receiver_hold_k) & (dead | bare | unchecked)
    return contradicted


def _reach_pa_abs(systems: SystemColumns, call_k: Floats, soak_k: Floats) -> Floats:
    return dew_pressure_pa_abs(systems.refrigerant, np.minimum(call_k, soak_k))


def _liquid_column_pa(systems: SystemColumns, call_k: Floats, soak_k: Floats) -> Floats:
    """Return what a coil above the receiver takes from the pressure: ``rho_liquid * g * H``."""
    height = np.where(systems.coil_above_receiver_m > 0, systems.coil_above_receiver_m, 0.0)
    if not height.any():
        return height
    at = np.where(np.isfinite(soak_k), soak_k, call_k)
    density = liquid_density_kg_m3(systems.refrigerant, at)
    return np.where(height > 0, density * GRAVITY_M_S2 * height, 0.0)
