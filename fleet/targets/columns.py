"""The columns that windows are computed from: one array per attribute, the unit in its name.

A single system is a fleet of length one; nothing here or above it knows the difference, so a form
and an audit of 100,000 boxes run the same text and come out bit-identical.

Words are positions in their lists (`fleet.dictionary.words`), -1 where nothing is recorded; numbers
are float64, NaN where nothing is recorded; NaN compares false, so an empty cell fires no rule.
"""

from dataclasses import dataclass, fields
from typing import TypeVar

import numpy as np
import numpy.typing as npt

from fleet.dictionary.words import UNRECORDED

Floats = npt.NDArray[np.float64]
Words = npt.NDArray[np.int8]
Indices = npt.NDArray[np.int64]
Bools = npt.NDArray[np.bool_]


@dataclass(frozen=True, slots=True)
class SystemColumns:
    """One row per system, in rising order of ``system_id``."""

    system_id: Indices
    refrigerant: npt.NDArray[np.int16]
    """Position in `fleet.properties.REFRIGERANTS`."""
    strategy: Words
    form: Words
    status: Words
    critically_charged: Words
    low_pressure_control: Words
    low_pressure_sensor: Words
    start_delay: Words
    placement: Words
    receiver_place: Words
    receiver_heater: Words
    receiver_insulated: Words
    check_valve: Words
    room_low_k: Floats
    design_cold_k: Floats
    extreme_cold_k: Floats
    receiver_hold_k: Floats
    coil_above_receiver_m: Floats
    line_loss_k: Floats
    elevation_m: Floats
    installed_day: Floats
    """Days since 1970-01-01."""
    low_pressure_cut_in_pa_gauge: Floats
    low_pressure_cut_out_pa_gauge: Floats
    low_pressure_differential_pa: Floats


@dataclass(frozen=True, slots=True)
class BoxColumns:
    """One row per box, in the order of the systems."""

    system: Indices
    """Row of the box's system in `SystemColumns`."""
    box_id: Indices
    group: Indices
    """Row of the box's suction group in `GroupColumns`, -1 outside racks."""
    kind: Words
    stored: Words
    td_basis: Words
    td_source: Words
    thermostat_scale: Words
    regulator: Words
    defrost_method: Words
    fans: Words
    td_k: Floats
    td_low_k: Floats
    td_high_k: Floats
    installed_day: Floats
    setpoint_k: Floats
    differential_k: Floats


@dataclass(frozen=True, slots=True)
class GroupColumns:
    """One row per suction group of a rack."""

    system: Indices
    group_suction_pa_gauge: Floats


@dataclass(frozen=True, slots=True)
class CompressorColumns:
    """One row per compressor in service."""

    system: Indices
    position: Indices
    kind: Words
    crankcase_heater: Words
    lowest_suction_pa_abs: Floats
    low_pressure_cut_out_pa_gauge: Floats
    """Its own cut-out, as racks have one per compressor."""


@dataclass(frozen=True, slots=True)
class FleetColumns:
    """Whole systems: nothing of a system is outside, nothing of another is inside."""

    systems: SystemColumns
    boxes: BoxColumns
    groups: GroupColumns
    compressors: CompressorColumns
    box_tags: tuple[str, ...]
    group_tags: tuple[str, ...]
    """Names of the suction groups, as in ``group A``, without the word."""

    def __len__(self) -> int:
        return len(self.systems.system_id)


Columns = TypeVar("Columns", SystemColumns, BoxColumns, GroupColumns, CompressorColumns)


def empty_columns(kind: type[Columns], rows: int) -> Columns:
    """Return columns of ``rows`` rows in which nothing is recorded; each array may be written."""
    made: dict[str, npt.NDArray[np.generic]] = {}
    for field in fields(kind):
        if field.name.rsplit("_", 1)[-1] in {"k", "m", "day", "abs", "gauge", "pa"}:
            made[field.name] = np.full(rows, np.nan)
        elif field.name in {"system_id", "box_id", "system", "position"}:
            made[field.name] = np.zeros(rows, dtype=np.int64)
        elif field.name == "group":
            made[field.name] = np.full(rows, UNRECORDED, dtype=np.int64)
        elif field.name == "refrigerant":
            made[field.name] = np.full(rows, UNRECORDED, dtype=np.int16)
        else:
            made[field.name] = np.full(rows, UNRECORDED, dtype=np.int8)
    return kind(**made)  # type: ignore[arg-type]
