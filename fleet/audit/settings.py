"""Findings about settings: outside their windows, contradicting each other, or not recorded."""

import numpy as np
import numpy.typing as npt

from fleet.audit.findings import FindingColumns, rows_of
from fleet.dictionary.words import Fans, Severity, Verdict
from fleet.targets.columns import Bools, FleetColumns, Floats, Indices
from fleet.targets.defaults import BOXES_APART_K, TOLERANCE_PA
from fleet.targets.judge import Judged
from fleet.targets.lowpressure import LowPressure
from fleet.targets.missing import SETTINGS_MISSING, Missing
from fleet.targets.pair import smallest_differential_pa
from fleet.targets.table import TARGET_BY_CODE

_HAIR_K = 1e-6
"""Temperatures that were typed in °F come back a rounding error apart; that is not 10 °F apart."""


def window_findings(fleet: FleetColumns, found: LowPressure) -> list[FindingColumns]:
    """Return findings of `low_pressure_window`, those folded away that another correction settles."""
    settled_in, settled_out = _settled_by_cut_in(found), _settled_by_cut_out(found)
    agree = found.differential.verdict != Verdict.CONFLICTING.code
    settled_in, settled_out = settled_in & agree, settled_out & agree
    shown_differential = _stands(found.differential) & ~settled_in & ~settled_out
    settles = _also(found.differential, settled_in), _also(found.differential, settled_out & ~settled_in)
    # What lacks an input is named by the finding of rule not_recorded, which one entry settles.
    return [
        _rows(found.cut_in, _stands(found.cut_in), also=settles[0]),
        _rows(found.cut_out, _stands(found.cut_out), also=settles[1]),
        _rows(found.differential, shown_differential & agree),
        _rows(found.group_suction, _stands(found.group_suction), part=_group_parts(fleet)),
        _rows(found.rack_cut_out, _stands(found.rack_cut_out), part=_compressor_parts(fleet)),
        _conflicts(found, shown_differential & ~agree),
        _contradicted_hold(found),
    ]


def _stands(judged: Judged) -> Bools:
    """Return which rows are findings here and not merely of an input that is named elsewhere."""
    outside_table = judged.missing == int(Missing.OUTSIDE_TABLE)
    stands: Bools = (judged.severity > 0) & ((judged.verdict != Verdict.NOT_KNOWN.code) | outside_table)
    return stands


def _conflicts(found: LowPressure, where: Bools) -> FindingColumns:
    rows = np.flatnonzero(where)
    judged = found.differential
    return rows_of(
        "low_pressure_conflict",
        rows,
        setting="low_pressure_differential",
        severity=int(Severity.NEXT_VISIT),
        verdict=Verdict.CONFLICTING.code,
        recorded=judged.recorded[rows],
        low=judged.low[rows],
        high=judged.high[rows],
        preferred=judged.preferred[rows],
    )


def _contradicted_hold(found: LowPressure) -> FindingColumns:
    return rows_of(
        "low_pressure_conflict",
        np.flatnonzero(found.side.hold_contradicted),
        setting="receiver_hold",
        severity=int(Severity.NEXT_VISIT),
        verdict=Verdict.CONFLICTING.code,
    )


def _rows(
    judged: Judged,
    where: Bools,
    *,
    part: npt.NDArray[np.object_] | None = None,
    also: npt.NDArray[np.object_] | None = None,
) -> FindingColumns:
    rows = np.flatnonzero(where)
    target = TARGET_BY_CODE[judged.setting]
    distance = judged.out_by_saturation_k if target.cell_is_saturation else judged.out_by
    far = -np.abs(np.nan_to_num(distance[rows])) / target.cell_si
    extra = {} if also is None else {"also": also[rows]}
    return rows_of(
        "low_pressure_window",
        judged.owner[rows],
        part="" if part is None else part[rows],
        setting=judged.setting,
        severity=judged.severity[rows],
        verdict=judged.verdict[rows],
        recorded=judged.recorded[rows],
        low=judged.low[rows],
        high=judged.high[rows],
        preferred=judged.preferred[rows],
        out_by=judged.out_by[rows],
        out_by_saturation_k=judged.out_by_saturation_k[rows],
        low_code=judged.low_code[rows],
        high_code=judged.high_code[rows],
        missing=judged.missing[rows],
        far=far,
        **extra,
    )


def _settled_by_cut_in(found: LowPressure) -> Bools:
    """Return where moving cut-in to its preferred value also gives the pair a sound differential."""
    return _would_settle(
        found, found.cut_in, found.cut_in.preferred, found.cut_out.recorded, found.cut_in.preferred
    )


