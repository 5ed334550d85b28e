"""The air around a pressure control: what a gauge reads at an elevation, by kind of sensor.

Pressures inside are what the control's own scale shows ("as read"): a vented sensor subtracts the
local air, a sealed one the air it was sealed in, an absolute one nothing.
"""

from typing import TYPE_CHECKING, overload

from fleet.errors import OutOfRangeError, QuantityError
from fleet.units import STANDARD_AIR_PA, Dimension, Quantity

if TYPE_CHECKING:
    import numpy as np
    import numpy.typing as npt

LOWEST_ELEVATION_M = -500.0
HIGHEST_ELEVATION_M = 6000.0


@overload
def air_pressure_pa(elevation_m: float) -> float: ...
@overload
def air_pressure_pa(elevation_m: "npt.NDArray[np.float64]") -> "npt.NDArray[np.float64]": ...
def air_pressure_pa(
    elevation_m: "float | npt.NDArray[np.float64]",
) -> "float | npt.NDArray[np.float64]":
    """Return the air pressure in Pa at an elevation in m.

    ``101325 * (1 - 2.25577e-5 * z) ** 5.25588``: the troposphere of the U.S. Standard Atmosphere,
    1976, valid from sea level to 11,000 m; weather moves the real value by about 2 %.

    >>> round(air_pressure_pa(1524.0))
    84307
    """
    return STANDARD_AIR_PA * (1.0 - 2.25577e-5 * elevation_m) ** 5.25588


def check_elevation(elevation_m: float) -> None:
    """Refuse an elevation where nobody keeps a cooler.

    Raises:
        OutOfRangeError: below -500 m or above 6,000 m.
    """
    if not LOWEST_ELEVATION_M <= elevation_m <= HIGHEST_ELEVATION_M:
        raise OutOfRangeError(
            f"An elevation of {elevation_m:,.0f} m ({elevation_m / 0.3048:,.0f} ft) is outside "
            "−500 m to 6,000 m (−1,640 ft to 19,685 ft)."
        )


def sensed_air_pa(sensor: str | None, elevation_m: float) -> float:
    """Return the pressure in Pa that the sensor subtracts: local air, sea-level air, or nothing.

    An unrecorded sensor is taken for a vented one (common practice, no source).
    """
    if sensor == "absolute":
        return 0.0
    if sensor == "sealed":
        return STANDARD_AIR_PA
    return air_pressure_pa(elevation_m)


def as_read_pa(quantity: Quantity, sensor: str | None, elevation_m: float) -> float:
    """Return a typed pressure in Pa as the control's own scale would show it.

    A typed gauge pressure is what a vented or sealed control shows; on an absolute control it is
    taken as gauge against the local air.

    >>> from fleet.units import parse
    >>> round(as_read_pa(parse("29.7psia", Dimension.PRESSURE), "vented", 0.0) / 6894.757, 2)
    15.0
    """
    if quantity.dimension is Dimension.PRESSURE_ABSOLUTE:
        return quantity.value_si - sensed_air_pa(sensor, elevation_m)
    if sensor == "absolute":
        return quantity.value_si + air_pressure_pa(elevation_m)
    return quantity.value_si


def as_shown_pa(quantity: Quantity, sensor: str | None, elevation_m: float | None) -> float:
    """Return a typed pressure in Pa as the control shows it; other quantities as they are.

    Raises:
        QuantityError: the air of the site is needed, and its elevation is not recorded.
    """
    if quantity.dimension not in {Dimension.PRESSURE, Dimension.PRESSURE_ABSOLUTE}:
        return quantity.value_si
    absolute = quantity.dimension is Dimension.PRESSURE_ABSOLUTE
    needs_air = sensor not in {"absolute", "sealed"} if absolute else sensor == "absolute"
    if elevation_m is None and needs_air:
        raise QuantityError(
            f"{quantity.text!r} is typed as {'an absolute' if absolute else 'a gauge'} pressure, and what "
            "the control shows for it depends on the elevation of the site, which is not recorded; expected "
            "the elevation in sites.csv, or the pressure as the control shows it"
        )
    return as_read_pa(quantity, sensor, elevation_m or 0.0)
