"""Saturation for whole columns: arrays in, arrays out, NaN where there is no answer.

``refrigerant`` is the position in `fleet.properties.REFRIGERANTS`, -1 where it is unknown. A rule
over a fleet must never stop at one row, so nothing here raises: a row without refrigerant, without
value, or outside its curve is NaN. Every operation works element by element: a system gives the same
bits alone and among 100,000. Scalar forms that raise are in `fleet.properties.states`.

Source: CoolProp 8 (HEOS), tabulated every 0.5 K, ln p linear in 1/T; within 0.002 % of the equation
in pressure. Dew is saturated vapour, bubble saturated liquid of the refrigerant's composition.
"""

import numpy as np
import numpy.typing as npt

from fleet.properties.catalogue import REFRIGERANTS
from fleet.properties.tables import NODE_K, Floats, Integers, Positions, PressureCurve, Segments, tables

_NOWHERE_K = 300.0
_NOWHERE_PA = 1e5
"""Harmless values that rows without an answer are carried through the arithmetic with."""


def dew_pressure_pa_abs(refrigerant: Integers, temperature_k: Floats) -> Floats:
    """Return the pressure at which vapour of ``temperature_k`` begins to condense, Pa absolute.

    A university's table of saturated carbon dioxide (J. Trembly, Ohio University) prints 3485.1 kPa
    at 0 °C:

    >>> import numpy as np
    >>> from fleet.properties.catalogue import refrigerant_index
    >>> dew_pressure_pa_abs(np.array([refrigerant_index("R-744")]), np.array([273.15])).round(-2)
    array([3485100.])
    """
    return _pressure(tables().dew, refrigerant, temperature_k)


def bubble_pressure_pa_abs(refrigerant: Integers, temperature_k: Floats) -> Floats:
    """Return the pressure at which liquid of ``temperature_k`` begins to boil, Pa absolute.

    The equation of R-404A (E. W. Lemmon, 2003) is published with a normal bubble point of 226.93 K:

    >>> import numpy as np
    >>> from fleet.properties.catalogue import refrigerant_index
    >>> bubble_pressure_pa_abs(np.array([refrigerant_index("R-404A")]), np.array([226.93])).round(-1)
    array([101330.])
    """
    return _pressure(tables().bubble, refrigerant, temperature_k)


def dew_temperature_k(refrigerant: Integers, pressure_pa_abs: Floats) -> Floats:
    """Return the temperature at which vapour begins to condense, K; inverse of `dew_pressure_pa_abs`.

    >>> import numpy as np
    >>> from fleet.properties.catalogue import refrigerant_index
    >>> dew_temperature_k(np.array([refrigerant_index("R-744")]), np.array([3485.1e3])).round(2)
    array([273.15])
    """
    return _temperature(tables().dew, refrigerant, pressure_pa_abs)


def bubble_temperature_k(refrigerant: Integers, pressure_pa_abs: Floats) -> Floats:
    """Return the temperature at which liquid begins to boil, K; inverse of `bubble_pressure_pa_abs`.

    >>> import numpy as np
    >>> from fleet.properties.catalogue import refrigerant_index
    >>> bubble_temperature_k(np.array([refrigerant_index("R-404A")]), np.array([101325.0])).round(2)
    array([226.93])
    """
    return _temperature(tables().bubble, refrigerant, pressure_pa_abs)


def liquid_density_kg_m3(refrigerant: Integers, temperature_k: Floats) -> Floats:
    """Return the density of saturated liquid, kg/m³; NaN in the last kelvins below the critical point.

    There the density falls too steeply for a straight line between nodes (0.05 % is kept).

    >>> import numpy as np
    >>> from fleet.properties.catalogue import refrigerant_index
    >>> liquid_density_kg_m3(np.array([refrigerant_index("R-744")]), np.array([273.15])).round()
    array([927.])
    """
    segments = tables().density
    inside, sound_k, segment = _place(segments, refrigerant, temperature_k)
    density = _on_line(segments, segment, sound_k)
    return np.where(inside, density, np.nan)


def glide_k(refrigerant: Integers, dew_temperature_k: Floats) -> Floats:
    """Return dew minus bubble temperature at the pressure whose dew temperature is given, K.

    >>> import numpy as np
    >>> from fleet.properties.catalogue import refrigerant_index
    >>> glide_k(np.array([refrigerant_index("R-407C")]), np.array([253.15])).round(1)
    array([6.7])
    """
    pressure = _pressure(tables().dew, refrigerant, dew_temperature_k)
    return dew_temperature_k - _temperature(tables().bubble, refrigerant, pressure)


def _rows(refrigerant: Integers) -> Positions:
    """Turn every position that is not in the list into the empty last row of the tables."""
    # As unsigned numbers the negative ones are huge, so one comparison catches both sides.
    return np.minimum(np.asarray(refrigerant).astype(np.uintp), len(REFRIGERANTS)).astype(np.intp)


def _place(
    segments: Segments, refrigerant: Integers, temperature_k: Floats
) -> tuple[npt.NDArray[np.bool_], Floats, Positions]:
    """Return which rows have an answer, a temperature that can be computed with, and its segment."""
    rows = _rows(refrigerant)
    inside = (temperature_k >= segments.lowest_k.take(rows)) & (
        temperature_k <= segments.highest_k.take(rows)
    )
    sound_k = np.where(inside, temperature_k, _NOWHERE_K)
    steps = (sound_k * (1.0 / NODE_K)).astype(np.intp) + segments.shift.take(rows)
    segment = np.minimum(np.maximum(steps, segments.first.take(rows)), segments.last.take(rows))
    return inside, sound_k, segment


def _on_line(segments: Segments, segment: Positions, x: Floats) -> Floats:
    return segments.y0.take(segment) + segments.slope.take(segment) * (x - segments.x0.take(segment))


def _pressure(curve: PressureCurve, refrigerant: Integers, temperature_k: Floats) -> Floats:
    inside, sound_k, segment = _place(curve.segments, refrigerant, temperature_k)
    ln_pa = _on_line(curve.segments, segment, 1.0 / sound_k)
    return np.where(inside, np.exp(ln_pa), np.nan)


def _temperature(curve: PressureCurve, refrigerant: Integers, pressure_pa_abs: Floats) -> Floats:
    rows = _rows(refrigerant)
    inside = (pressure_pa_abs >= curve.low_pa_abs.take(rows)) & (
        pressure_pa_abs <= curve.high_pa_abs.take(rows)
    )
    ln_pa = np.log(np.where(inside, pressure_pa_abs, _NOWHERE_PA))
    segment = _guided(curve, rows, ln_pa)
    segments = curve.segments
    reciprocal = ln_pa - segments.y0.take(segment)
    reciprocal /= segments.slope.take(segment)
    reciprocal += segments.x0.take(segment)
    return np.where(inside, 1.0 / reciprocal, np.nan)


def _guided(curve: PressureCurve, rows: Positions, ln_pa: Floats) -> Positions:
    """Return the segment of each row through the guide."""
    steps = ((ln_pa - curve.start_ln_pa.take(rows)) * curve.steps_per_ln_pa.take(rows)).astype(np.intp)
    first = curve.guide_first.take(rows)
    steps += first
    segment = curve.guide.take(np.minimum(np.maximum(steps, first), curve.guide_last.take(rows)))
    # The guide names the segment in which its step begins; the step may reach into the next one.
    segment += ln_pa >= curve.end_ln_pa.take(segment)
    return segment
