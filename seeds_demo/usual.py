"""What is usual of systems and boxes, so that a customer's page tells only what is particular.

Every value is invented for the demo. Any column of the register may be given by name; an empty
string leaves the cell unfilled.
"""

from seeds_demo.parts import Box, Cells, Compressor, CompressorCutOut, Part, System

RECYCLING, ONE_TIME = "recycling-pump-down", "one-time-pump-down"
PRESSURE, THERMOSTAT, RACK = "pressure-cycling", "thermostat-cycling", "remote-rack"

_SYSTEM: Cells = {
    "form": "split",
    "status": "in-service",
    "end_use": "commercial",
    "low_pressure_control": "fitted",
    "low_pressure_sensor": "vented",
    "low_pressure_reset": "automatic",
    "start_delay": "none",
    "critically_charged": "no",
    "receiver_heater": "none",
    "charge_source": "weighed",
    "leak_detection": "none",
}
OUTDOORS: Cells = {"placement": "outdoor", "receiver_place": "outdoor"}
INDOORS: Cells = {"placement": "indoor-heated", "receiver_place": "indoor", "room_low": "60F"}
INDOORS_METRIC: Cells = {**INDOORS, "room_low": "16C"}
PLUG_IN: Cells = {
    **INDOORS,
    "form": "self-contained",
    "low_pressure_control": "none",
    "low_pressure_sensor": "",
    "low_pressure_reset": "",
    "critically_charged": "yes",
    "sealed_labelled": "yes",
    "solenoid": "none",
    "charge_source": "maker",
    "line_loss": "0F",
}
_COMPRESSOR: Cells = {"crankcase_heater": "working", "heater_watts": "70W", "size": "medium"}
_BOX: Cells = {
    "td_basis": "dew",
    "td_source": "design",
    "thermostat_scale": "stops-at",
    "regulator": "none",
    "expansion_valve": "conventional",
    "surroundings": "room",
    "doors": "closed",
    "traffic": "usual",
}


def _filled(*layers: Cells) -> dict[str, str]:
    """Lay cells over cells and drop the empty ones."""
    together: dict[str, str] = {}
    for layer in layers:
        together.update(layer)
    return {name: cell for name, cell in together.items() if cell}


def semi(position: int = 1, **cells: str) -> Compressor:
    """Return a semi-hermetic compressor."""
    return Compressor(position, "semi-hermetic", _filled(_COMPRESSOR, cells))


def scroll(position: int = 1, **cells: str) -> Compressor:
    """Return a scroll compressor whose maker states a lowest suction pressure."""
    return Compressor(position, "scroll", _filled(_COMPRESSOR, {"lowest_suction": "12psia"}, cells))


def hermetic(position: int = 1, **cells: str) -> Compressor:
    """Return a small hermetic compressor without a crankcase heater."""
    none = {"crankcase_heater": "none", "heater_watts": "", "size": "small"}
    return Compressor(position, "hermetic-reciprocating", _filled(_COMPRESSOR, none, cells))


def system(
    tag: str,
    name: str,
    refrigerant: str,
    strategy: str,
    *parts: Part,
    age: int | None = None,
    idle: int | None = None,
    read_with: str = "gauge",
    place: Cells = OUTDOORS,
    **cells: str,
) -> System:
    """Return a system; without a compressor among ``parts`` it has one semi-hermetic."""
    if not any(isinstance(part, Compressor) for part in parts):
        parts = (*parts, semi())
    named = {"name": name, "refrigerant": refrigerant, "strategy": strategy}
    solenoid = {"solenoid": "none" if strategy == PRESSURE else "fitted"}
    if idle is not None:
        solenoid["status"] = "idle"
    if age is None:
        # Somewhere between three and eleven years, always the same for the same system.
        age = 1200 + sum(ord(character) * 37**place for place, character in enumerate(tag + name)) % 3000
    return System(tag, _filled(_SYSTEM, place, solenoid, named, cells), parts, age, idle, read_with)


