"""How a number came about: formula, the values in it, the reason, and whose authority stands behind it."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from string import Formatter

from fleet.desk.sentences import judged_row
from fleet.desk.windows import SystemWindows, Window
from fleet.dictionary.words import Verdict
from fleet.sources import Source, source
from fleet.targets.bounds import Bind
from fleet.targets.facts import Fact
from fleet.targets.table import CONSTRAINTS, Constraint
from fleet.units import Dimension, UnitSystem, show

PREVAILS = "The data plate, the maker's manual and local code prevail over every number here."
_DIFFERENCE, _DEGREES = Dimension.PRESSURE_DIFFERENCE, Dimension.TEMPERATURE_DIFFERENCE
_OWN_BOUNDS = {"low", "high", "recorded", "preferred"}
_PREFERRED = {
    "low_pressure_cut_in": "preferred cut-out plus preferred differential, moved inside the window",
    "low_pressure_cut_out": "5 psig medium temperature, 2 psig low temperature, R-744 P(SST_comp − 10 °F), "
    "moved inside the window",
    "low_pressure_differential": "10 psi, or the smallest differential if that is larger",
}
_PREFERRED_PRESSURE_CYCLING = {
    "low_pressure_cut_in": "P(T_call), moved inside the window",
    "low_pressure_cut_out": "P(T_stop − TD − loss), moved inside the window",
    "low_pressure_differential": "preferred cut-in less preferred cut-out",
}


@dataclass(frozen=True, slots=True)
class Derivation:
    """How something came about: a title, then lines of a label and a text."""

    title: str
    lines: tuple[tuple[str, str], ...]


def explain_window(computed: SystemWindows, window: Window, units: UnitSystem, typed: str = "") -> Derivation:
    """Return how the window of a setting came about; ``typed`` is the recorded value as it was typed."""
    name = setting_name(window.part, window.target.label)
    verdict = Verdict(window.verdict).words
    lines = [("recorded", _recorded(window, units, typed)), ("verdict", _verdict(window, verdict, units))]
    if window.words.reason:
        lines.append(("", window.words.reason))
    lines += [("conflict", window.words.conflict)] if window.words.conflict else []
    if window.words.ways_out:
        lines.append(("ways out", "; ".join(window.words.ways_out)))
    lines += _bounds(computed, window, units)
    lines += [("assumed", text) for text in window.words.assumed]
    lines.append(("", PREVAILS))
    return Derivation(f"How {name} is judged", tuple(lines))


def _recorded(window: Window, units: UnitSystem, typed: str) -> str:
    if window.recorded != window.recorded:
        return "not recorded"
    text = show(window.recorded, window.dimension, units)
    return f"{text}, typed {typed}" if typed and typed.replace(" ", "") != text.replace(" ", "") else text


def _verdict(window: Window, verdict: str, units: UnitSystem) -> str:
    if window.out_by != window.out_by:
        return verdict
    out = Fact(abs(window.out_by), _DIFFERENCE).shown(units)
    degrees = window.out_by_saturation_k
    if degrees != degrees:
        return f"{verdict}, by {out}"
    return f"{verdict}, by {out}, {Fact(abs(degrees), _DEGREES).shown(units)} of saturation temperature"


def _bounds(computed: SystemWindows, window: Window, units: UnitSystem) -> Iterator[tuple[str, str]]:
    judged, row = judged_row(computed.fleet, computed.found, 0, window.setting, window.part)
    if row is None or window.verdict in {Verdict.NOT_KNOWN, Verdict.NOT_APPLICABLE}:
        return
    sides = (("highest", window.high, judged.high_code[row]), ("lowest", window.low, judged.low_code[row]))
    for name, value, code in sides:
        yield name, Fact(value, window.dimension).shown(units)
        constraint = CONSTRAINTS.get(Bind(int(code)))
        if constraint is not None:
            yield from _constraint(constraint, window)
    if window.preferred == window.preferred:
        yield "preferred", show(window.preferred, window.dimension, units)
        cycling = bool(computed.found.case.pressure_cycling[0])
        rule = (_PREFERRED_PRESSURE_CYCLING if cycling else _PREFERRED).get(window.setting)
        if rule and not window.part:
            yield "formula", rule
        yield "source", source_line(source("preferred_pair"))


def _constraint(constraint: Constraint, window: Window) -> Iterator[tuple[str, str]]:
    texts = window.words.texts
    yield "reason", constraint.sentence.format_map(texts)
    yield "formula", constraint.formula
    values = [
        f"{window.words.facts[name].label or name} {texts[name]}"
        for name in _facts_in(constraint)
        if name in window.words.facts
    ]
    if values:
        yield "with", "; ".join(values)
    for code in constraint.sources:
        yield "source", source_line(source(code))


def _facts_in(constraint: Constraint) -> Sequence[str]:
    parsed = Formatter().parse(constraint.sentence)
    named = [name for _, name, _, _ in parsed if name and name not in _OWN_BOUNDS]
    return list(dict.fromkeys(named))


def setting_name(part: str, label: str) -> str:
    """Return a setting with its part, as people call it.

    >>> setting_name("group A", "group suction"), setting_name("", "cut-in")
    ('group A suction', 'cut-in')
    """
    return f"{part} {label.removeprefix('group ') if part.startswith('group ') else label}".strip()


def source_line(one: Source) -> str:
    """Return a source with its tag in words: what kind of authority stands behind a number."""
    clause = f", {one.clause}" if one.clause else ""
    return f"{one.tag}, {one.tag.words}: {one.title}{clause}"


def plain_derivation(title: str, *lines: tuple[str, str], sources: Sequence[str] = ()) -> Derivation:
    """Return a derivation of lines that are at hand; empty ones are left out."""
    kept = [(label, text) for label, text in lines if text]
    return Derivation(title, (*kept, *(("source", source_line(source(code))) for code in sources)))
