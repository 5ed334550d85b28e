"""Windows in words: why each bound stands where it does, what is wrong, and the ways out.

Sentences are made only for rows that are shown, from the same columns that made the numbers.
"""

from dataclasses import dataclass

import numpy as np

from fleet.dictionary.words import Placement, Severity, Verdict
from fleet.sources import Source, source
from fleet.targets.assumed import assumed
from fleet.targets.bounds import Bind
from fleet.targets.columns import FleetColumns
from fleet.targets.facts import Fact, boxes_named, facts_of, shown
from fleet.targets.floor import CARBON_DIOXIDE
from fleet.targets.judge import Judged
from fleet.targets.lowpressure import LowPressure
from fleet.targets.missing import Missing, labels
from fleet.targets.table import CONSTRAINTS, Constraint
from fleet.targets.ways_out import ways_out
from fleet.units import UnitSystem


@dataclass(frozen=True, slots=True)
class Explanation:
    """One window in words."""

    low_reason: str
    high_reason: str
    conflict: str
    ways_out: tuple[str, ...]
    reason: str
    """What is wrong with the recorded value, empty where nothing is."""
    assumed: tuple[str, ...]
    formulas: tuple[str, ...]
    sources: tuple[Source, ...]
    facts: dict[str, Fact]
    texts: dict[str, str]
    """The facts as people read them, and the boxes that set the bounds."""


def explain(
    fleet: FleetColumns, found: LowPressure, judged: Judged, row: int, system: UnitSystem
) -> Explanation:
    """Return one window of one system in words, with the numbers in the unit system asked for."""
    facts = facts_of(fleet, found, judged, row)
    texts = shown(facts, system) | boxes_named(fleet, found, int(judged.owner[row]))
    known = judged.verdict[row] not in {Verdict.NOT_KNOWN.code, Verdict.NOT_APPLICABLE.code}
    low = CONSTRAINTS.get(Bind(int(judged.low_code[row]))) if known else None
    high = CONSTRAINTS.get(Bind(int(judged.high_code[row]))) if known else None
    low_reason, high_reason = _sentence(low, texts), _sentence(high, texts)
    empty = judged.verdict[row] == Verdict.NO_WINDOW.code
    binding = tuple(constraint for constraint in (low, high) if constraint is not None)
    return Explanation(
        low_reason=low_reason,
        high_reason=high_reason,
        conflict=_conflict(found, judged, row, texts) if empty else "",
        ways_out=ways_out(fleet, found, judged, row) if empty else (),
        reason=_what_is_wrong(fleet, found, judged, row, texts, low_reason, high_reason),
        assumed=assumed(fleet, found, int(judged.owner[row]), system) if known else (),
        formulas=tuple(constraint.formula for constraint in binding),
        sources=tuple(source(code) for code in dict.fromkeys(c for b in binding for c in b.sources)),
        facts=facts,
        texts=texts,
    )


def _sentence(constraint: Constraint | None, texts: dict[str, str]) -> str:
    return "" if constraint is None else constraint.sentence.format_map(texts)


def _conflict(found: LowPressure, judged: Judged, row: int, texts: dict[str, str]) -> str:
    system = int(judged.owner[row])
    if judged is found.cut_in and found.case.pressure_cycling[system]:
        if found.side.soak_k[system] < found.running.call_k[system]:
            return (
                "{calling_box} calls at {call}, but condenser and receiver soak to {soak}: the low side "
                "never reaches cut-in, and the box warms."
            ).format_map(texts)
        return "The lowest cut-in, {low}, stands above the highest, {high}.".format_map(texts)
    if judged is found.cut_in:
        return (
            "At most {high} comes back with the margin kept; there is no room for a smallest differential "
            "above the lowest cut-out, {floor}."
        ).format_map(texts)
    return "The lowest cut-out, {low}, stands above the highest, {high}.".format_map(texts)


