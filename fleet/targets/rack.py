"""Windows of a rack: the suction of each group, and each compressor's own cut-out."""

from dataclasses import dataclass

import numpy as np

from fleet.dictionary.words import Strategy
from fleet.properties import dew_pressure_pa_abs
from fleet.targets.bounds import Bind, WindowMaker, straight_between
from fleet.targets.columns import Bools, FleetColumns, Floats
from fleet.targets.defaults import (
    GROUP_BAND_K,
    NO_TRIP_LOSS_OF_CHARGE,
    PREFERRED_CUT_OUT_LOW_PA,
    PREFERRED_CUT_OUT_MEDIUM_PA,
)
from fleet.targets.floor import Floor, compressor_floor
from fleet.targets.lowside import LowSide
from fleet.targets.reduce import Segments
from fleet.targets.running import SystemRunning


@dataclass(frozen=True, slots=True)
class GroupWindows:
    """One row per suction group."""

    suction_k: Floats
    """The suction temperature that the coldest box without a regulator needs."""
    window: WindowMaker
    preferred_pa: Floats
    warmest_free_coil_k: Floats
    coldest_coil_k: Floats


@dataclass(frozen=True, slots=True)
class RackCutOuts:
    """One row per compressor in service; only those of racks have a window of their own."""

    of_rack: Bools
    suction_k: Floats
    """The lowest suction temperature of the rack's groups."""
    no_trip_k: Floats
    window: WindowMaker
    preferred_pa: Floats
    floor: Floor


def group_windows(fleet: FleetColumns, running: SystemRunning, side: LowSide) -> GroupWindows:
    """Return the window of each group's suction: within 5 °F of what its boxes need.

    A group in which every box has a regulator is judged by its coldest box all the same.
    """
    groups, boxes = fleet.groups, running.boxes
    segments = Segments(fleet.boxes.group, len(groups.system))
    free = segments.smallest(np.where(boxes.regulated, np.inf, boxes.suction_k))
    coldest = segments.smallest(boxes.suction_k)
    suction = np.where(np.isinf(free), coldest, free) - running.line_loss_k[groups.system]
    refrigerant = fleet.systems.refrigerant[groups.system]
    air = side.sensed_air_pa[groups.system]
    everywhere = np.ones(len(suction), dtype=bool)
    maker = WindowMaker(len(suction))
    maker.at_least(dew_pressure_pa_abs(refrigerant, suction - GROUP_BAND_K) - air, Bind.GROUP_LOW, everywhere)
    maker.at_most(dew_pressure_pa_abs(refrigerant, suction + GROUP_BAND_K) - air, Bind.GROUP_HIGH, everywhere)
    return GroupWindows(
        suction_k=suction,
        window=maker,
        preferred_pa=maker.moved_inside(dew_pressure_pa_abs(refrigerant, suction) - air),
        warmest_free_coil_k=segments.largest(np.where(boxes.regulated, -np.inf, boxes.suction_k)),
        coldest_coil_k=coldest,
    )


def rack_cut_outs(
    fleet: FleetColumns, running: SystemRunning, side: LowSide, groups: GroupWindows
) -> RackCutOuts:
    """Return the window of each rack compressor's cut-out: from its floor to below normal running."""
    compressors, systems = fleet.compressors, fleet.systems
    of_rack = systems.strategy[compressors.system] == Strategy.RACK.code
    lowest = Segments(fleet.groups.system, len(fleet)).smallest(groups.suction_k)
    lowest = np.where(np.isnan(lowest), running.suction_k, lowest)[compressors.system]
    medium = running.medium[compressors.system]
    floor = compressor_floor(fleet, medium, side)
    no_trip = straight_between(NO_TRIP_LOSS_OF_CHARGE, lowest)
    air = side.sensed_air_pa[compressors.system]
    maker = WindowMaker(len(of_rack))
    maker.low, maker.low_code = floor.lowest_pa.copy(), floor.lowest_code.copy()
    highest = np.full(len(of_rack), np.nan)
    if of_rack.any():
        refrigerant = systems.refrigerant[compressors.system[of_rack]]
        highest[of_rack] = dew_pressure_pa_abs(refrigerant, (lowest - no_trip)[of_rack]) - air[of_rack]
    maker.at_most(highest, Bind.NO_TRIP_LOSS_OF_CHARGE, of_rack)
    usual = np.where(medium, PREFERRED_CUT_OUT_MEDIUM_PA, PREFERRED_CUT_OUT_LOW_PA)
    return RackCutOuts(
        of_rack=of_rack,
        suction_k=lowest,
        no_trip_k=no_trip,
        window=maker,
        preferred_pa=maker.moved_inside(usual + side.local_air_pa[compressors.system] - air),
        floor=floor,
    )
