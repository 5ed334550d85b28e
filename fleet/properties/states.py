"""Saturation of one refrigerant at one temperature or pressure: an answer, or an error that says why."""

from dataclasses import dataclass

import numpy as np

from fleet.errors import OutOfRangeError
from fleet.properties import saturation
from fleet.properties.catalogue import REFRIGERANTS, Refrigerant, refrigerant_index
from fleet.properties.tables import CRITICAL_POINT, TRIPLE_POINT, Tables, tables
from fleet.units import Dimension, UnitSystem, show


@dataclass(frozen=True, slots=True)
class SaturationState:
    """What a refrigerant does at one temperature."""

    refrigerant: str
    temperature_k: float
    dew_pressure_pa_abs: float
    bubble_pressure_pa_abs: float
    glide_k: float | None
    """Dew minus bubble temperature at the dew pressure; None where that bubble point is off the table."""
    liquid_density_kg_m3: float | None
    """None in the last kelvins below the critical point."""
    estimated: bool


@dataclass(frozen=True, slots=True)
class SaturationTemperatures:
    """Where a refrigerant begins to condense and to boil at one pressure."""

    refrigerant: str
    pressure_pa_abs: float
    dew_temperature_k: float
    bubble_temperature_k: float
    glide_k: float
    estimated: bool


@dataclass(frozen=True, slots=True)
class SaturationRange:
    """Where both curves of a refrigerant have an answer, and why they end there."""

    low_k: float
    high_k: float
    low_pa_abs: float
    high_pa_abs: float
    low_end: str
    high_end: str


def saturation_range(name: str) -> SaturationRange:
    """Return the range in which both dew and bubble are known.

    Raises:
        UnknownNameError: no such refrigerant.

    >>> saturation_range("R-744").high_end
    'critical point'
    """
    return _range(tables(), refrigerant_index(name))


def _range(known: Tables, index: int) -> SaturationRange:
    dew, bubble = known.dew, known.bubble
    high_curve = min((dew, bubble), key=lambda curve: curve.segments.high_k[index])
    return SaturationRange(
        low_k=float(max(dew.segments.low_k[index], bubble.segments.low_k[index])),
        high_k=float(high_curve.segments.high_k[index]),
        low_pa_abs=float(max(dew.low_pa_abs[index], bubble.low_pa_abs[index])),
        high_pa_abs=float(min(dew.high_pa_abs[index], bubble.high_pa_abs[index])),
        low_end=dew.segments.low_end[index],
        high_end=high_curve.segments.high_end[index],
    )


def state_at_temperature(name: str, temperature_k: float) -> SaturationState:
    """Return dew and bubble pressure of a refrigerant at one temperature.

    Parameters: ``name`` an ASHRAE 34 designation; ``temperature_k`` in K, from 200 K (R-744: its
    triple point) to the critical point of a pure fluid or the end of a blend's table.

    Raises:
        UnknownNameError: no such refrigerant.
        OutOfRangeError: no saturation, or none known, at that temperature.

    Source: see `fleet.properties.saturation`. The International Institute of Refrigeration prints
    190.11 kPa for R-717 at -20 °C; the answer is 0.04 % lower:

    >>> round(state_at_temperature("R-717", 253.15).dew_pressure_pa_abs / 1e3, 2)
    190.03
    """
    index = refrigerant_index(name)
    known = _range(tables(), index)
    if not known.low_k <= temperature_k <= known.high_k:
        message = _temperature_refused(REFRIGERANTS[index], temperature_k, known)
        raise OutOfRangeError(message, where="temperature")
    position, value = np.array([index]), np.array([float(temperature_k)])
    return SaturationState(
        refrigerant=REFRIGERANTS[index].name,
        temperature_k=float(temperature_k),
        dew_pressure_pa_abs=float(saturation.dew_pressure_pa_abs(position, value)[0]),
        bubble_pressure_pa_abs=float(saturation.bubble_pressure_pa_abs(position, value)[0]),
        glide_k=_number(saturation.glide_k(position, value)[0]),
        liquid_density_kg_m3=_number(saturation.liquid_density_kg_m3(position, value)[0]),
        estimated=REFRIGERANTS[index].estimated,
    )


