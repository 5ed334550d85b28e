"""The windows of one system, in words and numbers: for the command, the sheet and the form."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from fleet.desk.documents import Document, Json, number, severity_word, units_of, verdict_word
from fleet.dictionary.kinds import Value
from fleet.dictionary.words import Verdict
from fleet.targets.columns import FleetColumns
from fleet.targets.explain import Explanation, explain
from fleet.targets.judge import Judged
from fleet.targets.lowpressure import LowPressure, low_pressure
from fleet.targets.single import one_system
from fleet.targets.table import TARGET_BY_CODE, Target
from fleet.units import Dimension, UnitSystem, unit_shown


@dataclass(frozen=True, slots=True)
class Window:
    """One window of one system, ready to be shown."""

    target: Target
    part: str
    dimension: Dimension
    low: float
    high: float
    preferred: float
    recorded: float
    verdict: Verdict
    severity: int
    out_by: float
    out_by_saturation_k: float
    words: Explanation

    @property
    def setting(self) -> str:
        """The code of the setting."""
        return self.target.code


@dataclass(frozen=True, slots=True)
class SystemWindows:
    """All windows of one system with the columns that made them."""

    fleet: FleetColumns
    found: LowPressure
    windows: tuple[Window, ...]

    @property
    def sensed_air_pa(self) -> float:
        """What the control's sensor subtracts from the absolute pressure."""
        return float(self.found.side.sensed_air_pa[0])

    def window(self, setting: str, part: str = "") -> Window | None:
        """Return the window of a setting of a part."""
        return next((w for w in self.windows if w.setting == setting and w.part == part), None)


def windows_of(fleet: FleetColumns, system: UnitSystem) -> SystemWindows:
    """Compute the windows of a fleet of one system."""
    found = low_pressure(fleet)
    return SystemWindows(fleet, found, tuple(_windows(fleet, found, system)))


def _windows(fleet: FleetColumns, found: LowPressure, system: UnitSystem) -> Iterator[Window]:
    rack = len(found.group_suction.recorded) > 0
    for judged in found.judged:
        for row in range(len(judged.recorded)):
            if judged is found.rack_cut_out and not rack:
                continue
            yield _window(fleet, found, judged, row, system)


def _window(fleet: FleetColumns, found: LowPressure, judged: Judged, row: int, system: UnitSystem) -> Window:
    words = explain(fleet, found, judged, row, system)
    return Window(
        target=TARGET_BY_CODE[judged.setting],
        part=_part(fleet, found, judged, row),
        dimension=words.facts["low"].dimension,
        low=float(judged.low[row]),
        high=float(judged.high[row]),
        preferred=float(judged.preferred[row]),
        recorded=float(judged.recorded[row]),
        verdict=list(Verdict)[int(judged.verdict[row])],
        severity=int(judged.severity[row]),
        out_by=float(judged.out_by[row]),
        out_by_saturation_k=float(judged.out_by_saturation_k[row]),
        words=words,
    )


def _part(fleet: FleetColumns, found: LowPressure, judged: Judged, row: int) -> str:
    if judged is found.group_suction:
        return f"group {fleet.group_tags[row]}"
    if judged is found.rack_cut_out:
        return f"compressor {int(fleet.compressors.position[row])}"
    return ""


def targets_document(cells: Mapping[str, Value], system: UnitSystem) -> Document:
    """Return what `coldround targets --json` prints for one system given in cells."""
    computed = windows_of(one_system(cells), system)
    windows: list[Json] = [window_document(window, system) for window in computed.windows]
    return {"units": units_of(system), "windows": windows, "assumed": _assumed(computed)}


def _assumed(computed: SystemWindows) -> list[Json]:
    return list(dict.fromkeys(text for window in computed.windows for text in window.words.assumed))


def window_document(window: Window, system: UnitSystem) -> Document:
    """Return one window as JSON; absolute pressures where the control's sensor reads absolute."""
    words = window.words
    difference = window.dimension is Dimension.PRESSURE_DIFFERENCE
    known = window.verdict not in {Verdict.NOT_KNOWN, Verdict.NOT_APPLICABLE}
    saturation = (
        None if difference else number(window.out_by_saturation_k, Dimension.TEMPERATURE_DIFFERENCE, system)
    )
    return {
        "setting": window.setting,
        "part": window.part,
        "unit": unit_shown(window.dimension, system).symbol,
        "low": number(window.low, window.dimension, system) if known else None,
        "high": number(window.high, window.dimension, system) if known else None,
        "preferred": number(window.preferred, window.dimension, system),
        "recorded": number(window.recorded, window.dimension, system),
        "verdict": verdict_word(window.verdict.code),
        "severity": severity_word(window.severity),
        "out_by": number(window.out_by, Dimension.PRESSURE_DIFFERENCE, system),
        "out_by_saturation": saturation,
        "low_reason": words.low_reason,
        "high_reason": words.high_reason,
        "conflict": words.conflict,
        "ways_out": list(words.ways_out),
        "reason": words.reason,
        "formulas": list(words.formulas),
        "sources": [str(source) for source in words.sources],
    }
