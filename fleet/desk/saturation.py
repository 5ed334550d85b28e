"""Dew and bubble of one refrigerant at a temperature or a pressure, at an elevation."""

from fleet.atmosphere import air_pressure_pa, check_elevation
from fleet.desk.documents import Document, number, units_of
from fleet.errors import UsageError
from fleet.properties import state_at_pressure, state_at_temperature
from fleet.units import Dimension, Quantity, UnitSystem, parse


def saturation_document(refrigerant: str, at: str, elevation: str | None, system: UnitSystem) -> Document:
    """Return what `coldround saturation --json` prints.

    Raises:
        QuantityError: `at` is neither a temperature nor a pressure.
        UnknownNameError: there is no such refrigerant.
        OutOfRangeError: no saturation there, or no such elevation.
    """
    elevation_m = parse(elevation, Dimension.LENGTH).value_si if elevation else 0.0
    check_elevation(elevation_m)
    quantity = parse(at, Dimension.TEMPERATURE, Dimension.PRESSURE)
    air = air_pressure_pa(elevation_m)
    head: Document = {"units": units_of(system), "elevation": number(elevation_m, Dimension.LENGTH, system)}
    if quantity.dimension is Dimension.TEMPERATURE:
        return head | _at_temperature(refrigerant, quantity, air, system)
    return head | _at_pressure(refrigerant, quantity, air, system)


def _at_temperature(refrigerant: str, quantity: Quantity, air_pa: float, system: UnitSystem) -> Document:
    state = state_at_temperature(refrigerant, quantity.value_si)
    return {
        "refrigerant": state.refrigerant,
        "temperature": number(quantity.value_si, Dimension.TEMPERATURE, system),
        "dew_pressure": number(state.dew_pressure_pa_abs - air_pa, Dimension.PRESSURE, system),
        "bubble_pressure": number(state.bubble_pressure_pa_abs - air_pa, Dimension.PRESSURE, system),
        "glide": number(state.glide_k, Dimension.TEMPERATURE_DIFFERENCE, system),
        "estimated": state.estimated,
    }


def _at_pressure(refrigerant: str, quantity: Quantity, air_pa: float, system: UnitSystem) -> Document:
    absolute = quantity.dimension is Dimension.PRESSURE_ABSOLUTE
    pressure_pa_abs = quantity.value_si if absolute else quantity.value_si + air_pa
    if pressure_pa_abs <= 0:
        raise UsageError(f"{quantity.text!r} is below a full vacuum at this elevation.", where="--at")
    state = state_at_pressure(refrigerant, pressure_pa_abs)
    return {
        "refrigerant": state.refrigerant,
        "pressure": number(pressure_pa_abs - air_pa, Dimension.PRESSURE, system),
        "dew_temperature": number(state.dew_temperature_k, Dimension.TEMPERATURE, system),
        "bubble_temperature": number(state.bubble_temperature_k, Dimension.TEMPERATURE, system),
        "glide": number(state.glide_k, Dimension.TEMPERATURE_DIFFERENCE, system),
        "estimated": state.estimated,
    }