def _settled_by_cut_out(found: LowPressure) -> Bools:
    """Return where moving cut-out to its preferred value also gives the pair a sound differential."""
    return _would_settle(
        found, found.cut_out, found.cut_in.recorded, found.cut_out.preferred, found.cut_in.recorded
    )


def _would_settle(
    found: LowPressure, moved: Judged, cut_in: Floats, cut_out: Floats, judged_at: Floats
) -> Bools:
    out = (moved.verdict == Verdict.ABOVE.code) | (moved.verdict == Verdict.BELOW.code)
    implied = found.cut_in.recorded - found.cut_out.recorded
    stated_apart = np.abs(found.differential.recorded - implied) > TOLERANCE_PA
    least = smallest_differential_pa(judged_at, found.side.sensed_air_pa, found.case)
    settled: Bools = out & _stands(found.differential) & ~stated_apart
    return settled & (cut_in - cut_out >= least - TOLERANCE_PA)


def _also(judged: Judged, where: Bools) -> npt.NDArray[np.object_]:
    also = np.full(len(where), "", dtype=object)
    also[where] = judged.setting
    return also


def _group_parts(fleet: FleetColumns) -> npt.NDArray[np.object_]:
    return np.array([f"group {tag}" for tag in fleet.group_tags], dtype=object)


def _compressor_parts(fleet: FleetColumns) -> npt.NDArray[np.object_]:
    return np.array(
        [f"compressor {position}" for position in fleet.compressors.position.tolist()], dtype=object
    )


def boxes_apart(fleet: FleetColumns, found: LowPressure) -> list[FindingColumns]:
    """Return findings of boxes on one suction over 10 °F apart without a regulator on the warmer."""
    running, groups = found.running, found.groups
    unit = running.warmest_free_coil_k - running.coldest_coil_k > BOXES_APART_K + _HAIR_K
    unit &= ~np.isin(np.arange(len(fleet)), fleet.groups.system)
    group = groups.warmest_free_coil_k - groups.coldest_coil_k > BOXES_APART_K + _HAIR_K
    pieces = (
        (np.flatnonzero(unit), "", running.warmest_free_coil_k, running.coldest_coil_k, None),
        (
            np.flatnonzero(group),
            _group_parts(fleet),
            groups.warmest_free_coil_k,
            groups.coldest_coil_k,
            fleet.groups.system,
        ),
    )
    return [_apart(rows, part, warm, cold, owner) for rows, part, warm, cold, owner in pieces]


def _apart(
    rows: Indices,
    part: npt.NDArray[np.object_] | str,
    warm_k: Floats,
    cold_k: Floats,
    owner: Indices | None,
) -> FindingColumns:
    return rows_of(
        "boxes_apart",
        rows if owner is None else owner[rows],
        part=part if isinstance(part, str) else part[rows],
        severity=int(Severity.NEXT_VISIT),
        verdict=Verdict.ABOVE.code,
        recorded=(warm_k - cold_k)[rows],
        high=np.full(len(rows), BOXES_APART_K),
        out_by=(warm_k - cold_k)[rows] - BOXES_APART_K,
    )


def fans_cycle(fleet: FleetColumns, found: LowPressure) -> FindingColumns:
    """Return findings of fans that stop with a compressor that is cycled by pressure."""
    boxes = fleet.boxes
    cycling = found.case.pressure_cycling[boxes.system] & (boxes.fans == Fans.WITH_COMPRESSOR.code)
    rows = np.flatnonzero(cycling)
    tags = np.array([fleet.box_tags[row] for row in rows.tolist()], dtype=object)
    return rows_of(
        "fans_cycle",
        boxes.system[rows],
        part=tags,
        setting="fans",
        severity=int(Severity.NEXT_VISIT),
        verdict=Verdict.CONFLICTING.code,
    )


def not_recorded(found: LowPressure) -> FindingColumns:
    """Return one finding per system that names all its empty cells."""
    lacks = found.missing & ~int(Missing.OUTSIDE_TABLE)
    rows = np.flatnonzero(lacks)
    a_setting = (lacks[rows] & int(SETTINGS_MISSING)) != 0
    return rows_of(
        "not_recorded",
        rows,
        severity=np.where(a_setting, int(Severity.NEXT_VISIT), int(Severity.WATCH)),
        verdict=Verdict.NOT_RECORDED.code,
        missing=lacks[rows],
    )