def state_at_pressure(name: str, pressure_pa_abs: float) -> SaturationTemperatures:
    """Return dew and bubble temperature of a refrigerant at one absolute pressure.

    Raises:
        UnknownNameError: no such refrigerant.
        OutOfRangeError: no saturation, or none known, at that pressure.

    Source: see `fleet.properties.saturation`. The equation of R-404A (E. W. Lemmon, 2003) is published
    with a normal bubble point of 226.93 K:

    >>> round(state_at_pressure("R-404A", 101325.0).bubble_temperature_k, 2)
    226.93
    """
    index = refrigerant_index(name)
    known = _range(tables(), index)
    if not known.low_pa_abs <= pressure_pa_abs <= known.high_pa_abs:
        message = _pressure_refused(REFRIGERANTS[index], pressure_pa_abs, known)
        raise OutOfRangeError(message, where="pressure")
    position, value = np.array([index]), np.array([float(pressure_pa_abs)])
    dew_k = float(saturation.dew_temperature_k(position, value)[0])
    bubble_k = float(saturation.bubble_temperature_k(position, value)[0])
    return SaturationTemperatures(
        refrigerant=REFRIGERANTS[index].name,
        pressure_pa_abs=float(pressure_pa_abs),
        dew_temperature_k=dew_k,
        bubble_temperature_k=bubble_k,
        glide_k=dew_k - bubble_k,
        estimated=REFRIGERANTS[index].estimated,
    )


def _number(value: float) -> float | None:
    return None if np.isnan(value) else float(value)


def _temperature_refused(refrigerant: Refrigerant, temperature_k: float, known: SaturationRange) -> str:
    too_high, too_low = temperature_k > known.high_k, temperature_k < known.low_k
    end = _temperature(known.high_k if too_high else known.low_k)
    reason = _reason(refrigerant, known, end, too_high=too_high, too_low=too_low)
    low, high = _temperature(known.low_k), _temperature(known.high_k)
    return f"{refrigerant.name} at {_temperature(temperature_k)}: {reason}. Valid: {low} to {high}."


def _pressure_refused(refrigerant: Refrigerant, pressure_pa_abs: float, known: SaturationRange) -> str:
    too_high, too_low = pressure_pa_abs > known.high_pa_abs, pressure_pa_abs < known.low_pa_abs
    end = _pressure(known.high_pa_abs if too_high else known.low_pa_abs)
    if known.high_end == CRITICAL_POINT and too_high:
        end += f" at {_temperature(known.high_k)}"
    reason = _reason(refrigerant, known, end, too_high=too_high, too_low=too_low)
    low, high = _pressure(known.low_pa_abs), _pressure(known.high_pa_abs)
    return f"{refrigerant.name} at {_pressure(pressure_pa_abs)}: {reason}. Valid: {low} to {high}."


def _reason(
    refrigerant: Refrigerant, known: SaturationRange, end: str, *, too_high: bool, too_low: bool
) -> str:
    if too_high and known.high_end == CRITICAL_POINT:
        return f"no saturation above its critical point, {end}"
    if too_high:
        return f"the table ends at {end}, close below the critical point"
    if too_low and known.low_end == TRIPLE_POINT:
        return f"no liquid below its triple point, {end}; it is dry ice and gas"
    if too_low:
        return f"the table begins at {end}"
    return "that is not a number"


def _temperature(value_k: float) -> str:
    metric = show(value_k, Dimension.TEMPERATURE, UnitSystem.METRIC)
    return f"{metric} ({show(value_k, Dimension.TEMPERATURE, UnitSystem.US)})"


def _pressure(value_pa_abs: float) -> str:
    us = show(value_pa_abs, Dimension.PRESSURE_ABSOLUTE, UnitSystem.US)
    return f"{value_pa_abs / 1e3:,.1f} kPa absolute ({us})".replace("-", "−")
