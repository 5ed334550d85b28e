"""Temperatures of running boxes: where each stops and calls, and how cold its suction gets.

``SST_evap = T_air_on - TD`` and ``SST_comp = SST_evap - line loss``; the air on the coil is taken at
the setpoint, the coldest running moment. Several boxes on one condensing unit are reduced to the
lowest, since one suction serves them all.
"""

from dataclasses import dataclass

import numpy as np

from fleet.dictionary.words import (
    UNRECORDED,
    BoxKind,
    Defrost,
    Regulator,
    Stored,
    TDBasis,
    TDSource,
    ThermostatScale,
)
from fleet.properties import glide_k
from fleet.targets.columns import Bools, BoxColumns, FleetColumns, Floats
from fleet.targets.defaults import (
    DIFFERENTIAL_ASSUMED_K,
    GLIDE_SHARE,
    LINE_LOSS_K,
    TD_BY_KIND_F,
    TD_BY_STORED_F,
    degrees_f,
)
from fleet.targets.reduce import Segments

_KIND_LOW = np.array([degrees_f(TD_BY_KIND_F[kind][0]) for kind in BoxKind] + [np.nan])
_KIND_HIGH = np.array([degrees_f(TD_BY_KIND_F[kind][1]) for kind in BoxKind] + [np.nan])
_STORED_LOW = np.array([degrees_f(TD_BY_STORED_F.get(s, (np.nan, 0))[0]) for s in Stored] + [np.nan])
_STORED_HIGH = np.array([degrees_f(TD_BY_STORED_F.get(s, (0, np.nan))[1]) for s in Stored] + [np.nan])
_MEDIUM = np.array([kind.medium_temperature for kind in BoxKind] + [False])
_HEATED = np.array([method in {Defrost.ELECTRIC, Defrost.HOT_GAS} for method in Defrost] + [False])


@dataclass(frozen=True, slots=True)
class BoxRunning:
    """One row per box."""

    stop_k: Floats
    """Air temperature at which cooling stops."""
    call_k: Floats
    """Air temperature at which the box calls for cooling."""
    td_k: Floats
    suction_k: Floats
    """Dew-point suction temperature at the evaporator."""
    suction_low_k: Floats
    """The same at the largest TD of the band."""
    suction_high_k: Floats
    """The same at the smallest TD of the band."""
    medium: Bools
    heated_defrost: Bools
    regulated: Bools


@dataclass(frozen=True, slots=True)
class SystemRunning:
    """One row per system: what its boxes ask of the one suction."""

    boxes: BoxRunning
    segments: Segments
    line_loss_k: Floats
    stop_k: Floats
    call_k: Floats
    suction_k: Floats
    """Dew-point suction temperature at the compressor."""
    suction_low_k: Floats
    suction_high_k: Floats
    coldest_coil_k: Floats
    warmest_free_coil_k: Floats
    """Warmest evaporator without a regulator of its own, -inf where every one has one."""
    medium: Bools
    """Whether every box is of the medium-temperature kind."""
    heated_defrost: Bools
    """Whether every box is defrosted with heat."""


def boxes_running(fleet: FleetColumns) -> BoxRunning:
    """Return the running temperatures of every box."""
    boxes = fleet.boxes
    differential = np.where(np.isnan(boxes.differential_k), DIFFERENTIAL_ASSUMED_K, boxes.differential_k)
    stop = boxes.setpoint_k - _scale_share(boxes) * differential
    band_low, band_high = _td_band(boxes)
    td = np.where(np.isnan(boxes.td_k), 0.5 * (band_low + band_high), boxes.td_k)
    measured = (boxes.td_source == TDSource.MEASURED.code) & ~np.isnan(boxes.td_k)
    measured &= np.isnan(boxes.td_low_k) & np.isnan(boxes.td_high_k)
    refrigerant = fleet.systems.refrigerant[boxes.system]
    mean_basis = boxes.td_basis == TDBasis.MEAN.code

    def suction(td_k: Floats) -> Floats:
        dew = stop - td_k
        if not mean_basis.any():
            return dew
        return np.where(mean_basis, dew + GLIDE_SHARE * glide_k(refrigerant, dew), dew)

    return BoxRunning(
        stop_k=stop,
        call_k=stop + differential,
        td_k=td,
        suction_k=suction(td),
        suction_low_k=suction(np.where(measured, td, band_high)),
        suction_high_k=suction(np.where(measured, td, band_low)),
        medium=_MEDIUM[boxes.kind],
        heated_defrost=_HEATED[boxes.defrost_method],
        regulated=(boxes.regulator != UNRECORDED) & (boxes.regulator != Regulator.NONE.code),
    )


def systems_running(fleet: FleetColumns) -> SystemRunning:
    """Return what the boxes of each system ask of its suction."""
    boxes = boxes_running(fleet)
    segments = Segments(fleet.boxes.system, len(fleet))
    loss = fleet.systems.line_loss_k
    loss = np.where(np.isnan(loss), LINE_LOSS_K, loss)
    coldest = segments.smallest(boxes.suction_k)
    return SystemRunning(
        boxes=boxes,
        segments=segments,
        line_loss_k=loss,
        stop_k=segments.smallest(boxes.stop_k),
        call_k=segments.smallest(boxes.call_k),
        suction_k=coldest - loss,
        suction_low_k=segments.smallest(boxes.suction_low_k) - loss,
        suction_high_k=segments.smallest(boxes.suction_high_k) - loss,
        coldest_coil_k=coldest,
        warmest_free_coil_k=segments.largest(np.where(boxes.regulated, -np.inf, boxes.suction_k)),
        medium=segments.all(boxes.medium),
        heated_defrost=segments.all(boxes.heated_defrost),
    )


def _scale_share(boxes: BoxColumns) -> Floats:
    """Return how many differentials the stop lies below what the thermostat's scale shows."""
    share = np.zeros(len(boxes.setpoint_k))
    share[boxes.thermostat_scale == ThermostatScale.STARTS_AT.code] = 1.0
    share[boxes.thermostat_scale == ThermostatScale.CENTRED.code] = 0.5
    return share


def _td_band(boxes: BoxColumns) -> tuple[Floats, Floats]:
    """Return the band of TD: as recorded, else of what is kept in a walk-in cooler, else of the kind."""
    low, high = _KIND_LOW[boxes.kind], _KIND_HIGH[boxes.kind]
    narrowed = (boxes.kind == BoxKind.WALK_IN_COOLER.code) & ~np.isnan(_STORED_LOW[boxes.stored])
    low = np.where(narrowed, _STORED_LOW[boxes.stored], low)
    high = np.where(narrowed, _STORED_HIGH[boxes.stored], high)
    return (
        np.where(np.isnan(boxes.td_low_k), low, boxes.td_low_k),
        np.where(np.isnan(boxes.td_high_k), high, boxes.td_high_k),
    )
