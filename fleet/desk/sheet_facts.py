"""What is recorded of one system, as people read it; what is not recorded is said in words."""

from collections.abc import Iterator
from dataclasses import dataclass

from db.sheet import Facts, SystemSheet
from fleet.desk.derivation import Derivation, plain_derivation
from fleet.desk.sentences import day_words
from fleet.desk.sheet_history import record_text
from fleet.dictionary.words import BoxKind, Placement, Strategy
from fleet.properties import REFRIGERANTS
from fleet.units import Dimension, UnitSystem, show

NOT_RECORDED = "not recorded"
_COMMON = "what the register holds, as it was typed"
_OTHER_SETTINGS = {
    "low_pressure_cut_in",
    "low_pressure_cut_out",
    "low_pressure_differential",
    "group_suction",
}
"""Settings that have a section of their own."""
_OF_BOX = ("setpoint", "differential")


@dataclass(frozen=True, slots=True)
class FactLine:
    """One thing recorded, or not."""

    label: str
    value: str
    explained: Derivation
    missing: bool = False
    part: str = ""
    setting: str = ""
    """The setting that a correction from here begins with; empty for a fact."""


def fact_lines(read: SystemSheet, units: UnitSystem) -> tuple[FactLine, ...]:
    """Return everything recorded that the windows and the visit need."""
    return (
        *_place_lines(read),
        *_box_lines(read, units),
        *_system_lines(read, units),
        *_setting_lines(read, units),
    )


def _line(label: str, value: str | None, *, part: str = "", setting: str = "") -> FactLine:
    shown = value or NOT_RECORDED
    explained = plain_derivation(label, ("recorded", shown), ("from", _COMMON if value else ""))
    return FactLine(label, shown, explained, missing=not value, part=part, setting=setting)


def quantity(row: Facts, name: str, dimension: Dimension, units: UnitSystem) -> str:
    """Return a quantity as typed, else converted; empty where nothing is recorded."""
    typed = row["typed"].get(name, "")
    if typed:
        return str(typed)
    value = row[f"{name}_{dimension.suffix}"]
    return "" if value is None else show(value, dimension, units)


def _place_lines(read: SystemSheet) -> Iterator[FactLine]:
    system, name = read.system["system"], read.system["name"]
    installed = read.system["installed"]
    yield _line("customer", read.customer["name"])
    yield _line("site", read.site["name"] or read.site["site"])
    yield _line("system", f"{system}, {name}" if name else system)
    yield _line("installed", None if installed is None else day_words(installed))


def _box_lines(read: SystemSheet, units: UnitSystem) -> Iterator[FactLine]:
    for box in read.boxes:
        kind = BoxKind(box["kind"]).words if box["kind"] else "kind not recorded"
        stored = f", {box['stored'].replace('-', ' ')}" if box["stored"] else ""
        yield _line(f"box {box['box']}", f"{kind}{stored}")
        for code in _OF_BOX:
            yield _setting_line(read, units, box["box"], code)
        basis = f" on {box['td_basis']}" if box["td_basis"] else ""
        source = f", {box['td_source']}" if box["td_source"] else ""
        td = quantity(box, "td", Dimension.TEMPERATURE_DIFFERENCE, units)
        yield _line("TD", td and f"{td}{basis}{source}")


def _setting_line(read: SystemSheet, units: UnitSystem, part: str, code: str) -> FactLine:
    entry = read.setting(part, code)
    return _line(code, None if entry is None else record_text(entry, units), part=part, setting=code)


def _system_lines(read: SystemSheet, units: UnitSystem) -> Iterator[FactLine]:
    system, site = read.system, read.site
    placement = system["placement"]
    yield _line("refrigerant", system["refrigerant"])
    yield _line("charge", quantity(system, "charge", Dimension.MASS, units))
    yield _line("strategy", Strategy(system["strategy"]).words if system["strategy"] else None)
    yield _line("control", system["low_pressure_control"])
    yield _line("start delay", system["start_delay"])
    yield _line("hold test", system["hold_test"])
    yield _line("placement", Placement(placement).words if placement else None)
    yield _line("design cold", quantity(site, "design_cold", Dimension.TEMPERATURE, units))
    yield _line("extreme cold", quantity(site, "extreme_cold", Dimension.TEMPERATURE, units))
    if placement not in {None, Placement.OUTDOOR.value}:
        yield _line("room lowest", quantity(system, "room_low", Dimension.TEMPERATURE, units))
    yield _line("receiver", _receiver(system, units))
    yield _line("line loss", quantity(system, "line_loss", Dimension.TEMPERATURE_DIFFERENCE, units))
    yield _line("elevation", quantity(site, "elevation", Dimension.LENGTH, units))


def _receiver(system: Facts, units: UnitSystem) -> str | None:
    hold = quantity(system, "receiver_hold", Dimension.TEMPERATURE, units)
    heater = system["receiver_heater"]
    parts = (
        system["receiver_place"],
        f"held at {hold}" if hold else "",
        f"heater {heater}" if heater else "",
    )
    return ", ".join(part for part in parts if part) or None


def _setting_lines(read: SystemSheet, units: UnitSystem) -> Iterator[FactLine]:
    for entry in read.settings:
        if entry.setting in _OTHER_SETTINGS or entry.setting in _OF_BOX:
            continue
        label = f"{entry.part} {entry.setting.replace('_', ' ')}".strip()
        yield _line(label, record_text(entry, units))


def headline(read: SystemSheet, units: UnitSystem) -> tuple[str, ...]:
    """Return the facts that stay in sight, the most telling first."""
    system = read.system
    more = f" and {len(read.boxes) - 1} more" if len(read.boxes) > 1 else ""
    elevation = quantity(read.site, "elevation", Dimension.LENGTH, units)
    return (
        f"{_box_words(read, units)}{more}" if read.boxes else "no box recorded",
        system["refrigerant"] or "refrigerant not recorded",
        Strategy(system["strategy"]).words if system["strategy"] else "strategy not recorded",
        Placement(system["placement"]).words if system["placement"] else "place not recorded",
        elevation or "elevation not recorded",
        quantity(system, "charge", Dimension.MASS, units) or "charge not recorded",
    )


def _box_words(read: SystemSheet, units: UnitSystem) -> str:
    box = read.boxes[0]
    entry = read.setting(box["box"], "setpoint")
    kind = BoxKind(box["kind"]).words if box["kind"] else "box"
    return kind if entry is None else f"{kind} {record_text(entry, units)}"


def refrigerant_cautions(name: str | None) -> tuple[str, ...]:
    """Return the cautions that one refrigerant adds (safety groups from memory; rest common practice)."""
    found = next((one for one in REFRIGERANTS if one.name == name), None)
    if found is None:
        return ()
    if found.name == "R-744":
        return (
            "R-744: trapped liquid bursts pipe; below its triple point it turns to dry ice. "
            "Vent as vapour, isolate nothing that is full of liquid.",
        )
    if found.name == "R-717":
        return ("R-717 is toxic and can burn: trained crews only.",)
    if found.flammable:
        return (
            f"{found.name} is flammable ({found.safety_group}): no ignition source, rated tools, only "
            "equipment listed for it, no retrofit of A1 equipment.",
        )
    return ()


def freezer_cautions(read: SystemSheet) -> tuple[str, ...]:
    """Return the caution for boxes that one can be locked into in the cold."""
    if any(box["kind"] == BoxKind.WALK_IN_FREEZER for box in read.boxes):
        return ("Working alone in a freezer: try the door release and the alarm first.",)
    return ()
