"""How low a cut-out may stand: no vacuum, no dry ice, not below what the compressor bears."""

from dataclasses import dataclass

import numpy as np

from fleet.dictionary.words import UNRECORDED, CompressorKind
from fleet.properties import REFRIGERANTS, dew_pressure_pa_abs
from fleet.targets.bounds import Bind, WindowMaker
from fleet.targets.columns import Bools, FleetColumns, Floats, Indices, Words
from fleet.targets.defaults import DRY_ICE_FLOOR_PA_ABS, SCROLL_LOWEST_SST_K
from fleet.targets.lowside import LowSide
from fleet.targets.reduce import Segments
from fleet.targets.running import SystemRunning

CARBON_DIOXIDE = next(i for i, r in enumerate(REFRIGERANTS) if r.name == "R-744")
_DANGER_IN_VACUUM = np.array(
    [r.safety_group in {"A2L", "A2", "A3"} or r.name == "R-744" for r in REFRIGERANTS] + [False]
)


@dataclass(frozen=True, slots=True)
class Floor:
    """CO_min as the control reads it, with the constraint that sets it; a row per system or compressor."""

    lowest_pa: Floats
    lowest_code: Words
    hard_pa: Floats
    """The same without the default for scrolls, which is only a habit."""
    dangerous: Bools
    """Whether drawing air in, or freezing, makes a value below it urgent."""
    compressor_unknown: Bools


def system_floor(fleet: FleetColumns, running: SystemRunning, side: LowSide) -> Floor:
    """Return the lowest cut-out of each system: the highest of what its compressors ask for."""
    systems = fleet.systems
    rows = np.arange(len(fleet))
    segments = Segments(fleet.compressors.system, len(fleet))
    unset = np.isnan(fleet.compressors.lowest_suction_pa_abs)
    scroll = (fleet.compressors.kind == CompressorKind.SCROLL.code) & unset
    recorded = segments.largest(
        np.where(unset, -np.inf, fleet.compressors.lowest_suction_pa_abs), empty=-np.inf
    )
    unknown = segments.all((fleet.compressors.kind == UNRECORDED) & unset) | ~segments.filled
    return _floor(systems.refrigerant, rows, side, recorded, segments.any(scroll) & running.medium, unknown)


def compressor_floor(fleet: FleetColumns, medium: Bools, side: LowSide) -> Floor:
    """Return the lowest cut-out of each compressor for itself, as racks have them."""
    compressors = fleet.compressors
    unset = np.isnan(compressors.lowest_suction_pa_abs)
    scroll = (compressors.kind == CompressorKind.SCROLL.code) & unset & medium
    recorded = np.where(unset, -np.inf, compressors.lowest_suction_pa_abs)
    unknown = (compressors.kind == UNRECORDED) & unset
    return _floor(
        fleet.systems.refrigerant[compressors.system], compressors.system, side, recorded, scroll, unknown
    )


def _floor(
    refrigerant: "np.typing.NDArray[np.int16]",
    system: Indices,
    side: LowSide,
    recorded_pa_abs: Floats,
    scroll: Bools,
    compressor_unknown: Bools,
) -> Floor:
    sensed, local = side.sensed_air_pa[system], side.local_air_pa[system]
    everywhere = np.ones(len(system), dtype=bool)
    maker = WindowMaker(len(system))
    maker.at_least(local - sensed, Bind.NO_VACUUM, everywhere)
    maker.at_least(recorded_pa_abs - sensed, Bind.MAKER_LOWEST, np.isfinite(recorded_pa_abs))
    maker.at_least(DRY_ICE_FLOOR_PA_ABS - sensed, Bind.DRY_ICE, refrigerant == CARBON_DIOXIDE)
    hard = maker.low.copy()
    if scroll.any():
        default = np.full(len(system), np.nan)
        default[scroll] = dew_pressure_pa_abs(
            refrigerant[scroll], np.full(int(scroll.sum()), SCROLL_LOWEST_SST_K)
        )
        maker.at_least(default - sensed, Bind.SCROLL_LOWEST, scroll)
    return Floor(
        lowest_pa=maker.low,
        lowest_code=maker.low_code,
        hard_pa=hard,
        dangerous=_DANGER_IN_VACUUM[refrigerant],
        compressor_unknown=compressor_unknown,
    )
