"""Quantities at the edge: what people type becomes SI floats, SI floats become what people read.

Inside, everything is a plain SI float: kelvin, pascal, kilogram, metre, second. A pressure is gauge
unless its name says absolute. What was typed is kept beside the value, and is shown again as typed.

A bare number is refused: ``38`` may be °F or °C, and a wrong guess spoils food.
"""

import re
from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum

from fleet.errors import QuantityError

PSI_PA = 6894.757293168361
"""One pound-force per square inch in pascal (NIST SP 811, Appendix B.8)."""
INHG_PA = 3386.389
"""One conventional inch of mercury in pascal (NIST SP 811, Appendix B.8)."""
STANDARD_AIR_PA = 101325.0
"""One standard atmosphere in pascal (NIST SP 811, Appendix B.8)."""
POUND_KG = 0.45359237
FOOT_M = 0.3048
FAHRENHEIT_K = 5.0 / 9.0
ZERO_CELSIUS_K = 273.15
ZERO_FAHRENHEIT_K = 273.15 - 32.0 * FAHRENHEIT_K


class Dimension(StrEnum):
    """What kind of quantity a value is; differences are kinds of their own."""

    TEMPERATURE = "temperature"
    TEMPERATURE_DIFFERENCE = "temperature difference"
    PRESSURE = "gauge pressure"
    PRESSURE_ABSOLUTE = "absolute pressure"
    PRESSURE_DIFFERENCE = "pressure difference"
    PRESSURE_RATE = "pressure rise per time"
    MASS = "mass"
    LENGTH = "length"
    AREA = "area"
    VOLUME = "volume"
    TIME = "time"
    POWER = "power"
    VOLTAGE = "voltage"

    @property
    def suffix(self) -> str:
        """The unit as it stands at the end of a name inside, like ``pa_gauge``."""
        return _SUFFIXES[self]

    @property
    def example(self) -> str:
        """How such a quantity is typed."""
        return _EXAMPLES[self]


class UnitSystem(StrEnum):
    """Which units are shown."""

    US = "us"
    METRIC = "metric"


_SUFFIXES = {
    Dimension.TEMPERATURE: "k",
    Dimension.TEMPERATURE_DIFFERENCE: "k",
    Dimension.PRESSURE: "pa_gauge",
    Dimension.PRESSURE_ABSOLUTE: "pa_abs",
    Dimension.PRESSURE_DIFFERENCE: "pa",
    Dimension.PRESSURE_RATE: "pa_per_s",
    Dimension.MASS: "kg",
    Dimension.LENGTH: "m",
    Dimension.AREA: "m2",
    Dimension.VOLUME: "m3",
    Dimension.TIME: "s",
    Dimension.POWER: "w",
    Dimension.VOLTAGE: "v",
}
_EXAMPLES = {
    Dimension.TEMPERATURE: "36F or 2.2C",
    Dimension.TEMPERATURE_DIFFERENCE: "2F or 1.1K",
    Dimension.PRESSURE: "15psig, 1.03bar or 8.3inHg for vacuum",
    Dimension.PRESSURE_ABSOLUTE: "20psia or 1.4bara",
    Dimension.PRESSURE_DIFFERENCE: "10psi or 0.7bar",
    Dimension.PRESSURE_RATE: "1psi/h or 7kPa/h",
    Dimension.MASS: "12lb or 5.4kg",
    Dimension.LENGTH: "5000ft or 1524m",
    Dimension.AREA: "3.8ft2 or 0.35m2",
    Dimension.VOLUME: "0.36ft3 or 10L",
    Dimension.TIME: "3min, 90s or 2h",
    Dimension.POWER: "70W",
    Dimension.VOLTAGE: "208V",
}