def _what_is_wrong(
    fleet: FleetColumns,
    found: LowPressure,
    judged: Judged,
    row: int,
    texts: dict[str, str],
    low_reason: str,
    high_reason: str,
) -> str:
    verdict = judged.verdict[row]
    if verdict == Verdict.NOT_KNOWN.code:
        return _not_known(int(judged.missing[row]))
    if verdict == Verdict.NOT_RECORDED.code:
        return "Not recorded, which never reads as good."
    if verdict == Verdict.CONFLICTING.code:
        return _conflicting(fleet, found, int(judged.owner[row]), texts)
    if verdict == Verdict.NO_WINDOW.code:
        return "There is no window. " + _conflict(found, judged, row, texts)
    if judged is found.cut_in:
        return _cut_in_wrong(fleet, found, row, texts, low_reason, high_reason)
    if verdict == Verdict.ABOVE.code:
        return high_reason
    if verdict != Verdict.BELOW.code:
        return ""
    return low_reason + (_danger(fleet, judged, row) if judged.severity[row] == Severity.ACT_NOW else "")


def _not_known(missing: int) -> str:
    if missing == Missing.OUTSIDE_TABLE:
        return "Not known: a temperature lies outside the refrigerant's saturation table."
    return f"Not known without: {', '.join(labels(missing & ~int(Missing.OUTSIDE_TABLE)))}."


def _danger(fleet: FleetColumns, judged: Judged, row: int) -> str:
    if fleet.systems.refrigerant[judged.owner[row]] == CARBON_DIOXIDE:
        return " Dry ice in the low side blocks it, and bursts it when it warms."
    return " Air that is drawn in can make a flammable mixture with this refrigerant."


def _cut_in_wrong(
    fleet: FleetColumns,
    found: LowPressure,
    row: int,
    texts: dict[str, str],
    low_reason: str,
    high_reason: str,
) -> str:
    judged = found.cut_in
    if found.above_at_extreme[row]:
        return (
            "Sound at design cold; on the coldest day in years, {soak_extreme}, the low side reaches only "
            "{reach_extreme} and cut-in waits for warmer weather."
        ).format_map(texts)
    if judged.verdict[row] == Verdict.BELOW.code:
        return low_reason
    if judged.verdict[row] != Verdict.ABOVE.code:
        return ""
    if judged.severity[row] != Severity.ACT_NOW:
        return high_reason if found.case.pressure_cycling[row] else "No margin left. " + high_reason
    if found.side.call_delay[row]:
        template = (
            "Even where {stopping_box} stops the pressure is only {stop_pressure}: cut-in at {recorded} lies "
            "above it."
        )
    elif found.side.soak_k[row] < found.running.call_k[row]:
        template = _NO_RESTART[_what_is_cold(fleet, found, row)]
    else:
        template = (
            "{calling_box} calls at {call}, where the low side reaches {reach}: at {recorded} the "
            "compressor starts only when it has warmed to {recorded_saturation}."
        )
    return template.format_map(texts)


_NO_RESTART = {
    "weather": "With condenser and receiver at {soak} the low side reaches only {reach}: at {recorded} the "
    "compressor does not restart until the weather warms.",
    "room": "With condenser and receiver at {soak} the low side reaches only {reach}: at {recorded} the "
    "compressor does not restart until the room warms.",
    "receiver": "The receiver, held at {soak}, gives only {reach}: at {recorded} the compressor does not "
    "restart.",
}


def _what_is_cold(fleet: FleetColumns, found: LowPressure, row: int) -> str:
    if found.cut_in.high_code[row] == Bind.RESTART_HELD:
        return "receiver"
    outdoors = fleet.systems.design_cold_k[row] == found.side.soak_k[row]
    return "weather" if outdoors or fleet.systems.placement[row] == Placement.OUTDOOR.code else "room"


def _conflicting(fleet: FleetColumns, found: LowPressure, system: int, texts: dict[str, str]) -> str:
    cut_in, cut_out = found.cut_in.recorded[system], found.cut_out.recorded[system]
    if cut_out >= cut_in:
        return "Cut-out at or above cut-in: no control can be set so; read both again by gauge."
    if not np.isnan(fleet.systems.low_pressure_differential_pa[system]):
        return "The recorded differential, {recorded}, is not cut-in minus cut-out.".format_map(texts)
    return ""
