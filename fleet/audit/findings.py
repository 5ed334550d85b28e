"""Findings in columns: what every rule writes and the register stores; no prose in it."""

from collections.abc import Sequence
from dataclasses import dataclass, fields

import numpy as np
import numpy.typing as npt

from fleet.audit.rules import RULE_CODES
from fleet.targets.columns import Floats, Indices, Words

ALWAYS = 0
"""`from_day` of a finding that does not depend on the date."""
NEVER = 2**31 - 1
"""`until_day` of a finding that does not end by itself."""


@dataclass(frozen=True, slots=True)
class FindingColumns:
    """One row per finding. Numbers are SI, NaN where they mean nothing."""

    system: Indices
    """Row of the system in the audited columns."""
    part: npt.NDArray[np.object_]
    """Empty for the system, a box's tag, ``group A``, ``compressor 1``."""
    rule: Words
    """Position in `RULE_CODES`."""
    setting: npt.NDArray[np.object_]
    severity: Words
    verdict: Words
    from_day: Indices
    until_day: Indices
    recorded: Floats
    low: Floats
    high: Floats
    preferred: Floats
    out_by: Floats
    out_by_saturation_k: Floats
    far: Floats
    """Minus the distance outside in cells of a bar: rising order is farthest first."""
    low_code: Words
    high_code: Words
    missing: npt.NDArray[np.int32]
    also: npt.NDArray[np.object_]
    """Codes of what the same correction would settle, with ``;`` between."""

    def __len__(self) -> int:
        return len(self.system)


def rows_of(
    rule: str,
    system: Indices,
    *,
    part: npt.NDArray[np.object_] | str = "",
    setting: npt.NDArray[np.object_] | str = "",
    severity: npt.NDArray[np.generic] | int,
    verdict: npt.NDArray[np.generic] | int,
    **columns: npt.NDArray[np.generic],
) -> FindingColumns:
    """Return findings of one rule; what is not given means nothing."""
    count = len(system)
    values: dict[str, object] = {
        "system": system,
        "part": _words(part, count),
        "rule": np.full(count, RULE_CODES.index(rule), dtype=np.int8),
        "setting": _words(setting, count),
        "severity": np.broadcast_to(np.asarray(severity, dtype=np.int8), count),
        "verdict": np.broadcast_to(np.asarray(verdict, dtype=np.int8), count),
        "from_day": columns.get("from_day", np.full(count, ALWAYS, dtype=np.int64)),
        "until_day": columns.get("until_day", np.full(count, NEVER, dtype=np.int64)),
        "low_code": columns.get("low_code", np.zeros(count, dtype=np.int8)),
        "high_code": columns.get("high_code", np.zeros(count, dtype=np.int8)),
        "missing": columns.get("missing", np.zeros(count, dtype=np.int32)),
        "also": columns.get("also", _words("", count)),
        "far": columns.get("far", np.zeros(count)),
    }
    for name in ("recorded", "low", "high", "preferred", "out_by", "out_by_saturation_k"):
        values[name] = columns.get(name, np.full(count, np.nan))
    return FindingColumns(**values)  # type: ignore[arg-type]


def _words(value: npt.NDArray[np.object_] | str, count: int) -> npt.NDArray[np.object_]:
    if isinstance(value, str):
        return np.full(count, value, dtype=object)
    return value


def joined(pieces: Sequence[FindingColumns]) -> FindingColumns:
    """Return all findings one after another."""
    return FindingColumns(
        **{f.name: np.concatenate([getattr(p, f.name) for p in pieces]) for f in fields(FindingColumns)}
    )
