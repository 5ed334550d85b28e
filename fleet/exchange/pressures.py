"""The gauge pressure of a column that a gauge is read for, typed as an absolute one.

A setting keeps the pressure as typed, and the register turns it into what its control shows; the
only such column is the maximum operating pressure of an expansion valve, which is read on a gauge
against the local air (common practice, no source).
"""

from typing import cast

from fleet.atmosphere import as_read_pa
from fleet.errors import QuantityError
from fleet.exchange.directory import Directory
from fleet.exchange.storage import Key
from fleet.units import Dimension, Quantity


def on_a_gauge(quantity: Quantity, site: Key, directory: Directory) -> Quantity:
    """Return a pressure as a gauge at the site shows it.

    Raises:
        QuantityError: an absolute pressure, and the elevation of the site is not recorded.
    """
    if quantity.dimension is not Dimension.PRESSURE_ABSOLUTE:
        return quantity
    elevation_m = directory.fact("sites", site, "elevation")
    if elevation_m is None:
        raise QuantityError(
            "is an absolute pressure, and what a gauge shows for it depends on the elevation of the site, "
            "which is not recorded; expected the elevation in sites.csv, or a gauge pressure"
        )
    pressure_pa = as_read_pa(quantity, None, cast(float, elevation_m))
    return Quantity(pressure_pa, Dimension.PRESSURE, quantity.text)
