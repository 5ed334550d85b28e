"""What a window takes for granted because nothing is recorded, each with whose authority stands behind it."""

import numpy as np

from fleet.dictionary.words import UNRECORDED, LowPressureControl, Placement, TDBasis
from fleet.sources import source
from fleet.targets.columns import FleetColumns
from fleet.targets.defaults import DIFFERENTIAL_ASSUMED_K, LINE_LOSS_K
from fleet.targets.lowpressure import LowPressure
from fleet.units import Dimension, UnitSystem, show


def assumed(fleet: FleetColumns, found: LowPressure, system: int, units: UnitSystem) -> tuple[str, ...]:
    """Return what was taken for granted of one system, in sentences with their tags."""
    rows = (*_of_boxes(fleet, system, units), *_of_system(fleet, found, system, units))
    return tuple(f"{sentence} ({source(code).tag})" for true, sentence, code in rows if true)


def _of_boxes(fleet: FleetColumns, system: int, units: UnitSystem) -> tuple[tuple[bool, str, str], ...]:
    boxes = fleet.boxes
    own = boxes.system == system
    return (
        (bool(np.isnan(boxes.td_k[own]).any()), "TD is the middle of the class's band.", "td_by_class"),
        (
            bool((boxes.td_basis[own] == TDBasis.MEAN.code).any()),
            "The dew point is taken as the mean coil temperature plus 0.35 of the glide.",
            "glide_share",
        ),
        (
            bool(np.isnan(boxes.differential_k[own]).any()),
            f"The thermostat's differential is taken as {_degrees(DIFFERENTIAL_ASSUMED_K, units)}.",
            "differential_assumed",
        ),
    )


def _of_system(
    fleet: FleetColumns, found: LowPressure, system: int, units: UnitSystem
) -> tuple[tuple[bool, str, str], ...]:
    systems, side = fleet.systems, found.side
    control = systems.low_pressure_control[system]
    placement, receiver = systems.placement[system], systems.receiver_place[system]
    return (
        (
            bool(np.isnan(systems.line_loss_k[system])),
            f"Line loss is taken as {_degrees(LINE_LOSS_K, units)}.",
            "line_loss_default",
        ),
        (
            bool(found.floor.compressor_unknown[system]),
            "The compressor's kind is not recorded: only a vacuum is ruled out.",
            "no_vacuum",
        ),
        (
            bool(placement == Placement.INDOOR_HEATED.code and np.isnan(systems.room_low_k[system])),
            "The room is heated and its lowest temperature is not recorded: the room does not limit.",
            "lowest_of_low_side",
        ),
        (
            bool(placement not in {UNRECORDED, Placement.OUTDOOR.code} and receiver == UNRECORDED),
            "Condenser and receiver are taken to stand where the compressor stands.",
            "condenser_beside",
        ),
        (
            bool(side.hold_trusted[system] and systems.receiver_heater[system] == UNRECORDED),
            "What keeps the receiver warm is not recorded; it is assumed to be fitted.",
            "lowest_of_low_side",
        ),
        (
            bool(side.hold_contradicted[system]),
            "The recorded receiver hold is not trusted: its fittings are recorded as missing or failed.",
            "lowest_of_low_side",
        ),
        (
            control not in {LowPressureControl.FITTED.code, LowPressureControl.LOCK_OUT.code},
            "A low-pressure control is assumed to be fitted.",
            "control_fitted",
        ),
    )


def _degrees(difference_k: float, units: UnitSystem) -> str:
    return show(difference_k, Dimension.TEMPERATURE_DIFFERENCE, units).replace(".0 ", " ")
