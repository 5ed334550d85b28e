"""One system typed as options: which options there are, and how their texts are read."""

from collections.abc import Mapping
from dataclasses import dataclass

from fleet.atmosphere import check_elevation
from fleet.dictionary import BOXES, COMPRESSORS, SITES, SYSTEMS, Column
from fleet.dictionary.kinds import Measure, Value
from fleet.errors import InputError, UsageError
from fleet.targets.columns import BoxColumns, CompressorColumns, GroupColumns, SystemColumns
from fleet.units import Dimension, Quantity


@dataclass(frozen=True, slots=True)
class TargetOption:
    """One option of `coldround targets`."""

    name: str
    flags: tuple[str, ...]
    column: Column
    required: bool = False

    @property
    def metavar(self) -> str:
        """What the help shows for the value."""
        return "QUANTITY" if isinstance(self.column.kind, Measure) else "WORD"

    @property
    def help(self) -> str:
        """What the help says of the option."""
        return self.column.kind.accepted


_ALIASES = {"low_pressure_cut_in": "--cut-in", "low_pressure_cut_out": "--cut-out"}
_REQUIRED = {"refrigerant", "strategy"}
_NO_WINDOW_USES = frozenset(
    {"form", "status", "critically_charged", "crankcase_heater", "installed", "system", "position"}
)
"""Columns that other parts of the audit read from the same arrays."""
_ACCEPTED_TOO = frozenset({"design_hot"})
"""Columns that no window of the low-pressure control uses, and that describe a system all the same."""
_USED = {
    *SystemColumns.__slots__,
    *BoxColumns.__slots__,
    *GroupColumns.__slots__,
    *CompressorColumns.__slots__,
}


def _options() -> tuple[TargetOption, ...]:
    found: dict[str, TargetOption] = {}
    for file in (SYSTEMS, SITES, BOXES, COMPRESSORS):
        for column in file.all_columns:
            of_compressor = file is COMPRESSORS and column.name == "kind"
            name = "compressor" if of_compressor else column.name
            wanted = column.attribute in _USED or name in _ACCEPTED_TOO
            if not wanted or name in _NO_WINDOW_USES or name in found:
                continue
            flags = ["--" + name.replace("_", "-")]
            if name in _ALIASES:
                flags.insert(0, _ALIASES[name])
            found[name] = TargetOption(name, tuple(flags), column, name in _REQUIRED)
    return tuple(found.values())


TARGET_OPTIONS: tuple[TargetOption, ...] = _options()
_OPTION_BY_NAME = {option.name: option for option in TARGET_OPTIONS}


def read_cells(typed: Mapping[str, str | None]) -> dict[str, Value]:
    """Read typed options; sea level is taken where no elevation is given.

    Raises:
        InputError: an option holds what it cannot accept; the message names option and value.
    """
    cells: dict[str, Value] = {}
    for name, text in typed.items():
        if text is not None:
            cells[name] = _read(_OPTION_BY_NAME[name], text)
    cells.setdefault("elevation", Quantity(0.0, Dimension.LENGTH, "0ft"))
    elevation = cells["elevation"]
    assert isinstance(elevation, Quantity)
    check_elevation(elevation.value_si)
    low, high = cells.get("td_low"), cells.get("td_high")
    if isinstance(low, Quantity) and isinstance(high, Quantity) and low.value_si > high.value_si:
        raise UsageError(f"--td-low {low.text} is above --td-high {high.text}.", where="--td-low")
    return cells


def _read(option: TargetOption, text: str) -> Value:
    try:
        return option.column.kind.read(text)
    except InputError as error:
        error.where = option.flags[-1]
        error.message = f"{option.flags[-1]} {text!r}: {error.message}"
        raise