@dataclass(frozen=True, slots=True)
class Unit:
    """One way of writing a quantity: ``si = scale * number + offset``."""

    symbol: str
    dimension: Dimension
    scale: float
    offset: float = 0.0
    decimals: int = 1

    def to_si(self, number: float) -> float:
        """Convert a number in this unit to SI."""
        return number * self.scale + self.offset

    def from_si(self, value_si: float) -> float:
        """Convert an SI value to a number in this unit."""
        return (value_si - self.offset) / self.scale


def _pressure_units() -> Iterable[tuple[str, Unit]]:
    plain = (("psi", PSI_PA, 1), ("bar", 1e5, 2), ("kpa", 1e3, 0), ("mpa", 1e6, 3), ("pa", 1.0, 0))
    printed = {"kpa": "kPa", "mpa": "MPa", "pa": "Pa"}
    for key, scale, decimals in plain:
        name = printed.get(key, key)
        gauge = "psig" if key == "psi" else f"{name}(g)"
        absolute = "psia" if key == "psi" else f"{name}(a)"
        yield key, Unit(gauge, Dimension.PRESSURE, scale, decimals=decimals)
        yield key, Unit(name, Dimension.PRESSURE_DIFFERENCE, scale, decimals=decimals)
        for mark in ("g", "(g)"):
            yield key + mark, Unit(gauge, Dimension.PRESSURE, scale, decimals=decimals)
        for mark in ("a", "(a)"):
            yield key + mark, Unit(absolute, Dimension.PRESSURE_ABSOLUTE, scale, decimals=decimals)
        yield key + "/h", Unit(f"{name}/h", Dimension.PRESSURE_RATE, scale / 3600.0, decimals=decimals)
    for mark in ("inhg", "inhgvac", "inhgvacuum", '"hg'):
        yield mark, Unit("inHg", Dimension.PRESSURE, -INHG_PA)


def _temperature_units() -> Iterable[tuple[str, Unit]]:
    scales = (
        ("f", "°F", FAHRENHEIT_K, ZERO_FAHRENHEIT_K),
        ("c", "°C", 1.0, ZERO_CELSIUS_K),
        ("k", "K", 1.0, 0.0),
    )
    for key, symbol, scale, offset in scales:
        difference = "K" if key == "c" else symbol
        for spelling in (key, "°" + key, "deg" + key):
            yield spelling, Unit(symbol, Dimension.TEMPERATURE, scale, offset)
            yield spelling, Unit(difference, Dimension.TEMPERATURE_DIFFERENCE, scale)


def _plain_units() -> Iterable[tuple[str, Unit]]:
    rows = (
        (("lb", "lbs"), "lb", Dimension.MASS, POUND_KG, 1),
        (("oz",), "oz", Dimension.MASS, POUND_KG / 16, 1),
        (("kg",), "kg", Dimension.MASS, 1.0, 2),
        (("g",), "g", Dimension.MASS, 1e-3, 0),
        (("ft", "feet"), "ft", Dimension.LENGTH, FOOT_M, 0),
        (("in", "inch"), "in", Dimension.LENGTH, FOOT_M / 12, 1),
        (("m",), "m", Dimension.LENGTH, 1.0, 0),
        (("cm",), "cm", Dimension.LENGTH, 0.01, 0),
        (("mm",), "mm", Dimension.LENGTH, 0.001, 0),
        (("ft2", "sqft"), "ft²", Dimension.AREA, FOOT_M**2, 2),
        (("m2",), "m²", Dimension.AREA, 1.0, 3),
        (("ft3", "cuft"), "ft³", Dimension.VOLUME, FOOT_M**3, 2),
        (("m3",), "m³", Dimension.VOLUME, 1.0, 3),
        (("l", "liter", "litre"), "L", Dimension.VOLUME, 1e-3, 1),
        (("s", "sec"), "s", Dimension.TIME, 1.0, 0),
        (("min",), "min", Dimension.TIME, 60.0, 1),
        (("h", "hr", "hours"), "h", Dimension.TIME, 3600.0, 1),
        (("d", "days"), "d", Dimension.TIME, 86400.0, 1),
        (("w", "watt", "watts"), "W", Dimension.POWER, 1.0, 0),
        (("kw",), "kW", Dimension.POWER, 1e3, 2),
        (("v", "volt", "volts"), "V", Dimension.VOLTAGE, 1.0, 0),
    )
    for spellings, symbol, dimension, scale, decimals in rows:
        for spelling in spellings:
            yield spelling, Unit(symbol, dimension, scale, decimals=decimals)


