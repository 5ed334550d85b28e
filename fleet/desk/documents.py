"""What JSON documents share: units, plain numbers, verdicts and reasons of a window."""

from collections.abc import Mapping

from fleet.dictionary.words import Severity, Verdict
from fleet.units import Dimension, UnitSystem, plain, unit_shown

Json = None | bool | int | float | str | list["Json"] | dict[str, "Json"]
Document = dict[str, Json]

_UNIT_KEYS = {
    "temperature": Dimension.TEMPERATURE,
    "temperature_difference": Dimension.TEMPERATURE_DIFFERENCE,
    "pressure": Dimension.PRESSURE,
    "pressure_absolute": Dimension.PRESSURE_ABSOLUTE,
    "difference": Dimension.PRESSURE_DIFFERENCE,
    "mass": Dimension.MASS,
    "length": Dimension.LENGTH,
    "time": Dimension.TIME,
}


def units_of(system: UnitSystem) -> Document:
    """Return the units in which a document's numbers stand."""
    return {key: unit_shown(dimension, system).symbol for key, dimension in _UNIT_KEYS.items()}


def number(value_si: float | None, dimension: Dimension | None, system: UnitSystem) -> float | None:
    """Return a plain number, None where nothing bounds or nothing is known."""
    if value_si is None or value_si != value_si or abs(value_si) == float("inf"):
        return None
    return round(value_si, 4) if dimension is None else plain(value_si, dimension, system)


def severity_word(severity: int) -> str | None:
    """Return a severity as JSON writes it, None where nothing is wrong."""
    return Severity(severity).value_name if severity else None


def verdict_word(code: int) -> str:
    """Return a verdict as JSON writes it."""
    return VERDICTS[code]


VERDICTS: tuple[str, ...] = tuple(verdict.value for verdict in Verdict)


def sorted_counts(counts: Mapping[int, int]) -> Document:
    """Return counts by severity, every severity present."""
    return {severity.value_name: counts.get(int(severity), 0) for severity in Severity}
