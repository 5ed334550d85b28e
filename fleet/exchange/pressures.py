"""Typed pressures as the control's own scale shows them.

The register keeps a pressure as the control shows it: an absolute pressure typed for a vented
control less the local air, a gauge pressure typed for an absolute control plus it.
"""

from typing import cast

from fleet.atmosphere import as_shown_pa
from fleet.exchange.directory import Directory
from fleet.exchange.storage import Key
from fleet.units import Quantity

_SENSORS = {
    "low_pressure_cut_in": "low_pressure_sensor",
    "low_pressure_cut_out": "low_pressure_sensor",
    "group_suction": "low_pressure_sensor",
    "high_pressure_cut_out": "high_pressure_sensor",
    "head_pressure_hold": "high_pressure_sensor",
}
"""Which sensor reads a setting. A regulator and an expansion valve are set by a gauge, against the
local air (common practice, no source)."""


def setting_pa(name: str, quantity: Quantity, system: Key, directory: Directory) -> float:
    """Return a typed pressure in Pa as the control of ``name`` shows it; other quantities as they are.

    Raises:
        QuantityError: the air of the site is needed, and its elevation is not recorded.
    """
    sensor_column = _SENSORS.get(name)
    sensor = None if sensor_column is None else directory.fact("systems", system, sensor_column)
    elevation_m = directory.fact("sites", system[:2], "elevation")
    return as_shown_pa(quantity, cast("str | None", sensor), cast("float | None", elevation_m))
