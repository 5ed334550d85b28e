"""The form for correcting settings: which settings it holds, and what each typed text would mean."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime

import numpy as np

from db.columns import fetch_systems
from db.sheet import SettingEntry, SystemSheet
from fleet.desk.axis import PressureAxis, WindowRow, pressure_axis, window_rows
from fleet.desk.correcting import Correction, Key, open_findings, preview
from fleet.desk.opened import Desk
from fleet.desk.sentences import day_words
from fleet.desk.sheet import recorded
from fleet.desk.sheet_facts import quantity
from fleet.desk.sheet_history import record_text
from fleet.desk.windows import SystemWindows, Window
from fleet.dictionary.settings import SETTING_BY_CODE
from fleet.dictionary.words import Strategy, Verdict
from fleet.errors import ChangedMeanwhileError, InputError
from fleet.properties import dew_temperature_k
from fleet.targets.columns import FleetColumns
from fleet.units import Dimension, UnitSystem, show

PAIR = ("low_pressure_cut_in", "low_pressure_cut_out", "low_pressure_differential")
OF_BOX = ("setpoint", "differential")
NO_VALUE = "—"
"""Stands for a differential while cut-in or cut-out is no quantity."""
_DIFFERENCE = "low_pressure_differential"


@dataclass(frozen=True, slots=True)
class Earlier:
    """One earlier value of a setting."""

    day: str
    who: str
    value: str
    how: str


@dataclass(frozen=True, slots=True)
class FormField:
    """One setting of the form."""

    part: str
    setting: str
    label: str
    recorded: str
    """As typed, empty where nothing is recorded."""
    earlier: tuple[Earlier, ...]

    @property
    def key(self) -> Key:
        """Part and setting."""
        return self.part, self.setting


@dataclass(frozen=True, slots=True)
class Form:
    """What is needed to correct the settings of one system while typing."""

    system_id: int
    site: str
    system: str
    about: tuple[str, ...]
    fields: tuple[FormField, ...]
    people: tuple[str, ...]
    fleet: FleetColumns
    seen: int
    """The input version that was read; saving compares it."""
    open: frozenset[Key]
    """Settings with an open finding."""


@dataclass(frozen=True, slots=True)
class FieldVerdict:
    """How the setting under the cursor would stand."""

    severity: int
    severity_words: str
    inside: bool
    text: str


@dataclass(frozen=True, slots=True)
class FormLook:
    """The form as typed so far."""

    windows: Mapping[Key, WindowRow]
    found: Mapping[Key, float]
    """Values as found, in the unit of the axis."""
    left: Mapping[Key, str]
    """What the differential comes to where it was not typed."""
    axis: PressureAxis | None
    problems: Mapping[Key, str]
    """Why a text is no value, by setting; a value as found or as left."""
    computed: SystemWindows


def form(desk: Desk, system_id: int, focus: Key | None = None) -> Form:
    """Read what the form of one system holds; ``focus`` is the part and setting one came from.

    Raises:
        ChangedMeanwhileError: the system is no longer in the register, or no longer in use.
    """
    with desk.engine.connect() as connection:
        read = recorded(connection, system_id)
        fleet = fetch_systems(connection, [system_id])
    system = read.system["system"]
    if not len(fleet):
        raise ChangedMeanwhileError(f"{system} is taken out of use; it has nothing to correct.")
    keys = _keys(read, fleet, focus)
    of_box = next((part for part, code in keys if code in OF_BOX), "")
    return Form(
        system_id=system_id,
        site=read.site["site"],
        system=f"{system} {of_box}".strip(),
        about=_about(read, desk.units),
        fields=tuple(_field(read, key, desk.units) for key in keys),
        people=desk.people(),
        fleet=fleet,
        seen=read.system["input_version"],
        open=frozenset((part, setting) for part, _, setting in open_findings(desk, system_id)),
    )


def _keys(read: SystemSheet, fleet: FleetColumns, focus: Key | None) -> list[Key]:
    """Return the settings of a box where one came from one, else those of the low-pressure control."""
    if focus is not None and focus[0] in fleet.box_tags and focus[1] in OF_BOX:
        return [(focus[0], code) for code in OF_BOX]
    if read.system["strategy"] != Strategy.RACK.value:
        return [("", code) for code in PAIR]
    groups = [(f"group {tag}", "group_suction") for tag in fleet.group_tags]
    positions = dict.fromkeys(fleet.compressors.position.tolist())
    return groups + [(f"compressor {position}", "low_pressure_cut_out") for position in positions]


def _about(read: SystemSheet, units: UnitSystem) -> tuple[str, ...]:
    cold = quantity(read.site, "design_cold", Dimension.TEMPERATURE, units)
    strategy = read.system["strategy"]
    return (
        read.system["refrigerant"] or "refrigerant not recorded",
        Strategy(strategy).words if strategy else "strategy not recorded",
        f"design cold {cold}" if cold else "design cold not recorded",
    )


def _field(read: SystemSheet, key: Key, units: UnitSystem) -> FormField:
    part, setting = key
    kind, entry = SETTING_BY_CODE[setting], read.setting(part, setting)
    of_box = setting in OF_BOX
    return FormField(
        part=part,
        setting=setting,
        label=(kind.label if of_box else part or kind.label).removeprefix("LP "),
        recorded="" if entry is None else record_text(entry, units),
        earlier=tuple(_earlier(one, units) for one in read.history if (one.part, one.setting) == key),
    )


def _earlier(entry: SettingEntry, units: UnitSystem) -> Earlier:
    how = "not confirmed" if entry.confirmed in {None, "none"} else str(entry.confirmed)
    note = f", {entry.note}" if entry.note else ""
    return Earlier(
        day="undated" if entry.recorded_on is None else day_words(entry.recorded_on),
        who=entry.recorded_by or "",
        value=record_text(entry, units),
        how=f"{entry.stage.replace('-', ' ')}, {how}{note}",
    )


# While typing ---------------------------------------------------------------------------------------------


def look(desk: Desk, shown: Form, corrections: Sequence[Correction]) -> FormLook:
    """Return the windows as if what was typed were left, or found where nothing else is left."""
    left = {(c.part, c.setting): c.left.strip() or c.found.strip() for c in corrections}
    followed = _following(shown.fleet, left)
    seen = preview(desk, shown.fleet if followed is None else followed, left)
    problems = {key: _plainer(problem, key, left[key]) for key, problem in seen.problems.items()}
    found: dict[Key, float] = {}
    rows = {row.key: row for row in window_rows(seen.windows, desk.units)}
    for correction in corrections:
        key = (correction.part, correction.setting)
        if not correction.found.strip():
            continue
        one = preview(desk, shown.fleet, {key: correction.found})
        problems |= {
            k: f"as found: {_plainer(v, k, correction.found)}"
            for k, v in one.problems.items()
            if k not in problems
        }
        row = next((r for r in window_rows(one.windows, desk.units) if r.key == key), None)
        if row is not None and row.recorded is not None and not one.problems:
            found[key] = row.recorded
    return FormLook(
        windows=rows,
        found=found,
        left=_implied(shown, seen.windows, left, problems, desk.units),
        axis=pressure_axis(seen.windows, desk.units),
        problems=problems,
        computed=seen.windows,
    )


def _plainer(problem: str, key: Key, text: str) -> str:
    """Return a shorter sentence for the usual slip, a number without its unit."""
    dimensions = SETTING_BY_CODE[key[1]].dimensions
    if (
        not dimensions
        or not text.replace(",", "").replace("−", "-").lstrip("+-").replace(".", "", 1).isdigit()
    ):
        return problem
    return f"Add the unit, like {dimensions[0].example}."


def _following(fleet: FleetColumns, left: Mapping[Key, str]) -> FleetColumns | None:
    """Return the fleet without its recorded differential, while cut-in or cut-out are being typed.

    One of the pair was moved, so the recorded differential no longer says anything; a typed one does.
    """
    moved = left.get(("", PAIR[0])) or left.get(("", PAIR[1]))
    if not moved or left.get(("", _DIFFERENCE)):
        return None
    empty = np.full(len(fleet), np.nan)
    return replace(fleet, systems=replace(fleet.systems, low_pressure_differential_pa=empty))


def _implied(
    shown: Form,
    computed: SystemWindows,
    left: Mapping[Key, str],
    problems: Mapping[Key, str],
    units: UnitSystem,
) -> dict[Key, str]:
    key = ("", _DIFFERENCE)
    window = computed.window(_DIFFERENCE)
    if window is None or left.get(key) or key not in {field.key for field in shown.fields}:
        return {}
    if any(pair in problems for pair in (("", PAIR[0]), ("", PAIR[1]))) or np.isnan(window.recorded):
        return {key: NO_VALUE}
    return {key: show(window.recorded, Dimension.PRESSURE_DIFFERENCE, units)}


def to_save(shown: Form, seen: FormLook, corrections: Sequence[Correction]) -> list[Correction]:
    """Return what saving appends: what was typed, and the differential that follows from it.

    A recorded differential is out of date once cut-in or cut-out was moved; the form shows what it comes
    to, and that is what is recorded. One that was never recorded stays unrecorded.
    """
    typed = [c for c in corrections if c.found.strip() or c.left.strip()]
    key = ("", _DIFFERENCE)
    recorded = next((field.recorded for field in shown.fields if field.key == key), "")
    implied = seen.left.get(key, "")
    moved = any(c.left.strip() and c.setting in PAIR[:2] and not c.part for c in corrections)
    if not (recorded and moved and implied) or implied == NO_VALUE:
        return typed
    found = next((c.found for c in typed if (c.part, c.setting) == key), "")
    others = [c for c in typed if (c.part, c.setting) != key]
    return [*others, Correction("", _DIFFERENCE, found=found, left=implied.replace(" ", ""))]


def verdict_of(desk: Desk, shown: Form, seen: FormLook, key: Key) -> FieldVerdict:
    """Return how a setting stands, in words; of a setting without a window that of the worst window."""
    window = seen.computed.window(key[1], key[0])
    if window is None:
        judged = [w for w in seen.computed.windows if w.severity]
        if not judged:
            return FieldVerdict(0, "", True, "The low-pressure control stays inside its windows.")
        worst = min(judged, key=lambda w: w.severity)
        row = seen.windows[worst.part, worst.setting]
        text = f"{row.label}: {_distance(desk, seen, worst)}"
        return FieldVerdict(row.severity, row.severity_words, False, text)
    row = seen.windows[key]
    if window.verdict is Verdict.INSIDE and not window.severity:
        settles = " Saving settles the finding." if key in shown.open else ""
        return FieldVerdict(0, "", True, _distance(desk, seen, window) + settles + _opens(shown, seen, key))
    if not window.severity:
        return FieldVerdict(0, "", False, row.reason or f"{window.verdict.words.capitalize()}.")
    text = _distance(desk, seen, window) + _opens(shown, seen, key)
    return FieldVerdict(row.severity, row.severity_words, False, text)


def _opens(shown: Form, seen: FormLook, key: Key) -> str:
    """Return what else would then be a finding and is none now, so that nobody is surprised after saving."""
    rows = (seen.windows[field.key] for field in shown.fields if field.key in seen.windows)
    labels = [row.part or row.label for row in rows if row.severity and row.key not in {key, *shown.open}]
    return f" Then outside: {', '.join(labels)}." if labels else ""


def _distance(desk: Desk, seen: FormLook, window: Window) -> str:
    """Return how far a value stands from its bound: ``4.8 psi, 5.2 °F, above the highest.``"""
    value = window.recorded
    above, below = window.verdict is Verdict.ABOVE, window.verdict is Verdict.BELOW
    if window.verdict is not Verdict.INSIDE and not above and not below:
        return window.words.reason or f"{window.verdict.words.capitalize()}."
    if window.verdict is Verdict.INSIDE and window.severity:
        return window.words.reason
    at_high = above or (not below and np.isfinite(window.high))
    bound, name = (window.high, "highest") if at_high else (window.low, "lowest")
    side = "above" if value > bound else "below"
    if not np.isfinite(bound):
        return "Inside."
    text = show(abs(value - bound), Dimension.PRESSURE_DIFFERENCE, desk.units)
    degrees = _degrees_between(seen.computed, window, value, bound)
    if degrees is not None:
        text += f", {show(degrees, Dimension.TEMPERATURE_DIFFERENCE, desk.units)}"
    return f"{text}, {side} the {name}."


def _degrees_between(computed: SystemWindows, window: Window, one: float, other: float) -> float | None:
    if window.dimension is Dimension.PRESSURE_DIFFERENCE:
        return None
    refrigerant = np.repeat(computed.fleet.systems.refrigerant[:1], 2)
    if refrigerant[0] < 0:
        return None
    kelvin = dew_temperature_k(refrigerant, np.array([one, other]) + computed.sensed_air_pa)
    apart = float(abs(kelvin[1] - kelvin[0]))
    return apart if np.isfinite(apart) else None


def read_day(desk: Desk, text: str) -> date:
    """Read the day of a visit: ``2026-11-25`` or ``25 Nov 2026``.

    Raises:
        InputError: it is no day.
    """
    typed = text.strip()
    for pattern in ("%Y-%m-%d", "%d %b %Y", "%d %B %Y"):
        try:
            return datetime.strptime(typed, pattern).date()
        except ValueError:
            continue
    today = day_words(desk.today)
    raise InputError(f"{typed!r} is no day; expected one like {today} or {desk.today.isoformat()}.")
