"""The low-pressure control of whole systems: every window, every verdict, every severity."""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from fleet.dictionary.words import UNRECORDED, LowPressureControl, Severity, Strategy, Verdict
from fleet.targets.columns import Bools, FleetColumns, Floats
from fleet.targets.defaults import TOLERANCE_PA
from fleet.targets.floor import Floor, system_floor
from fleet.targets.judge import Judged, judge, measure_saturation
from fleet.targets.lowside import LowSide, low_side
from fleet.targets.missing import Missing
from fleet.targets.pair import PairWindows, StrategyFlags, cases, pair_windows
from fleet.targets.rack import GroupWindows, RackCutOuts, group_windows, rack_cut_outs
from fleet.targets.running import SystemRunning, systems_running


@dataclass(frozen=True, slots=True)
class LowPressure:
    """All that is computed of the low-pressure controls of a fleet, intermediates included."""

    running: SystemRunning
    side: LowSide
    floor: Floor
    case: StrategyFlags
    pair: PairWindows
    groups: GroupWindows
    racks: RackCutOuts
    cut_in: Judged
    cut_out: Judged
    differential: Judged
    group_suction: Judged
    rack_cut_out: Judged
    above_at_extreme: Bools
    """Cut-in inside its window, but above what comes back on the coldest day of many years."""
    missing: npt.NDArray[np.int32]
    """What each system lacks, facts and settings."""

    @property
    def judged(self) -> tuple[Judged, ...]:
        """The settings in the order in which they are shown."""
        return (self.cut_in, self.cut_out, self.differential, self.group_suction, self.rack_cut_out)


def low_pressure(fleet: FleetColumns) -> LowPressure:
    """Compute windows, verdicts and severities of every low-pressure control of a fleet.

    Elementwise over systems: a system alone and the same system in a fleet come out bit-identical.
    """
    systems = fleet.systems
    running = systems_running(fleet)
    side = low_side(systems, running)
    floor = system_floor(fleet, running, side)
    case = cases(systems)
    pair = pair_windows(systems, running, side, floor, case)
    groups = group_windows(fleet, running, side)
    racks = rack_cut_outs(fleet, running, side, groups)
    facts = _missing_facts(fleet, running)
    applicable = (systems.low_pressure_control != LowPressureControl.NONE.code) & (
        systems.strategy != Strategy.RACK.code
    )
    cut_in, cut_out, differential = _judge_pair(fleet, side, pair, facts, applicable)
    group_suction, rack_cut_out = _judge_rack(fleet, side, groups, racks, facts)
    _cut_in_severity(cut_in, side, running, case)
    _cut_out_severity(cut_out, floor)
    above_at_extreme = _watch_extreme(cut_in, side, running, case)
    _simple_severity(differential)
    _simple_severity(group_suction)
    _cut_out_severity(rack_cut_out, racks.floor)
    return LowPressure(
        running=running,
        side=side,
        floor=floor,
        case=case,
        pair=pair,
        groups=groups,
        racks=racks,
        cut_in=cut_in,
        cut_out=cut_out,
        differential=differential,
        group_suction=group_suction,
        rack_cut_out=rack_cut_out,
        above_at_extreme=above_at_extreme,
        missing=_all_missing(fleet, facts, cut_in, cut_out, group_suction, rack_cut_out),
    )


def _missing_facts(fleet: FleetColumns, running: SystemRunning) -> npt.NDArray[np.int32]:
    """Return the facts without which no window of a system is known."""
    systems, boxes = fleet.systems, fleet.boxes
    missing = np.zeros(len(fleet), dtype=np.int32)
    missing[systems.refrigerant == UNRECORDED] |= Missing.REFRIGERANT
    missing[systems.strategy == UNRECORDED] |= Missing.STRATEGY
    bare = systems.low_pressure_control == LowPressureControl.NONE.code
    missing[np.isnan(systems.elevation_m) & ~bare] |= Missing.ELEVATION
    missing[~running.segments.filled] |= Missing.BOX
    of_box = np.zeros(len(boxes.kind), dtype=np.int32)
    of_box[boxes.kind == UNRECORDED] |= Missing.KIND
    of_box[np.isnan(boxes.setpoint_k)] |= Missing.SETPOINT
    return missing | running.segments.union(of_box)


