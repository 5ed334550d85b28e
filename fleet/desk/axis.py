"""Windows on one pressure axis with the saturation temperatures beside it, ready to be drawn."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from fleet.desk.derivation import Derivation, explain_window
from fleet.desk.windows import SystemWindows, Window
from fleet.dictionary.words import Severity, Verdict
from fleet.properties import REFRIGERANTS, dew_pressure_pa_abs, dew_temperature_k, saturation_range
from fleet.units import Dimension, UnitSystem, figure, unit_shown

Tick = tuple[float, str]
NO_BOUND = "none"
MOST_SATURATION_TICKS = 12
_STEPS = {UnitSystem.US: (10, 20, 50), UnitSystem.METRIC: (5, 10, 20)}
_BEYOND = 0.4
"""Saturation ticks reach past the values by this share, because the axis ends on round ticks."""
_FARTHEST = 0.6
"""A recorded value this share of the span past everything else ends the axis; farther ones leave it."""


@dataclass(frozen=True, slots=True)
class WindowRow:
    """One window in the units of the desk; None for what there is not."""

    part: str
    setting: str
    label: str
    low: float | None
    high: float | None
    preferred: float | None
    recorded: float | None
    state: str
    """``known``, ``none`` (no window), ``unknown``."""
    severity: int
    """1 act now to 4 note, 0 where nothing is wrong."""
    severity_words: str
    verdict: str
    verdict_words: str
    value: str
    """The recorded value, with its unit only where that is not the axis' own."""
    unit: str
    lowest: str
    highest: str
    preferred_text: str
    preferred_typed: str
    """The preferred value as one would type it, empty where there is none."""
    difference: bool
    """Whether it is a pressure difference, which has no place on the axis."""
    low_reason: str
    high_reason: str
    reason: str
    explained: Derivation

    @property
    def key(self) -> tuple[str, str]:
        """Part and setting."""
        return self.part, self.setting


@dataclass(frozen=True, slots=True)
class PressureAxis:
    """The axis that all pressures of a system share, in one unit."""

    unit: str
    saturation_unit: str
    low: float
    high: float
    saturation: tuple[Tick, ...]
    """Pressures of round dew temperatures, with the temperature as label."""
    references: tuple[Tick, ...]
    """Pressures to compare with, with their label."""


def window_rows(
    computed: SystemWindows, units: UnitSystem, typed: dict[tuple[str, str], str] | None = None
) -> tuple[WindowRow, ...]:
    """Return the windows of a system; ``typed`` holds recorded values as typed, by part and setting."""
    known = typed or {}
    return tuple(
        _row(computed, window, units, known.get((window.part, window.setting), ""))
        for window in computed.windows
    )


def _row(computed: SystemWindows, window: Window, units: UnitSystem, typed: str) -> WindowRow:
    unit = unit_shown(window.dimension, units)
    difference = window.dimension is Dimension.PRESSURE_DIFFERENCE
    unclear = window.verdict in {Verdict.NOT_KNOWN, Verdict.NOT_APPLICABLE}

    def plain(value: float) -> float | None:
        return unit.from_si(value) if np.isfinite(value) else None

    def text(value: float) -> str:
        return _text(value, window.dimension, units)

    return WindowRow(
        part=window.part,
        setting=window.setting,
        label=window.target.label.removeprefix("LP "),
        low=None if unclear else plain(window.low),
        high=None if unclear else plain(window.high),
        preferred=plain(window.preferred),
        recorded=plain(window.recorded),
        state=_state(window.verdict),
        severity=window.severity,
        severity_words=Severity(window.severity).words if window.severity else "",
        verdict=window.verdict.value,
        verdict_words=window.verdict.words,
        value="not recorded" if np.isnan(window.recorded) else text(window.recorded),
        unit=unit.symbol,
        lowest="?" if unclear else text(window.low),
        highest="?" if unclear else text(window.high),
        preferred_text=text(window.preferred) if np.isfinite(window.preferred) else "",
        preferred_typed=_typed(window.preferred, window.dimension, units),
        difference=difference,
        low_reason=window.words.low_reason,
        high_reason=window.words.high_reason,
        reason=window.words.reason,
        explained=explain_window(computed, window, units, typed),
    )


def _state(verdict: Verdict) -> str:
    if verdict is Verdict.NO_WINDOW:
        return "none"
    return "unknown" if verdict in {Verdict.NOT_KNOWN, Verdict.NOT_APPLICABLE} else "known"


def _text(value: float, dimension: Dimension, units: UnitSystem) -> str:
    if not np.isfinite(value):
        return NO_BOUND
    number, symbol = figure(value, dimension, units)
    return number if symbol == unit_shown(dimension, units).symbol else f"{number} {symbol}"


