"""Every setting in one table: what bounds it, in which words, on whose authority.

A setting of the register is one line here. Screens, reports, JSON, the demo and the tests find it in
`TARGETS`; a line without constraints is recorded and shown, and not judged yet.

Words in braces are facts of `fleet.targets.facts`, printed with their unit.
"""

from dataclasses import dataclass

from fleet.dictionary.settings import SETTINGS, SettingKind
from fleet.targets.bounds import Bind
from fleet.targets.defaults import (
    BAND_PRESSURE_CYCLING_K,
    DIFFERENTIAL_CAP_PA,
    DIFFERENTIAL_LEAST_PA,
    DIFFERENTIAL_ONE_TIME_PA,
    DIFFERENTIAL_SHARE,
    GROUP_BAND_K,
    MARGIN_LEAST_PA,
    MARGIN_SHARE,
    degrees_f,
)
from fleet.units import PSI_PA, Dimension, UnitSystem, show


@dataclass(frozen=True, slots=True)
class Constraint:
    """One reason for a bound: the sentence, the formula, the sources."""

    bind: Bind
    sentence: str
    formula: str
    sources: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Target:
    """One setting: how it is recorded, how far out one cell of its bar is, and what bounds it."""

    kind: SettingKind
    cell_si: float
    """What one cell of a bar outside the window stands for."""
    cell_is_saturation: bool = False
    """Whether that is a difference of saturation temperature."""
    constraints: tuple[Constraint, ...] = ()

    @property
    def code(self) -> str:
        """The code of the setting."""
        return self.kind.code

    @property
    def label(self) -> str:
        """The setting as screens call it."""
        return self.kind.label

    @property
    def dimension(self) -> Dimension | None:
        """The first dimension of its values, None for a count."""
        return self.kind.dimensions[0] if self.kind.dimensions else None


_US = UnitSystem.US


def _psi(pressure_pa: float) -> str:
    return show(pressure_pa, Dimension.PRESSURE_DIFFERENCE, _US).replace(".0 ", " ")


def _degrees(difference_k: float) -> str:
    return show(difference_k, Dimension.TEMPERATURE_DIFFERENCE, _US).replace(".0 ", " ")


# Formulas are written with the constants themselves, so that a changed one is told as it is.
_MARGIN = f"max({_psi(MARGIN_LEAST_PA)}, {MARGIN_SHARE:.0%} of the gauge pressure)"
_SMALLEST = (
    f"min({_psi(DIFFERENTIAL_CAP_PA)}, max({_psi(DIFFERENTIAL_LEAST_PA)}, {DIFFERENTIAL_SHARE:.0%} of the "
    f"absolute cut-in)); one-time pump-down and thermostat cycling {_psi(DIFFERENTIAL_ONE_TIME_PA)}"
)
_BAND = _degrees(BAND_PRESSURE_CYCLING_K)
_GROUP_BAND = _degrees(GROUP_BAND_K)

_NO_VACUUM = Constraint(
    Bind.NO_VACUUM,
    "The low side is not pulled below the surrounding air, {local_air}.",
    "p_air − what the sensor subtracts",
    ("no_vacuum",),
)
_MAKER_LOWEST = Constraint(
    Bind.MAKER_LOWEST,
    "The compressor's recorded lowest suction is {maker_lowest}, {floor} as this control reads it.",
    "p_lowest,abs − p_air",
    ("maker_lowest_suction",),
)
_SCROLL_LOWEST = Constraint(
    Bind.SCROLL_LOWEST,
    "No lowest suction is recorded for this medium-temperature scroll: it is kept above {scroll_sst} "
    "saturated suction, {floor}. The maker's figure, once recorded, replaces this.",
    "P(−20 °F)",
    ("scroll_lowest_suction", "dew_line"),
)
_DRY_ICE = Constraint(
    Bind.DRY_ICE,
    "R-744 turns to dry ice at {triple_point}; with {spare} to spare the lowest is {floor}.",
    "p_triple + 15 psi − p_air",
    ("dry_ice", "dry_ice_margin"),
)
_FLOOR = (_NO_VACUUM, _MAKER_LOWEST, _SCROLL_LOWEST, _DRY_ICE)