def _judge_pair(
    fleet: FleetColumns,
    side: LowSide,
    pair: PairWindows,
    facts: npt.NDArray[np.int32],
    applicable: Bools,
) -> tuple[Judged, Judged, Judged]:
    systems = fleet.systems
    nowhere = np.zeros(len(fleet), dtype=bool)
    cut_in = judge(
        "low_pressure_cut_in",
        systems.low_pressure_cut_in_pa_gauge,
        pair.cut_in,
        pair.cut_in_preferred_pa,
        applicable=applicable,
        no_window=pair.no_cut_in,
        missing=facts | side.missing,
    )
    cut_out = judge(
        "low_pressure_cut_out",
        systems.low_pressure_cut_out_pa_gauge,
        pair.cut_out,
        pair.cut_out_preferred_pa,
        applicable=applicable,
        no_window=pair.no_cut_out,
        missing=facts,
    )
    implied = cut_in.recorded - cut_out.recorded
    stated = systems.low_pressure_differential_pa
    differential = judge(
        "low_pressure_differential",
        np.where(np.isnan(stated), implied, stated),
        pair.differential,
        pair.differential_preferred_pa,
        applicable=applicable,
        no_window=nowhere,
        missing=facts | np.where(np.isnan(pair.judged_at_pa), side.missing, np.int32(0)),
    )
    crossed = implied <= 0
    unlike = np.abs(implied - stated) > TOLERANCE_PA
    conflicting = applicable & (crossed | unlike)
    differential.verdict[conflicting] = Verdict.CONFLICTING.code
    differential.out_by[conflicting] = np.nan
    for judged in (cut_in, cut_out):
        measure_saturation(judged, systems.refrigerant, side.sensed_air_pa)
    return cut_in, cut_out, differential


def _judge_rack(
    fleet: FleetColumns,
    side: LowSide,
    groups: GroupWindows,
    racks: RackCutOuts,
    facts: npt.NDArray[np.int32],
) -> tuple[Judged, Judged]:
    of_group, of_compressor = fleet.groups.system, fleet.compressors.system
    group_suction = judge(
        "group_suction",
        fleet.groups.group_suction_pa_gauge,
        groups.window,
        groups.preferred_pa,
        applicable=np.ones(len(of_group), dtype=bool),
        no_window=np.zeros(len(of_group), dtype=bool),
        missing=facts[of_group],
    )
    fitted = fleet.systems.low_pressure_control[of_compressor] != LowPressureControl.NONE.code
    rack_cut_out = judge(
        "low_pressure_cut_out",
        fleet.compressors.low_pressure_cut_out_pa_gauge,
        racks.window,
        racks.preferred_pa,
        applicable=racks.of_rack & fitted,
        no_window=racks.window.low > racks.window.high,
        missing=facts[of_compressor],
    )
    for judged, owner in ((group_suction, of_group), (rack_cut_out, of_compressor)):
        judged.owner = owner
        measure_saturation(judged, fleet.systems.refrigerant[owner], side.sensed_air_pa[owner])
    return group_suction, rack_cut_out