def _typed(value: float, dimension: Dimension, units: UnitSystem) -> str:
    return "".join(figure(value, dimension, units)) if np.isfinite(value) else ""


def pressure_axis(computed: SystemWindows, units: UnitSystem) -> PressureAxis | None:
    """Return the axis of a system's pressures; None where no pressure is known at all."""
    pressures = [w for w in computed.windows if w.dimension is not Dimension.PRESSURE_DIFFERENCE]
    references = tuple(_references(computed))
    bounds = [
        value
        for w in pressures
        if w.verdict not in {Verdict.NOT_KNOWN, Verdict.NOT_APPLICABLE}
        for value in (w.low, w.high, w.preferred)
    ]
    recorded = [w.recorded for w in pressures if np.isfinite(w.recorded)]
    known = [v for v in (*bounds, *(value for value, _ in references)) if np.isfinite(v)]
    if not known and not recorded:
        return None
    low_si, high_si = _span(known or recorded, recorded)
    dimension = next((w.dimension for w in pressures), Dimension.PRESSURE)
    unit = unit_shown(dimension, units)
    return PressureAxis(
        unit=unit.symbol,
        saturation_unit=f"{unit_shown(Dimension.TEMPERATURE, units).symbol} dew",
        low=unit.from_si(low_si),
        high=unit.from_si(high_si),
        saturation=tuple(
            (unit.from_si(value), label) for value, label in _saturation(computed, low_si, high_si, units)
        ),
        references=tuple(
            (unit.from_si(value), f"{label}, {_text(value, dimension, units)}")
            for value, label in _labelled(references, units)
        ),
    )


def _span(known: Sequence[float], recorded: Sequence[float]) -> tuple[float, float]:
    low, high = min(*known, 0.0), max(known)
    reach = _FARTHEST * max(high - low, 1.0)
    low = max(low - reach, min(low, *recorded)) if recorded else low
    high = min(high + reach, max(high, *recorded)) if recorded else high
    return low, high if high > low else low + 1.0


def _references(computed: SystemWindows) -> Iterator[tuple[float, tuple[str, float]]]:
    """Yield the pressures that a low side rests at, each with the name of its temperature."""
    systems, side = computed.fleet.systems, computed.found.side
    soak = float(side.soak_k[0])
    judged = computed.window("low_pressure_cut_in")
    if judged is None or judged.verdict is Verdict.NOT_APPLICABLE or not np.isfinite(soak):
        return
    names = ((float(systems.design_cold_k[0]), "design cold"), (float(systems.room_low_k[0]), "coldest room"))
    name = next((name for value, name in names if value == soak), "receiver held at")
    pressure = float(dew_pressure_pa_abs(systems.refrigerant[:1], np.array([soak]))[0])
    if np.isfinite(pressure):
        yield pressure - computed.sensed_air_pa, (name, soak)


def _labelled(
    references: Sequence[tuple[float, tuple[str, float]]], units: UnitSystem
) -> Iterator[tuple[float, str]]:
    for value, (name, kelvin) in references:
        number, symbol = figure(kelvin, Dimension.TEMPERATURE, units)
        yield value, f"{name} {number.removesuffix('.0')} {symbol}"


def _saturation(
    computed: SystemWindows, low_si: float, high_si: float, units: UnitSystem
) -> Iterator[tuple[float, str]]:
    """Yield the pressures, as read, of round dew temperatures over the axis and a little past it."""
    refrigerant = int(computed.fleet.systems.refrigerant[0])
    air = computed.sensed_air_pa
    if refrigerant < 0 or not np.isfinite(air):
        return
    table = saturation_range(REFRIGERANTS[refrigerant].name)
    past = _BEYOND * (high_si - low_si)
    limits = np.array([low_si, high_si, low_si - past, high_si + past]) + air
    limits = np.clip(limits, table.low_pa_abs * 1.001, table.high_pa_abs * 0.999)
    unit = unit_shown(Dimension.TEMPERATURE, units)
    seen_low, seen_high, first, last = (
        unit.from_si(float(kelvin)) for kelvin in dew_temperature_k(_column(refrigerant, 4), limits)
    )
    steps = _STEPS[units]
    step = next((s for s in steps if (seen_high - seen_low) / s <= MOST_SATURATION_TICKS), steps[-1])
    for value in np.arange(np.ceil(first / step), np.floor(last / step) + 1) * step:
        kelvin = np.array([unit.to_si(float(value))])
        pressure = float(dew_pressure_pa_abs(_column(refrigerant, 1), kelvin)[0])
        yield pressure - air, f"{value:.0f}".replace("-", "−")


def _column(refrigerant: int, rows: int) -> npt.NDArray[np.int16]:
    return np.full(rows, refrigerant, dtype=np.int16)