_CUT_IN = (
    Constraint(
        Bind.ROOM_FOR_DIFFERENTIAL,
        "Above the lowest cut-out, {floor}, a smallest differential must fit, so cut-in starts at {low}.",
        "smallest x with x − D_min(x) ≥ CO_min",
        ("smallest_differential",),
    ),
    Constraint(
        Bind.RESTART_COLD,
        "Condenser and receiver soak to {soak}; at a call the low side reaches {reach}. "
        "Less a margin of {margin}, cut-in is at most {high}.",
        f"P(min(T_call, T_rec)) − ρ·g·H − {_MARGIN}",
        ("lowest_of_low_side", "dew_line", "liquid_column", "margin_restart"),
    ),
    Constraint(
        Bind.RESTART_HELD,
        "The receiver is held at {soak}; at a call the low side reaches {reach}. "
        "Less a margin of {margin}, cut-in is at most {high}.",
        f"P(min(T_call, T_hold)) − ρ·g·H − {_MARGIN}",
        ("lowest_of_low_side", "dew_line", "liquid_column", "margin_restart"),
    ),
    Constraint(
        Bind.RESTART_BOX,
        "{calling_box} calls at {call}, where the low side reaches {reach}. "
        "Less a margin of {margin}, cut-in is at most {high}.",
        f"P(T_call) − ρ·g·H − {_MARGIN}",
        ("dew_line", "liquid_column", "margin_restart"),
    ),
    Constraint(
        Bind.CALL_DELAY,
        "The call starts a delay, so the compressor need not wait for the pressure: at {stop}, where "
        "{stopping_box} stops, it is {stop_pressure}. Less a margin of {margin}, cut-in is at most {high}.",
        f"P(T_stop) − {_MARGIN}",
        ("call_delay", "dew_line", "margin_restart"),
    ),
    Constraint(
        Bind.BOX_CALLS_LOW,
        "The idle coil follows the box: it should start within {band} of {call}, so not below {low}.",
        f"P(T_call − {_BAND})",
        ("pressure_cycling_band", "dew_line"),
    ),
    Constraint(
        Bind.BOX_CALLS_HIGH,
        "The idle coil follows the box: it should start within {band} of {call}, so not above {high}.",
        f"P(T_call + {_BAND})",
        ("pressure_cycling_band", "dew_line"),
    ),
    Constraint(
        Bind.COIL_CLEARS,
        "The coil must clear itself of frost in each cycle: not below {low}, its pressure at {clears}.",
        "P(35 °F)",
        ("coil_clears", "dew_line"),
    ),
    Constraint(
        Bind.COIL_CLEARS_TOP,
        "Above the frost limit some room is left: up to {high}.",
        "P(38 °F) + 1 psi",
        ("coil_clears", "dew_line"),
    ),
    Constraint(
        Bind.IDLE_BLEND,
        "An idle coil of this blend reads between dew and bubble; at {call} its bubble pressure is {high}.",
        "P_bubble(T_call)",
        ("idle_coil_blend",),
    ),
)
_CUT_OUT = (
    *_FLOOR,
    Constraint(
        Bind.NO_TRIP,
        "Saturated suction at the compressor runs down to {suction}{cooling_box}; {no_trip} below that is "
        "{high}, so that normal running does not trip it.",
        "P(SST_comp − m)",
        ("no_trip_in_running", "dew_line"),
    ),
    Constraint(
        Bind.NO_TRIP_LOSS_OF_CHARGE,
        "This cut-out guards against loss of charge only: saturated suction runs down to "
        "{suction}{cooling_box}; {no_trip} lower is {high}.",
        "P(SST_comp − m)",
        ("no_trip_in_running", "dew_line"),
    ),
    Constraint(
        Bind.RUNNING_LOW,
        "At the largest TD saturated suction runs down to {suction_low}{cooling_box}; less {grace} that is "
        "{low}.",
        "P(T_stop − TD_max − loss) − 1 psi",
        ("pressure_cycling_cut_out", "td_by_class", "dew_line"),
    ),
    Constraint(
        Bind.RUNNING_HIGH,
        "At the smallest TD saturated suction runs down to {suction_high}{cooling_box}; plus {grace} that is "
        "{high}.",
        "P(T_stop − TD_min − loss) + 1 psi",
        ("pressure_cycling_cut_out", "td_by_class", "dew_line"),
    ),
)
_DIFFERENTIAL = (
    Constraint(
        Bind.SMALLEST_DIFFERENTIAL,
        "At a cut-in of {judged_at} the smallest differential that does not short-cycle is {low}.",
        _SMALLEST,
        ("smallest_differential",),
    ),
)
_GROUP = (
    Constraint(
        Bind.GROUP_LOW,
        "The group's coldest box needs a saturated suction of {suction}; {group_band} below that is {low}.",
        f"P(SST_group − {_GROUP_BAND})",
        ("group_band", "dew_line"),
    ),
    Constraint(
        Bind.GROUP_HIGH,
        "The group's coldest box needs a saturated suction of {suction}; {group_band} above that is {high}.",
        f"P(SST_group + {_GROUP_BAND})",
        ("group_band", "dew_line"),
    ),
)

_CONSTRAINTS: dict[str, tuple[Constraint, ...]] = {
    "low_pressure_cut_in": _CUT_IN,
    "low_pressure_cut_out": _CUT_OUT,
    "low_pressure_differential": _DIFFERENTIAL,
    "group_suction": _GROUP,
}

_CELLS: dict[Dimension | None, float] = {
    Dimension.PRESSURE: degrees_f(2),
    Dimension.TEMPERATURE: degrees_f(2),
    Dimension.TEMPERATURE_DIFFERENCE: degrees_f(2),
    Dimension.PRESSURE_DIFFERENCE: 1 * PSI_PA,
    Dimension.TIME: 300.0,
    None: 1.0,
}


def _line(kind: SettingKind) -> Target:
    dimension = kind.dimensions[0] if kind.dimensions else None
    constraints = _CONSTRAINTS.get(kind.code, ())
    return Target(kind, _CELLS[dimension], dimension is Dimension.PRESSURE, constraints)


TARGETS: tuple[Target, ...] = tuple(_line(kind) for kind in SETTINGS)
TARGET_BY_CODE: dict[str, Target] = {target.code: target for target in TARGETS}
CONSTRAINTS: dict[Bind, Constraint] = {c.bind: c for target in TARGETS for c in target.constraints}
