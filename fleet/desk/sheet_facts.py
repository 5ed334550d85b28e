"""What is recorded of one system, as people read it; what is not recorded is said in words."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from db.models import Box, Customer, SettingRecord, Site, System
from fleet.desk.derivation import Derivation, plain_derivation
from fleet.desk.sentences import day_words
from fleet.desk.sheet_history import record_text
from fleet.dictionary.words import BoxKind, Placement, Strategy
from fleet.properties import REFRIGERANTS
from fleet.units import Dimension, UnitSystem, show

NOT_RECORDED = "not recorded"
Current = Mapping[tuple[str, str], SettingRecord]
"""The latest record of each setting, by part and setting."""
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


@dataclass(frozen=True, slots=True)
class Facts:
    """What `fact_lines` is made of."""

    customer: Customer
    site: Site
    system: System
    boxes: tuple[Box, ...]
    current: Current
    units: UnitSystem


def fact_lines(facts: Facts) -> tuple[FactLine, ...]:
    """Return everything recorded that the windows and the visit need."""
    return (*_place_lines(facts), *_box_lines(facts), *_system_lines(facts), *_setting_lines(facts))


def _line(label: str, value: str | None, *, part: str = "", setting: str = "") -> FactLine:
    shown = value or NOT_RECORDED
    explained = plain_derivation(label, ("recorded", shown), ("from", _COMMON if value else ""))
    return FactLine(label, shown, explained, missing=not value, part=part, setting=setting)


def quantity(
    row: System | Box | Site, name: str, dimension: Dimension, units: UnitSystem
) -> str:
    """Return a quantity as typed, else converted; empty where nothing is recorded."""
    typed = row.typed.get(name, "")
    if typed:
        return str(typed)
    value = getattr(row, f"{name}_{dimension.suffix}")
    return "" if value is None else show(value, dimension, units)


def _place_lines(facts: Facts) -> Iterator[FactLine]:
    yield _line("customer", facts.customer.name)
    yield _line("site", facts.site.name or facts.site.site)
    name = facts.system.name
    yield _line("system", f"{facts.system.system}, {name}" if name else facts.system.system)
    yield _line("installed", None if facts.system.installed is None else day_words(facts.system.installed))


def _box_lines(facts: Facts) -> Iterator[FactLine]:
    for box in facts.boxes:
        kind = BoxKind(box.kind).words if box.kind else "kind not recorded"
        stored = f", {box.stored.replace('-', ' ')}" if box.stored else ""
        yield _line(f"box {box.box}", f"{kind}{stored}")
        for code in _OF_BOX:
            yield _setting_line(facts, box.box, code, code)
        basis = f" on {box.td_basis}" if box.td_basis else ""
        source = f", {box.td_source}" if box.td_source else ""
        td = quantity(box, "td", Dimension.TEMPERATURE_DIFFERENCE, facts.units)
        yield _line("TD", td and f"{td}{basis}{source}")


def _setting_line(facts: Facts, part: str, code: str, label: str) -> FactLine:
    record = facts.current.get((part, code))
    value = None if record is None or record.value_si is None else record_text(record, facts.units)
    return _line(label, value, part=part, setting=code)


def _system_lines(facts: Facts) -> Iterator[FactLine]:
    system, units = facts.system, facts.units
    yield _line("refrigerant", system.refrigerant)
    yield _line("charge", quantity(system, "charge", Dimension.MASS, units))
    yield _line("strategy", Strategy(system.strategy).words if system.strategy else None)
    yield _line("control", system.low_pressure_control)
    yield _line("start delay", system.start_delay)
    yield _line("hold test", system.hold_test)
    yield _line("placement", Placement(system.placement).words if system.placement else None)
    yield _line("design cold", quantity(facts.site, "design_cold", Dimension.TEMPERATURE, units))
    yield _line("extreme cold", quantity(facts.site, "extreme_cold", Dimension.TEMPERATURE, units))
    if system.placement not in {None, Placement.OUTDOOR.value}:
        yield _line("room lowest", quantity(system, "room_low", Dimension.TEMPERATURE, units))
    yield _line("receiver", _receiver(facts))
    yield _line("line loss", quantity(system, "line_loss", Dimension.TEMPERATURE_DIFFERENCE, units))
    yield _line("elevation", quantity(facts.site, "elevation", Dimension.LENGTH, units))


def _receiver(facts: Facts) -> str | None:
    system = facts.system
    hold = quantity(system, "receiver_hold", Dimension.TEMPERATURE, facts.units)
    parts = (
        system.receiver_place,
        f"held at {hold}" if hold else "",
        f"heater {system.receiver_heater}" if system.receiver_heater else "",
    )
    return ", ".join(part for part in parts if part) or None


def _setting_lines(facts: Facts) -> Iterator[FactLine]:
    for (part, code), record in facts.current.items():
        if code in _OTHER_SETTINGS or code in _OF_BOX or record.value_si is None:
            continue
        label = f"{part} {code.replace('_', ' ')}".strip()
        yield _line(label, record_text(record, facts.units))


def headline(facts: Facts) -> tuple[str, ...]:
    """Return the facts that stay in sight, the most telling first."""
    system, units = facts.system, facts.units
    boxes = [
        f"{BoxKind(box.kind).words if box.kind else 'box'}{_at(facts, box)}" for box in facts.boxes[:1]
    ]
    more = f" and {len(facts.boxes) - 1} more" if len(facts.boxes) > 1 else ""
    elevation = quantity(facts.site, "elevation", Dimension.LENGTH, units)
    return (
        f"{boxes[0]}{more}" if boxes else "no box recorded",
        system.refrigerant or "refrigerant not recorded",
        Strategy(system.strategy).words if system.strategy else "strategy not recorded",
        Placement(system.placement).words if system.placement else "place not recorded",
        elevation or "elevation not recorded",
        quantity(system, "charge", Dimension.MASS, units) or "charge not recorded",
    )


def _at(facts: Facts, box: Box) -> str:
    record = facts.current.get((box.box, "setpoint"))
    return "" if record is None or record.value_si is None else f" {record_text(record, facts.units)}"


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


def freezer_cautions(facts: Facts) -> tuple[str, ...]:
    """Return the caution for boxes that one can be locked into in the cold."""
    if any(box.kind == BoxKind.WALK_IN_FREEZER for box in facts.boxes):
        return ("Working alone in a freezer: try the door release and the alarm first.",)
    return ()