def _all_units() -> dict[str, tuple[Unit, ...]]:
    units: dict[str, tuple[Unit, ...]] = {}
    for maker in (_pressure_units, _temperature_units, _plain_units):
        for spelling, unit in maker():
            units[spelling] = (*units.get(spelling, ()), unit)
    return units


_UNITS = _all_units()

_SHOWN: dict[tuple[Dimension, UnitSystem], Unit] = {
    (dimension, system): next(u for u in _UNITS[spelling] if u.dimension is dimension)
    for dimension, us, metric in (
        (Dimension.TEMPERATURE, "f", "c"),
        (Dimension.TEMPERATURE_DIFFERENCE, "f", "c"),
        (Dimension.PRESSURE, "psi", "bar"),
        (Dimension.PRESSURE_ABSOLUTE, "psia", "bara"),
        (Dimension.PRESSURE_DIFFERENCE, "psi", "bar"),
        (Dimension.PRESSURE_RATE, "psi/h", "bar/h"),
        (Dimension.MASS, "lb", "kg"),
        (Dimension.LENGTH, "ft", "m"),
        (Dimension.AREA, "ft2", "m2"),
        (Dimension.VOLUME, "ft3", "l"),
        (Dimension.TIME, "min", "min"),
        (Dimension.POWER, "w", "w"),
        (Dimension.VOLTAGE, "v", "v"),
    )
    for system, spelling in ((UnitSystem.US, us), (UnitSystem.METRIC, metric))
}
_VACUUM_US = next(iter(_UNITS["inhg"]))


@dataclass(frozen=True, slots=True)
class Quantity:
    """A value in SI, what it is, and the text that was typed for it."""

    value_si: float
    dimension: Dimension
    text: str


_TYPED = re.compile(r"^(?P<number>[-+]?(?:\d{1,3}(?:,\d{3})+|\d+)?(?:\.\d+)?)\s*(?P<unit>[^\d\s.,+-].*)?$")


def parse(text: str, *dimensions: Dimension) -> Quantity:
    """Read a typed quantity that should be of one of ``dimensions``.

    An absolute pressure is accepted where a gauge pressure is asked for, and comes back as absolute:
    only who knows elevation and sensor can convert it (`fleet.atmosphere.as_read_pa`).

    Raises:
        QuantityError: no number, no unit, an unknown unit, another dimension, or a value that
            cannot exist. The message says what would be accepted.

    >>> round(parse("15psig", Dimension.PRESSURE).value_si)
    103421
    >>> parse("2F", Dimension.TEMPERATURE_DIFFERENCE).value_si
    1.1111111111111112
    """
    typed = text.strip()
    expected = "expected " + " or ".join(f"{_with_article(d)} like {d.example}" for d in dimensions)
    match = _TYPED.match(typed.replace("−", "-"))
    if match is None or not match["number"].strip("+-"):
        raise QuantityError(f"{typed!r} is not a quantity; {expected}.")
    if not match["unit"]:
        raise QuantityError(f"{typed!r} has no unit; {expected}.")
    candidates = _UNITS.get(match["unit"].casefold().replace(" ", ""))
    if candidates is None:
        raise QuantityError(f"{typed!r}: the unit {match['unit'].strip()!r} is not known; {expected}.")
    accepted = set(dimensions)
    if Dimension.PRESSURE in accepted:
        accepted.add(Dimension.PRESSURE_ABSOLUTE)
    unit = next((u for u in candidates if u.dimension in accepted), None)
    if unit is None:
        raise QuantityError(f"{typed!r} is {_with_article(candidates[0].dimension)}; {expected}.")
    number = float(match["number"].replace(",", ""))
    if number in {float("inf"), float("-inf")}:
        raise QuantityError(f"{typed!r} is larger than any quantity; {expected}.")
    if unit is _VACUUM_US and number < 0:
        raise QuantityError(f"{typed!r}: vacuum is written without a sign, like 8.3inHg.")
    value = unit.to_si(number)
    _refuse_impossible(value, unit.dimension, typed)
    return Quantity(value, unit.dimension, typed)