def split(
    tag: str,
    name: str,
    refrigerant: str,
    cut_in: str,
    cut_out: str,
    *parts: Part,
    strategy: str = RECYCLING,
    age: int | None = None,
    idle: int | None = None,
    read_with: str = "gauge",
    place: Cells = OUTDOORS,
    **cells: str,
) -> System:
    """Return a split system outdoors with a low-pressure control, under a recycling pump-down if not told."""
    pair = {"low_pressure_cut_in": cut_in, "low_pressure_cut_out": cut_out, **cells}
    return system(
        tag, name, refrigerant, strategy, *parts, age=age, idle=idle, read_with=read_with, place=place, **pair
    )


def plug_in(
    tag: str, name: str, refrigerant: str, charge: str, *parts: Part, age: int | None = None, **cells: str
) -> System:
    """Return a self-contained cabinet with a critical charge and no low-pressure control."""
    if not any(isinstance(part, Compressor) for part in parts):
        parts = (*parts, hermetic())
    own = {"charge": charge, **cells}
    return system(
        tag, name, refrigerant, THERMOSTAT, *parts, age=age, idle=None, read_with="", place=PLUG_IN, **own
    )


def rack(
    tag: str,
    name: str,
    refrigerant: str,
    *parts: Part,
    age: int | None = None,
    place: Cells = INDOORS,
    **cells: str,
) -> System:
    """Return a remote rack: suction groups, several compressors each with its own cut-out."""
    own = {"form": "rack", "low_pressure_reset": "", **cells}
    return system(tag, name, refrigerant, RACK, *parts, age=age, idle=None, place=place, **own)


def with_cut_out(compressor: Compressor, value: str) -> tuple[Part, Part]:
    """Return a rack's compressor together with its own cut-out."""
    return compressor, CompressorCutOut(compressor.position, value)


def _box(kind: str, tag: str, setpoint: str, differential: str, td: str, usual: Cells, cells: Cells) -> Box:
    own = {"kind": kind, "setpoint": setpoint, "differential": differential, "td": td}
    return Box(tag, _filled(_BOX, usual, own, cells))


_COOLED: Cells = {"defrost_method": "off-cycle", "fans": "always", "stored": "general"}
_FROZEN: Cells = {
    "defrost_method": "electric",
    "fans": "off-in-defrost",
    "stored": "frozen-food",
    "defrosts_per_day": "4",
    "defrost_failsafe": "40min",
}


def cooler(
    setpoint: str = "36F", differential: str = "4F", tag: str = "B1", td: str = "10F", **cells: str
) -> Box:
    """Return a walk-in cooler."""
    return _box("walk-in-cooler", tag, setpoint, differential, td, _COOLED, cells)


def freezer(
    setpoint: str = "-5F", differential: str = "4F", tag: str = "B1", td: str = "9F", **cells: str
) -> Box:
    """Return a walk-in freezer with electric defrost."""
    return _box("walk-in-freezer", tag, setpoint, differential, td, _FROZEN, cells)


def reach_in(
    setpoint: str = "36F", differential: str = "4F", tag: str = "B1", td: str = "18F", **cells: str
) -> Box:
    """Return a reach-in cooler."""
    return _box(
        "reach-in-cooler", tag, setpoint, differential, td, {**_COOLED, "stored": "prepared-food"}, cells
    )


def reach_in_freezer(
    setpoint: str = "-4F", differential: str = "5F", tag: str = "B1", td: str = "18F", **cells: str
) -> Box:
    """Return a reach-in freezer."""
    return _box("reach-in-freezer", tag, setpoint, differential, td, _FROZEN, cells)


def case(
    setpoint: str = "34F", differential: str = "4F", tag: str = "B1", td: str = "10F", **cells: str
) -> Box:
    """Return a medium-temperature display case."""
    usual = {**_COOLED, "defrost_method": "timed-off-cycle", "doors": "open"}
    return _box("display-case-medium", tag, setpoint, differential, td, usual, cells)


def frozen_case(
    setpoint: str = "-8F", differential: str = "4F", tag: str = "B1", td: str = "8F", **cells: str
) -> Box:
    """Return a low-temperature display case."""
    return _box(
        "display-case-low", tag, setpoint, differential, td, {**_FROZEN, "defrosts_per_day": "2"}, cells
    )


def room(
    setpoint: str = "50F", differential: str = "4F", tag: str = "B1", td: str = "16F", **cells: str
) -> Box:
    """Return a preparation room."""
    return _box("preparation-room", tag, setpoint, differential, td, _COOLED, cells)
