"""A recorded value against its window: verdict, how far out, how urgent."""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from fleet.dictionary.words import Severity, Verdict
from fleet.properties import dew_temperature_k
from fleet.targets.bounds import WindowMaker
from fleet.targets.columns import Bools, Floats, Indices, Words
from fleet.targets.defaults import TOLERANCE_PA
from fleet.targets.missing import Missing

FINE = 0
"""The severity of what is no finding."""


@dataclass(slots=True)
class Judged:
    """Windows of one setting with what is recorded, a row each; severities are set by the rules."""

    setting: str
    owner: Indices
    """Row of the system, the group or the compressor that the setting belongs to."""
    recorded: Floats
    low: Floats
    high: Floats
    low_code: Words
    high_code: Words
    preferred: Floats
    verdict: Words
    severity: Words
    out_by: Floats
    """Distance past the bound in the setting's own unit, negative below, NaN inside."""
    out_by_saturation_k: Floats
    missing: npt.NDArray[np.int32]


def judge(
    setting: str,
    recorded: Floats,
    window: WindowMaker,
    preferred: Floats,
    *,
    applicable: Bools,
    no_window: Bools,
    missing: npt.NDArray[np.int32],
) -> Judged:
    """Compare what is recorded with its window; bounds are inclusive, 0.1 psi past one is inside."""
    outside = applicable & (missing == 0) & (np.isnan(window.low) | np.isnan(window.high))
    missing = np.where(outside, np.int32(Missing.OUTSIDE_TABLE), missing).astype(np.int32)
    unknown = missing != 0
    below = recorded < window.low - TOLERANCE_PA
    above = recorded > window.high + TOLERANCE_PA
    verdict = np.full(len(recorded), Verdict.INSIDE.code, dtype=np.int8)
    verdict[below] = Verdict.BELOW.code
    verdict[above] = Verdict.ABOVE.code
    verdict[np.isnan(recorded)] = Verdict.NOT_RECORDED.code
    verdict[no_window] = Verdict.NO_WINDOW.code
    verdict[unknown] = Verdict.NOT_KNOWN.code
    verdict[~applicable] = Verdict.NOT_APPLICABLE.code
    out_by = np.full(len(recorded), np.nan)
    np.subtract(recorded, window.low, out=out_by, where=verdict == Verdict.BELOW.code)
    np.subtract(recorded, window.high, out=out_by, where=verdict == Verdict.ABOVE.code)
    severity = np.full(len(recorded), FINE, dtype=np.int8)
    severity[verdict == Verdict.NOT_KNOWN.code] = Severity.NOTE
    return Judged(
        setting=setting,
        owner=np.arange(len(recorded)),
        recorded=recorded,
        low=window.low,
        high=window.high,
        low_code=window.low_code,
        high_code=window.high_code,
        preferred=np.where(unknown | ~applicable, np.nan, preferred),
        verdict=verdict,
        severity=severity,
        out_by=out_by,
        out_by_saturation_k=np.full(len(recorded), np.nan),
        missing=missing,
    )


def measure_saturation(judged: Judged, refrigerant: npt.NDArray[np.int16], sensed_air_pa: Floats) -> None:
    """Fill in how far out a pressure is as a difference of dew temperatures, for rows that are out."""
    rows = np.flatnonzero(~np.isnan(judged.out_by))
    if not rows.size:
        return
    bound = np.where(judged.out_by[rows] > 0, judged.high[rows], judged.low[rows])
    air = sensed_air_pa[rows]
    recorded_k = dew_temperature_k(refrigerant[rows], judged.recorded[rows] + air)
    judged.out_by_saturation_k[rows] = recorded_k - dew_temperature_k(refrigerant[rows], bound + air)
