"""One system from cells: what a command or a form holds, as a fleet of length one."""

from collections.abc import Mapping

from fleet.atmosphere import as_read_pa
from fleet.dictionary.kinds import Value
from fleet.dictionary.settings import SETTING_BY_CODE
from fleet.dictionary.words import WORD_COLUMNS, BoxKind, CompressorKind, Strategy
from fleet.properties import refrigerant_index
from fleet.targets.columns import (
    BoxColumns,
    CompressorColumns,
    FleetColumns,
    GroupColumns,
    SystemColumns,
    empty_columns,
)
from fleet.units import Dimension, Quantity

COMPRESSOR_KIND = "compressor"
"""The cell of the compressor's kind; `kind` is the box's."""
_OF_COMPRESSOR = (COMPRESSOR_KIND, "lowest_suction", "low_pressure_cut_out")


def one_system(cells: Mapping[str, Value]) -> FleetColumns:
    """Return a fleet of one system with one box from parsed cells, keyed by the dictionary's names.

    The compressor's kind is the cell ``compressor``; a rack gets one suction group ``A``, and one
    compressor if a cell speaks of it; a typed absolute pressure becomes what the control's sensor shows.

    >>> from fleet.units import parse
    >>> fleet = one_system({"setpoint": parse("36F", Dimension.TEMPERATURE), "kind": "walk-in-cooler"})
    >>> round(float(fleet.boxes.setpoint_k[0]), 2)
    275.37
    """
    systems, boxes = empty_columns(SystemColumns, 1), empty_columns(BoxColumns, 1)
    rack = cells.get("strategy") == Strategy.RACK
    groups = empty_columns(GroupColumns, int(rack))
    spoken_of = not rack or any(name in cells for name in _OF_COMPRESSOR)
    compressors = empty_columns(CompressorColumns, int(spoken_of))
    for columns in (systems, boxes, groups, compressors):
        _fill(columns, cells)
    if "refrigerant" in cells:
        systems.refrigerant[0] = refrigerant_index(str(cells["refrigerant"]))
    if "kind" in cells:
        boxes.kind[0] = BoxKind(str(cells["kind"])).code
    if COMPRESSOR_KIND in cells:
        compressors.kind[0] = CompressorKind(str(cells[COMPRESSOR_KIND])).code
    boxes.group[0] = 0 if rack else -1
    compressors.position[:] = 1
    return FleetColumns(systems, boxes, groups, compressors, ("",), ("A",) if rack else ())


def _fill(columns: object, cells: Mapping[str, Value]) -> None:
    for attribute in columns.__slots__:  # type: ignore[attr-defined]
        array = getattr(columns, attribute)
        if not len(array):
            continue
        for name, value in cells.items():
            if attribute == name and name in WORD_COLUMNS:
                array[0] = WORD_COLUMNS[name](_word(value)).code
            elif isinstance(value, Quantity) and attribute == _attribute(name, value):
                array[0] = _si(name, value, cells)


def _word(value: Value) -> str:
    if isinstance(value, bool):
        return "yes" if value else "no"
    return str(value)


def _attribute(name: str, value: Quantity) -> str:
    if name in SETTING_BY_CODE:
        return SETTING_BY_CODE[name].field_for(value.dimension)
    return f"{name}_{value.dimension.suffix}"


def _si(name: str, value: Quantity, cells: Mapping[str, Value]) -> float:
    setting = SETTING_BY_CODE.get(name)
    if setting is None or Dimension.PRESSURE not in setting.dimensions:
        return value.value_si
    elevation = cells.get("elevation")
    sensor = cells.get("low_pressure_sensor")
    elevation_m = elevation.value_si if isinstance(elevation, Quantity) else 0.0
    return as_read_pa(value, None if sensor is None else str(sensor), elevation_m)
