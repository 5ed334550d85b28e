"""Typed pressures as the control's own scale shows them.

The register keeps a pressure as the control shows it: an absolute pressure typed for a vented
control less the local air, a gauge pressure typed for an absolute control plus it.
"""

from typing import cast

from fleet.atmosphere import as_read_pa
from fleet.errors import QuantityError
from fleet.exchange.directory import Directory
from fleet.exchange.storage import Key
from fleet.units import Dimension, Quantity

_SENSORS = {
    "low_pressure_cut_in": "low_pressure_sensor",
    "low_pressure_cut_out": "low_pressure_sensor",
    "group_suction": "low_pressure_sensor",
    "high_pressure_cut_out": "high_pressure_sensor",
    "head_pressure_hold": "high_pressure_sensor",
}
"""Which sensor reads a setting. A regulator and an expansion valve are set by a gauge, against the
local air (common practice, no source)."""


def as_shown_pa(name: str, quantity: Quantity, system: Key, directory: Directory) -> float:
    """Return a typed pressure in Pa as the control of ``name`` shows it; other quantities as they are.

    Raises:
        QuantityError: the air of the site is needed, and its elevation is not recorded.
    """
    if quantity.dimension not in {Dimension.PRESSURE, Dimension.PRESSURE_ABSOLUTE}:
        return quantity.value_si
    sensor_column = _SENSORS.get(name)
    sensor = None if sensor_column is None else directory.fact("systems", system, sensor_column)
    elevation_m = directory.fact("sites", system[:2], "elevation")
    if elevation_m is None and _needs_air(quantity, sensor):
        typed_as = "an absolute" if quantity.dimension is Dimension.PRESSURE_ABSOLUTE else "a gauge"
        raise QuantityError(
            f"is typed as {typed_as} pressure, and what the control shows for it depends on the elevation "
            "of the site, which is not recorded; expected the elevation in sites.csv, or the pressure as "
            "the control shows it"
        )
    return as_read_pa(quantity, cast(str | None, sensor), cast(float, elevation_m or 0.0))


def _needs_air(quantity: Quantity, sensor: object) -> bool:
    if quantity.dimension is Dimension.PRESSURE_ABSOLUTE:
        return sensor not in {"absolute", "sealed"}
    return sensor == "absolute"
