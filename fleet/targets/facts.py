"""The numbers behind a window, by name: what sentences and derivations print.

Nothing is computed here: the columns that made the window are read again for the one row that is
shown.
"""

from dataclasses import dataclass

import numpy as np

from fleet.properties import dew_temperature_k
from fleet.targets.columns import FleetColumns, Floats
from fleet.targets.defaults import (
    BAND_PRESSURE_CYCLING_K,
    COIL_CLEARS_K,
    DRY_ICE_FLOOR_PA_ABS,
    GROUP_BAND_K,
    PSI_OF_GRACE_PA,
    SCROLL_LOWEST_SST_K,
    TRIPLE_POINT_CO2_PA_ABS,
)
from fleet.targets.judge import Judged
from fleet.targets.lowpressure import LowPressure
from fleet.units import Dimension, UnitSystem, figure, show


@dataclass(frozen=True, slots=True)
class Fact:
    """One number with what it is."""

    value_si: float
    dimension: Dimension
    label: str = ""

    def shown(self, system: UnitSystem) -> str:
        """Return the number as people read it; infinite reads as what does not limit."""
        if np.isnan(self.value_si):
            return "not known"
        if np.isinf(self.value_si):
            return "no limit"
        return show(self.value_si, self.dimension, system)


_T, _DT = Dimension.TEMPERATURE, Dimension.TEMPERATURE_DIFFERENCE
_P, _PA, _DP = Dimension.PRESSURE, Dimension.PRESSURE_ABSOLUTE, Dimension.PRESSURE_DIFFERENCE


def facts_of(fleet: FleetColumns, found: LowPressure, judged: Judged, row: int) -> dict[str, Fact]:
    """Return the facts of one window: its own bounds, and the intermediates of its system."""
    system = int(judged.owner[row])
    as_read = _PA if _reads_absolute(found, system) else _P
    unit = _DP if judged.setting == "low_pressure_differential" else as_read
    facts = {
        "recorded": Fact(float(judged.recorded[row]), unit, "recorded"),
        "low": Fact(float(judged.low[row]), unit, "lowest"),
        "high": Fact(float(judged.high[row]), unit, "highest"),
        "preferred": Fact(float(judged.preferred[row]), unit, "preferred"),
    }
    facts |= _temperatures(found, system)
    facts |= _pressures(fleet, found, system, as_read)
    if judged is found.group_suction:
        facts["suction"] = Fact(float(found.groups.suction_k[row]), _T, "suction of the group")
    if judged is found.rack_cut_out:
        facts["suction"] = Fact(float(found.racks.suction_k[row]), _T, "lowest suction of the rack")
        facts["no_trip"] = Fact(float(found.racks.no_trip_k[row]), _DT, "kept below running suction")
        facts["floor"] = Fact(float(found.racks.floor.lowest_pa[row]), as_read, "lowest cut-out")
        facts["maker_lowest"] = Fact(
            float(fleet.compressors.lowest_suction_pa_abs[row]), _PA, "maker's lowest"
        )
    if unit is as_read:
        facts["recorded_saturation"] = Fact(
            _dew_k(fleet, found, system, judged.recorded, row), _T, "its dew point"
        )
    return facts


def _reads_absolute(found: LowPressure, system: int) -> bool:
    return bool(found.side.sensed_air_pa[system] == 0.0)


def _dew_k(fleet: FleetColumns, found: LowPressure, system: int, values: Floats, row: int) -> float:
    pressure = values[row : row + 1] + found.side.sensed_air_pa[system]
    return float(dew_temperature_k(fleet.systems.refrigerant[system : system + 1], pressure)[0])