def _with_article(dimension: Dimension) -> str:
    return f"{'an' if dimension.value[0] in 'aeiou' else 'a'} {dimension.value}"


_LOWEST: dict[Dimension, tuple[float, str]] = {
    Dimension.TEMPERATURE: (0.0, "below absolute zero (−459.67 °F, −273.15 °C)"),
    Dimension.PRESSURE: (-STANDARD_AIR_PA, "below a full vacuum (−14.7 psig, 29.9 inHg)"),
    Dimension.PRESSURE_ABSOLUTE: (0.0, "below a full vacuum (0 psia)"),
    Dimension.MASS: (0.0, "less than nothing"),
    Dimension.AREA: (0.0, "less than nothing"),
    Dimension.VOLUME: (0.0, "less than nothing"),
    Dimension.TIME: (0.0, "less than no time"),
    Dimension.POWER: (0.0, "less than nothing"),
    Dimension.VOLTAGE: (0.0, "less than nothing"),
}


def _refuse_impossible(value_si: float, dimension: Dimension, typed: str) -> None:
    lowest, words = _LOWEST.get(dimension, (float("-inf"), ""))
    if value_si < lowest - 1e-9:  # −459.67 °F comes out a rounding error below 0 K
        raise QuantityError(
            f"{typed!r} is {words}; a {dimension.value} like {dimension.example} is expected."
        )


def unit_shown(dimension: Dimension, system: UnitSystem) -> Unit:
    """Return the unit in which a dimension is shown in ``system``."""
    return _SHOWN[dimension, system]


def plain(value_si: float | None, dimension: Dimension, system: UnitSystem) -> float | None:
    """Return a value as a plain number in the shown unit; vacuum stays a negative gauge pressure.

    >>> plain(273.15, Dimension.TEMPERATURE, UnitSystem.US)
    32.0
    """
    if value_si is None or value_si != value_si:
        return None
    return round(_SHOWN[dimension, system].from_si(value_si), 4)


def figure(value_si: float, dimension: Dimension, system: UnitSystem) -> tuple[str, str]:
    """Return number and unit as people read them; in US units a vacuum is inHg without a sign.

    >>> figure(-28108.0, Dimension.PRESSURE, UnitSystem.US)
    ('8.3', 'inHg')
    >>> figure(273.15, Dimension.TEMPERATURE, UnitSystem.METRIC)
    ('0.0', '°C')
    """
    unit = _SHOWN[dimension, system]
    if dimension is Dimension.PRESSURE and system is UnitSystem.US and value_si < -0.05 * PSI_PA:
        unit = _VACUUM_US
    number = unit.from_si(value_si)
    shown = f"{number:,.{unit.decimals}f}"
    if float(shown.replace(",", "")) == 0:
        shown = shown.removeprefix("-")
    return shown.replace("-", "−"), unit.symbol


def show(value_si: float, dimension: Dimension, system: UnitSystem) -> str:
    """Return a value with its unit as people read it.

    >>> show(103421.4, Dimension.PRESSURE, UnitSystem.US)
    '15.0 psig'
    """
    number, symbol = figure(value_si, dimension, system)
    return f"{number} {symbol} vacuum" if symbol == _VACUUM_US.symbol else f"{number} {symbol}"
