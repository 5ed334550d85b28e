"""Typed pressures as the control's own scale shows them.

Inside, a pressure is what the control shows: an absolute pressure typed for a vented control less
the local air, a gauge pressure typed for an absolute control plus it.
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


def as_read(name: str, quantity: Quantity, system: Key, directory: Directory) -> Quantity:
    """Return a pressure as its control shows it; other quantities come back as they are.

    Raises:
        QuantityError: the air of the site is needed, and its elevation is not recorded.
    """
    if quantity.dimension not in {Dimension.PRESSURE, Dimension.PRESSURE_ABSOLUTE}:
        return quantity
    sensor_column = _SENSORS.get(name)
    sensor = None if sensor_column is None else directory.fact("systems", system, sensor_column)
    elevation_m = directory.fact("sites", system[:2], "elevation")
    needs_air = (
        sensor not in {"absolute", "sealed"}
        if quantity.dimension is Dimension.PRESSURE_ABSOLUTE
        else sensor == "absolute"
    )
    if needs_air and elevation_m is None:
        raise QuantityError(
            f"is a {quantity.dimension.value}, and what the control shows for it depends on the elevation of the site, which is "
            "not recorded; expected the elevation in sites.csv, or the pressure as the control shows it"
        )
    pressure_pa = as_read_pa(quantity, cast(str | None, sensor), cast(float, elevation_m or 0.0))
    return Quantity(pressure_pa, Dimension.PRESSURE, quantity.text)