def _temperatures(found: LowPressure, system: int) -> dict[str, Fact]:
    running, side = found.running, found.side
    return {
        "stop": Fact(float(running.stop_k[system]), _T, "the box stops at"),
        "call": Fact(float(running.call_k[system]), _T, "the box calls at"),
        "suction": Fact(float(running.suction_k[system]), _T, "suction at the compressor"),
        "suction_low": Fact(float(running.suction_low_k[system]), _T, "suction at the largest TD"),
        "suction_high": Fact(float(running.suction_high_k[system]), _T, "suction at the smallest TD"),
        "line_loss": Fact(float(running.line_loss_k[system]), _DT, "line loss"),
        "soak": Fact(float(side.soak_k[system]), _T, "condenser and receiver soak to"),
        "soak_extreme": Fact(float(side.soak_extreme_k[system]), _T, "at the extreme they soak to"),
        "no_trip": Fact(float(found.pair.no_trip_k[system]), _DT, "kept below running suction"),
        "band": Fact(BAND_PRESSURE_CYCLING_K, _DT, "band around the call"),
        "group_band": Fact(GROUP_BAND_K, _DT, "band around the group's suction"),
        "clears": Fact(COIL_CLEARS_K, _T, "the coil clears at"),
        "scroll_sst": Fact(SCROLL_LOWEST_SST_K, _T, "lowest suction of a scroll"),
    }


def _pressures(fleet: FleetColumns, found: LowPressure, system: int, as_read: Dimension) -> dict[str, Fact]:
    side = found.side
    own = fleet.compressors.lowest_suction_pa_abs[fleet.compressors.system == system]
    lowest = float(np.nanmax(own)) if own.size and not np.isnan(own).all() else float("nan")
    return {
        "reach": Fact(float(side.reach_pa[system]), as_read, "the low side reaches"),
        "reach_extreme": Fact(float(side.reach_extreme_pa[system]), as_read, "at the extreme it reaches"),
        "stop_pressure": Fact(float(side.stop_pressure_pa[system]), as_read, "pressure where the box stops"),
        "margin": Fact(float(side.margin_pa[system]), _DP, "margin kept"),
        "grace": Fact(PSI_OF_GRACE_PA, _DP, "grace"),
        "triple_point": Fact(TRIPLE_POINT_CO2_PA_ABS, _PA, "triple point"),
        "spare": Fact(DRY_ICE_FLOOR_PA_ABS - TRIPLE_POINT_CO2_PA_ABS, _DP, "kept above it"),
        "liquid_column": Fact(float(side.liquid_column_pa[system]), _DP, "taken by the column of liquid"),
        "floor": Fact(float(found.floor.lowest_pa[system]), as_read, "lowest cut-out"),
        "judged_at": Fact(float(found.pair.judged_at_pa[system]), as_read, "cut-in"),
        "local_air": Fact(
            float(side.local_air_pa[system] - side.sensed_air_pa[system]), as_read, "surrounding air"
        ),
        "maker_lowest": Fact(lowest, _PA, "the maker's lowest suction"),
    }


def boxes_named(fleet: FleetColumns, found: LowPressure, system: int) -> dict[str, str]:
    """Return the boxes that set the bounds, as sentences call them; of a single box no name is needed."""
    rows = np.flatnonzero(fleet.boxes.system == system)
    if len(rows) < 2:
        return {"calling_box": "The box", "stopping_box": "the box", "cooling_box": ""}

    def lowest(values: Floats) -> str:
        return f"box {fleet.box_tags[int(rows[np.argmin(values[rows])])]}"

    boxes = found.running.boxes
    return {
        "calling_box": "B" + lowest(boxes.call_k)[1:],
        "stopping_box": lowest(boxes.stop_k),
        "cooling_box": f" for {lowest(boxes.suction_k)}",
    }


def shown(facts: dict[str, Fact], system: UnitSystem) -> dict[str, str]:
    """Return every fact as text, for the sentences of the table."""
    return {name: fact.shown(system) for name, fact in facts.items()}


def number(fact: Fact, system: UnitSystem) -> str:
    """Return a fact without its unit."""
    return figure(fact.value_si, fact.dimension, system)[0]
