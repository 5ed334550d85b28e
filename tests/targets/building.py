"""Columns of the product from the plain systems of the reference; °F, psi and ft become SI here."""

from collections.abc import Sequence
from dataclasses import fields, replace

import numpy as np

from fleet.dictionary.words import (
    BoxKind,
    CompressorKind,
    Defrost,
    LowPressureControl,
    Place,
    Placement,
    Regulator,
    Sensor,
    StartDelay,
    Stored,
    Strategy,
    TDBasis,
    TDSource,
    ThermostatScale,
    Word,
)
from fleet.properties import refrigerant_index
from fleet.targets.columns import (
    BoxColumns,
    CompressorColumns,
    FleetColumns,
    GroupColumns,
    SystemColumns,
    empty_columns,
)
from tests.targets.reference import PSI, System, kelvin

FOOT = 0.3048
_WORDS: dict[str, tuple[str, type[Word]]] = {
    "strategy": ("strategy", Strategy),
    "low_pressure_control": ("control", LowPressureControl),
    "low_pressure_sensor": ("sensor", Sensor),
    "start_delay": ("start_delay", StartDelay),
    "placement": ("placement", Placement),
    "receiver_place": ("receiver_place", Place),
}
_BOX_WORDS: dict[str, type[Word]] = {
    "kind": BoxKind,
    "stored": Stored,
    "td_basis": TDBasis,
    "td_source": TDSource,
    "thermostat_scale": ThermostatScale,
    "regulator": Regulator,
    "defrost_method": Defrost,
}


def _code(kind: type[Word], word: str | None) -> int:
    return -1 if word is None else kind(word).code


def _number(value: float | None, scale: float) -> float:
    return float("nan") if value is None else value * scale


def _temperature(value: float | None) -> float:
    return float("nan") if value is None else kelvin(value)


def fleet_of(systems: Sequence[System]) -> FleetColumns:
    """Return the columns of a fleet, boxes and compressors in the order of their systems."""
    boxes = [(i, box) for i, system in enumerate(systems) for box in system.boxes]
    compressors = [
        (i, n, c) for i, system in enumerate(systems) for n, c in enumerate(system.compressors, start=1)
    ]
    groups = sorted(
        {(i, box.suction_group) for i, box in boxes if box.suction_group}, key=lambda g: (g[0], str(g[1]))
    )
    made = FleetColumns(
        systems=empty_columns(SystemColumns, len(systems)),
        boxes=empty_columns(BoxColumns, len(boxes)),
        groups=empty_columns(GroupColumns, len(groups)),
        compressors=empty_columns(CompressorColumns, len(compressors)),
        box_tags=tuple(box.tag for _, box in boxes),
        group_tags=tuple(str(tag) for _, tag in groups),
    )
    for row, system in enumerate(systems):
        _fill_system(made.systems, row, system)
    for row, (owner, box) in enumerate(boxes):
        made.boxes.system[row], made.boxes.box_id[row] = owner, row + 1
        if box.suction_group:
            made.boxes.group[row] = groups.index((owner, box.suction_group))
        for attribute, kind in _BOX_WORDS.items():
            getattr(made.boxes, attribute)[row] = _code(kind, getattr(box, attribute))
        made.boxes.setpoint_k[row] = _temperature(box.setpoint)
        for name in ("differential", "td", "td_low", "td_high"):
            getattr(made.boxes, f"{name}_k")[row] = _number(getattr(box, name), 1 / 1.8)
    for row, (owner, position, compressor) in enumerate(compressors):
        made.compressors.system[row], made.compressors.position[row] = owner, position
        made.compressors.kind[row] = _code(CompressorKind, compressor.kind)
        made.compressors.lowest_suction_pa_abs[row] = _number(compressor.lowest_suction_psia, PSI)
        made.compressors.low_pressure_cut_out_pa_gauge[row] = _number(compressor.cut_out, PSI)
    for row, (owner, tag) in enumerate(groups):
        made.groups.system[row] = owner
        made.groups.group_suction_pa_gauge[row] = _number(systems[owner].group_suction.get(str(tag)), PSI)
    return made


def _fill_system(columns: SystemColumns, row: int, system: System) -> None:
    columns.system_id[row] = row + 1
    columns.refrigerant[row] = refrigerant_index(system.refrigerant)
    for attribute, (name, kind) in _WORDS.items():
        getattr(columns, attribute)[row] = _code(kind, getattr(system, name))
    for name in ("room_low", "design_cold", "extreme_cold", "receiver_hold"):
        getattr(columns, f"{name}_k")[row] = _temperature(getattr(system, name))
    columns.coil_above_receiver_m[row] = _number(system.coil_above_ft, FOOT)
    columns.line_loss_k[row] = _number(system.line_loss, 1 / 1.8)
    columns.elevation_m[row] = system.elevation_ft * FOOT
    columns.low_pressure_cut_in_pa_gauge[row] = _number(system.cut_in, PSI)
    columns.low_pressure_cut_out_pa_gauge[row] = _number(system.cut_out, PSI)
    columns.low_pressure_differential_pa[row] = _number(system.lp_differential, PSI)


def only(fleet: FleetColumns, system: int) -> FleetColumns:
    """Return the fleet of one of its systems, rows cut out as they are."""
    groups = np.flatnonzero(fleet.groups.system == system)
    new_group = np.full(len(fleet.groups.system) + 1, -1)
    new_group[groups] = np.arange(len(groups))
    boxes = np.flatnonzero(fleet.boxes.system == system)
    compressors = np.flatnonzero(fleet.compressors.system == system)

    def cut(columns: object, rows: np.ndarray) -> dict[str, np.ndarray]:
        return {f.name: getattr(columns, f.name)[rows] for f in fields(columns)}  # type: ignore[arg-type]

    own = np.zeros(len(boxes), dtype=np.int64)
    return FleetColumns(
        systems=SystemColumns(**cut(fleet.systems, np.array([system]))),
        boxes=replace(
            BoxColumns(**cut(fleet.boxes, boxes)), system=own, group=new_group[fleet.boxes.group[boxes]]
        ),
        groups=replace(GroupColumns(**cut(fleet.groups, groups)), system=np.zeros(len(groups), np.int64)),
        compressors=replace(
            CompressorColumns(**cut(fleet.compressors, compressors)),
            system=np.zeros(len(compressors), np.int64),
        ),
        box_tags=tuple(fleet.box_tags[row] for row in boxes),
        group_tags=tuple(fleet.group_tags[row] for row in groups),
    )