def _cut_in_severity(cut_in: Judged, side: LowSide, running: SystemRunning, case: StrategyFlags) -> None:
    """Above what comes back: act now; margin eaten: next visit; below its lowest: watch."""
    verdict, severity = cut_in.verdict, cut_in.severity
    above = verdict == Verdict.ABOVE.code
    never = _above_reach(cut_in.recorded, side) & case.restarts_on_pressure
    severity[above] = Severity.NEXT_VISIT
    severity[above & never] = Severity.ACT_NOW
    below = verdict == Verdict.BELOW.code
    severity[below & ~case.pressure_cycling] = Severity.WATCH
    severity[below & case.pressure_cycling] = Severity.NEXT_VISIT
    empty = verdict == Verdict.NO_WINDOW.code
    severity[empty] = Severity.NEXT_VISIT
    too_cold = case.pressure_cycling & (side.soak_k < running.call_k)
    severity[empty & (never | too_cold)] = Severity.ACT_NOW


def _above_reach(recorded: Floats, side: LowSide) -> Bools:
    reach = np.where(side.call_delay, side.stop_pressure_pa, side.reach_pa)
    above: Bools = recorded > reach + TOLERANCE_PA
    return above


def _watch_extreme(cut_in: Judged, side: LowSide, running: SystemRunning, case: StrategyFlags) -> Bools:
    """Flag a cut-in that is sound at design cold and does not come back at the extreme."""
    sound = (cut_in.severity == 0) & (cut_in.verdict == Verdict.INSIDE.code)
    waits = case.restarts_on_pressure & ~side.call_delay
    waits &= cut_in.recorded > side.reach_extreme_pa + TOLERANCE_PA
    never = case.pressure_cycling & (side.soak_extreme_k < running.call_k)
    extreme: Bools = sound & (waits | never)
    cut_in.severity[extreme] = Severity.WATCH
    return extreme


def _cut_out_severity(cut_out: Judged, floor: Floor) -> None:
    """Outside: next visit; below the floor act now where air or dry ice is a danger."""
    verdict, severity = cut_out.verdict, cut_out.severity
    below = verdict == Verdict.BELOW.code
    out = below | (verdict == Verdict.ABOVE.code) | (verdict == Verdict.NO_WINDOW.code)
    severity[out] = Severity.NEXT_VISIT
    under_floor = cut_out.recorded < floor.lowest_pa - TOLERANCE_PA
    under_hard = cut_out.recorded < floor.hard_pa - TOLERANCE_PA
    severity[below & under_floor & ~under_hard] = Severity.WATCH
    severity[below & under_hard & floor.dangerous] = Severity.ACT_NOW


def _simple_severity(judged: Judged) -> None:
    """Outside or conflicting: next visit."""
    out = np.isin(
        judged.verdict,
        (Verdict.BELOW.code, Verdict.ABOVE.code, Verdict.NO_WINDOW.code, Verdict.CONFLICTING.code),
    )
    judged.severity[out] = Severity.NEXT_VISIT


def _all_missing(
    fleet: FleetColumns,
    facts: npt.NDArray[np.int32],
    cut_in: Judged,
    cut_out: Judged,
    group_suction: Judged,
    rack_cut_out: Judged,
) -> npt.NDArray[np.int32]:
    """Return what each system lacks: facts, what its windows lacked, and settings not recorded."""
    missing = facts.copy()
    applies = cut_in.verdict != Verdict.NOT_APPLICABLE.code
    missing[applies] |= cut_in.missing[applies]
    unset = np.isnan(cut_in.recorded) & applies
    missing[unset] |= Missing.CUT_IN
    missing[np.isnan(cut_out.recorded) & applies] |= Missing.CUT_OUT
    boxes = fleet.boxes
    missing[boxes.system[np.isnan(boxes.differential_k) & ~np.isnan(boxes.setpoint_k)]] |= (
        Missing.DIFFERENTIAL
    )
    missing[group_suction.owner[np.isnan(group_suction.recorded)]] |= Missing.GROUP_SUCTION
    own = (rack_cut_out.verdict != Verdict.NOT_APPLICABLE.code) & np.isnan(rack_cut_out.recorded)
    missing[rack_cut_out.owner[own]] |= Missing.COMPRESSOR_CUT_OUT
    return missing
