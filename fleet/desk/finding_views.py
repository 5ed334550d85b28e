"""One finding ready to be shown: its label, its figures in the desk's units, its bar."""

from dataclasses import dataclass

from db.driver import day_of
from db.pages import FindingRow
from fleet.audit.rules import rule
from fleet.desk.opened import Desk
from fleet.dictionary.words import Severity, Strategy, Verdict
from fleet.targets.missing import label as missing_label
from fleet.targets.table import TARGET_BY_CODE
from fleet.units import Dimension, UnitSystem, figure

SHORT_LABELS = {
    "low_pressure_differential": "LP diff.",
    "evaporator_coil": "evap. coil",
    "condenser_coil": "cond. coil",
    "pressures_superheat": "superheat",
    "crankcase_heater": "heater",
    "pump_down_hold": "hold test",
    "control_sequence": "sequence",
    "receiver_hold": "recv. hold",
}
"""Labels that fit the twelve cells of a list's column."""
_MISSING_LABELS = {
    "low_pressure_cut_in": "cut-in",
    "low_pressure_cut_out": "cut-out",
    "compressor_cut_out": "cut-outs",
    "group_suction": "group",
    "differential": "box diff.",
    "outside_table": "temperature",
}
DAYS_A_CELL = 30.0
"""What one cell of the bar of an overdue check stands for."""
_WINDOW_RULES = {"low_pressure_window", "low_pressure_conflict"}


@dataclass(frozen=True, slots=True)
class Bar:
    """The bar of a row, in one unit; None where there is nothing to draw."""

    low: float | None
    high: float | None
    recorded: float | None
    out: float
    cell: float
    state: str
    """known, none (no window), unknown."""


@dataclass(frozen=True, slots=True)
class FindingView:
    """One finding, ready to be shown."""

    row: FindingRow
    label: str
    """The setting, the check, or the rule, in a few words."""
    figure: str
    unit: str
    out: str
    bar: Bar | None

    @property
    def severity(self) -> int:
        """1 act now to 4 note."""
        return self.row.severity

    @property
    def severity_words(self) -> str:
        """The severity in words."""
        return Severity(self.row.severity).words

    @property
    def system_id(self) -> int:
        """The key of the system."""
        return self.row.system_id

    @property
    def key(self) -> tuple[str, str, str]:
        """Part, rule and setting: what finds it again on the sheet."""
        return self.row.part, self.row.rule, self.row.setting

    @property
    def site_name(self) -> str:
        """The site as people call it."""
        return self.row.site

    @property
    def system_and_part(self) -> str:
        """The system with the part, where it is not the system itself."""
        return f"{self.row.system} {self.row.part}".strip()

    @property
    def strategy_words(self) -> str:
        """The strategy as people read it."""
        return Strategy(self.row.strategy).words if self.row.strategy else "strategy not recorded"


def finding_view(row: FindingRow, desk: Desk) -> FindingView:
    """Return a finding with its figures in the desk's units."""
    if row.rule in _WINDOW_RULES and row.setting != "receiver_hold":
        return _window_view(row, desk.units)
    if row.rule == "check_overdue":
        return _check_view(row, desk)
    if row.rule == "boxes_apart":
        return _apart_view(row, desk.units)
    if row.rule == "not_recorded":
        bar = Bar(None, None, None, 0.0, 1.0, "unknown")
        return FindingView(row, _missing_label(row), "", "not recorded", "", bar)
    if row.rule == "flooded_starts":
        return FindingView(row, "flooded", str(int(row.recorded or 0)), "lost", "", None)
    label = SHORT_LABELS.get(row.setting) or rule(row.rule).label
    return FindingView(row, label, "", "", "", None)


def _missing_label(row: FindingRow) -> str:
    """Return the first empty cell, and how many more there are."""
    cells = [name for name in (row.detail or "").split(";") if name]
    first = _MISSING_LABELS.get(cells[0], missing_label(cells[0])) if cells else "a cell"
    return first if len(cells) <= 1 else f"{first} +{len(cells) - 1}"


def _window_label(row: FindingRow) -> str:
    """Return the setting; of a rack with its group or compressor, which a list has no column for."""
    label = SHORT_LABELS.get(row.setting, TARGET_BY_CODE[row.setting].label)
    if row.setting == "group_suction":
        return row.part
    return f"{label} {row.part.removeprefix('compressor ')}" if row.part else label


def dimension_of(row: FindingRow) -> Dimension | None:
    """Return what the numbers of a finding are."""
    if row.rule in _WINDOW_RULES:
        target = TARGET_BY_CODE.get(row.setting)
        return target.dimension if target else None
    return Dimension.TEMPERATURE_DIFFERENCE if row.rule == "boxes_apart" else None


def _window_view(row: FindingRow, units: UnitSystem) -> FindingView:
    target = TARGET_BY_CODE[row.setting]
    dimension = target.dimension
    assert dimension is not None
    label = _window_label(row)
    if row.recorded is None:
        return FindingView(
            row, label, "", "not recorded", "", Bar(row.low, row.high, None, 0.0, 1.0, "known")
        )
    shown, unit = figure(row.recorded, dimension, units)
    state = "none" if row.verdict == Verdict.NO_WINDOW else "known"
    if row.verdict == Verdict.CONFLICTING:
        return FindingView(row, label, shown, unit, "", None)
    distance = row.out_by_saturation_k if target.cell_is_saturation else row.out_by
    bar = Bar(row.low, row.high, row.recorded, distance or 0.0, target.cell_si, state)
    return FindingView(row, label, shown, unit, _out(row, target.cell_is_saturation, units), bar)


def _out(row: FindingRow, in_saturation: bool, units: UnitSystem) -> str:
    value = row.out_by_saturation_k if in_saturation else row.out_by
    if value is None:
        return ""
    dimension = Dimension.TEMPERATURE_DIFFERENCE if in_saturation else Dimension.PRESSURE_DIFFERENCE
    sign, mark = "+" if value > 0 else "−", "°" if in_saturation else ""
    return f"{sign}{figure(abs(value), dimension, units)[0]}{mark}"


def _check_view(row: FindingRow, desk: Desk) -> FindingView:
    late = (desk.today - day_of(int(row.high or 0))).days
    bar = Bar(None, 0.0, float(late), float(late), DAYS_A_CELL, "known")
    label = SHORT_LABELS.get(row.setting, row.setting.replace("_", " "))
    return FindingView(row, label, f"{late:,}", "d", f"+{late:,}", bar)


def _apart_view(row: FindingRow, units: UnitSystem) -> FindingView:
    shown, unit = figure(row.recorded or 0.0, Dimension.TEMPERATURE_DIFFERENCE, units)
    out = row.out_by or 0.0
    cell = TARGET_BY_CODE["differential"].cell_si
    over = figure(out, Dimension.TEMPERATURE_DIFFERENCE, units)[0]
    return FindingView(
        row, "boxes apart", shown, unit, f"+{over}°", Bar(None, row.high, row.recorded, out, cell, "known")
    )
