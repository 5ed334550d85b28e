"""The settings of a system and its boxes: codes, dimensions, and the part each belongs to.

What each should be is computed in `fleet.targets`; here is only what is recorded.
"""

from dataclasses import dataclass
from enum import StrEnum

from fleet.dictionary.columns import BOX_RANGE, Column, FileKind, choice, day, person, tag, text
from fleet.dictionary.kinds import Choice, Kind, Measure, Number
from fleet.dictionary.words import Confirmed, Stage
from fleet.units import Dimension


class PartKind(StrEnum):
    """What of a system a setting belongs to."""

    SYSTEM = "system"
    SYSTEM_OR_COMPRESSOR = "system or compressor"
    GROUP = "group"
    BOX = "box"


@dataclass(frozen=True, slots=True)
class SettingKind:
    """One setting as it is recorded."""

    code: str
    label: str
    part: PartKind
    dimensions: tuple[Dimension, ...]
    """Empty for a plain count."""
    example: str
    count_unit: str = ""

    @property
    def kind(self) -> Kind:
        """What a cell of this setting holds."""
        if not self.dimensions:
            return Number(0, 100, unit=self.count_unit)
        if self.dimensions == (Dimension.TEMPERATURE,):
            return Measure(self.dimensions, *BOX_RANGE)
        if self.dimensions == (Dimension.TEMPERATURE_DIFFERENCE,):
            return Measure(self.dimensions, 0.0, 50.0, "from 0 to 50 K (90 °F)")
        return Measure(self.dimensions)

    @property
    def column(self) -> Column:
        """The setting as a column of systems.csv or boxes.csv."""
        return Column(self.code, self.kind, False, self.example)

    @property
    def fields(self) -> tuple[str, ...]:
        """The names of its current values inside, one for each dimension."""
        if not self.dimensions:
            return (self.code,)
        return tuple(f"{self.code}_{dimension.suffix}" for dimension in self.dimensions)

    def field_for(self, dimension: Dimension | None) -> str:
        """Return the name inside for a value of ``dimension``."""
        if dimension is None:
            return self.code
        if dimension is Dimension.PRESSURE_ABSOLUTE:
            dimension = Dimension.PRESSURE
        return f"{self.code}_{dimension.suffix}"


_T, _DT = Dimension.TEMPERATURE, Dimension.TEMPERATURE_DIFFERENCE
_P, _DP, _TIME = Dimension.PRESSURE, Dimension.PRESSURE_DIFFERENCE, Dimension.TIME
_SYSTEM, _EITHER, _GROUP, _BOX = (
    PartKind.SYSTEM,
    PartKind.SYSTEM_OR_COMPRESSOR,
    PartKind.GROUP,
    PartKind.BOX,
)

SETTINGS: tuple[SettingKind, ...] = (
    SettingKind("low_pressure_cut_in", "cut-in", _EITHER, (_P,), "15psig"),
    SettingKind("low_pressure_cut_out", "cut-out", _EITHER, (_P,), "5psig"),
    SettingKind("low_pressure_differential", "LP differential", _EITHER, (_DP,), "10psi"),
    SettingKind("high_pressure_cut_out", "high-pressure cut-out", _EITHER, (_P,), "400psig"),
    SettingKind("head_pressure_hold", "head pressure hold", _SYSTEM, (_T, _P), "80F"),
    SettingKind("fan_cycle_differential", "fan cycle differential", _SYSTEM, (_DP,), "35psi"),
    SettingKind("minimum_off", "minimum off time", _EITHER, (_TIME,), "3min"),
    SettingKind("group_suction", "group suction", _GROUP, (_P,), "47psig"),
    SettingKind("regulator_setting", "evaporator pressure regulator", _BOX, (_P,), "55psig"),
    SettingKind("setpoint", "setpoint", _BOX, (_T,), "36F"),
    SettingKind("differential", "differential", _BOX, (_DT,), "2F"),
    SettingKind("defrosts_per_day", "defrosts per day", _BOX, (), "4", "/day"),
    SettingKind("defrost_duration", "defrost duration", _BOX, (_TIME,), "25min"),
    SettingKind("defrost_failsafe", "defrost fail-safe", _BOX, (_TIME,), "40min"),
    SettingKind("defrost_termination", "defrost termination", _BOX, (_T,), "52F"),
    SettingKind("fan_delay", "fan delay", _BOX, (_T, _TIME), "25F"),
    SettingKind("drip_time", "drip time", _BOX, (_TIME,), "3min"),
    SettingKind("alarm_low", "low alarm", _BOX, (_T,), "32F"),
    SettingKind("alarm_high", "high alarm", _BOX, (_T,), "43F"),
    SettingKind("alarm_delay", "alarm delay", _BOX, (_TIME,), "30min"),
)

SETTING_BY_CODE: dict[str, SettingKind] = {setting.code: setting for setting in SETTINGS}

SYSTEM_SETTING_COLUMNS = tuple(s.column for s in SETTINGS if s.part is not _BOX)
BOX_SETTING_COLUMNS = tuple(s.column for s in SETTINGS if s.part is _BOX)

SETTINGS_FILE = FileKind(
    "settings",
    (
        tag("customer", "ALDER"),
        tag("site", "Ridge Street"),
        tag("system", "WC-2"),
        text("part", "", longest=100),
        Column("setting", Choice(tuple(SETTING_BY_CODE)), True, "low_pressure_cut_in"),
        text("value", "15psig", required=True, longest=60),
        choice("stage", Stage, "as-left", required=True),
        day("recorded_on", "2026-03-12", required=True),
        person("recorded_by", "R. Osei"),
        choice("confirmed", Confirmed, "gauge"),
        text("note"),
    ),
    ("customer", "site", "system", "part", "setting", "stage", "recorded_on"),
    "every setting as it was found and as it was left",
)
