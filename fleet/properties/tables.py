"""The saturation tables in memory: all refrigerants end to end in flat arrays, loaded once.

A row of a column finds its segment by arithmetic, not by search: forward because nodes stand every
0.5 K, backward through a guide of equal steps of ln p, each shorter than any segment.
"""

from dataclasses import dataclass
from functools import cache
from pathlib import Path

import numpy as np
import numpy.typing as npt

from fleet.errors import ColdroundError
from fleet.properties.catalogue import REFRIGERANTS

Floats = npt.NDArray[np.float64]
Integers = npt.NDArray[np.integer]
Positions = npt.NDArray[np.intp]

FILE = Path(__file__).with_name("saturation.npz")
NODE_K = 0.5
DEW, BUBBLE, DENSITY = "dew", "bubble", "density"
TRIPLE_POINT, CRITICAL_POINT, TABLE_END = "triple point", "critical point", "end of the table"
"""Why a curve begins or ends where it does."""

_EDGE_K = 1e-9
_EDGE_RATIO = 1e-12
"""What rounding may add beyond the last node when a value is looked up forth and back."""


@dataclass(frozen=True, slots=True)
class BridgedNode:
    """A node at which the plain solver failed, and how its value was found all the same.

    ``how`` is ``continued``: the same equation, solved with the neighbouring node's solution as
    first guess. No node of any table is interpolated.
    """

    refrigerant: str
    curve: str
    temperature_k: float
    how: str


@dataclass(frozen=True, slots=True)
class Segments:
    """Straight pieces ``y = y0 + slope * (x - x0)``; arrays by refrigerant end in an empty row for
    the unknown one, but for ``low_k`` and ``high_k``."""

    low_k: Floats
    high_k: Floats
    lowest_k: Floats
    """``low_k`` less what rounding may take away."""
    highest_k: Floats
    low_end: tuple[str, ...]
    high_end: tuple[str, ...]
    first: Positions
    """Flat position of each refrigerant's first segment."""
    last: Positions
    shift: Positions
    """What turns the whole number of node steps above 0 K into a flat position."""
    x0: Floats
    y0: Floats
    slope: Floats


@dataclass(frozen=True, slots=True)
class PressureCurve:
    """ln p against 1/T, and the guide from ln p back to the segment."""

    segments: Segments
    low_pa_abs: Floats
    high_pa_abs: Floats
    start_ln_pa: Floats
    steps_per_ln_pa: Floats
    guide_first: Positions
    guide_last: Positions
    guide: Positions
    """Flat segment in which each guide step begins."""
    end_ln_pa: Floats
    """Where each segment ends; infinite for a refrigerant's last."""


@dataclass(frozen=True, slots=True)
class Tables:
    """Everything that the file holds, ready for look-ups."""

    coolprop_version: str
    dew: PressureCurve
    bubble: PressureCurve
    density: Segments
    bridged: tuple[BridgedNode, ...]


@cache
def tables() -> Tables:
    """Return the tables, read from the package's file at the first call.

    Raises:
        ColdroundError: the file was made for another list of refrigerants.
    """
    with np.load(FILE, allow_pickle=False) as file:
        arrays = {name: file[name] for name in file.files}
    if tuple(arrays["refrigerants"]) != tuple(item.name for item in REFRIGERANTS):
        raise ColdroundError(
            f"{FILE.name} was made for another list of refrigerants; "
            "python -m fleet.properties.make makes it anew."
        )
    columns = ("bridged_refrigerant", "bridged_curve", "bridged_temperature_k", "bridged_how")
    bridged = zip(*(arrays[name].tolist() for name in columns), strict=True)
    return Tables(
        coolprop_version=str(arrays["coolprop_version"]),
        dew=_pressure_curve(arrays, DEW),
        bubble=_pressure_curve(arrays, BUBBLE),
        density=_segments(arrays, DENSITY, reciprocal=False),
        bridged=tuple(BridgedNode(*row) for row in bridged),
    )


def bridged_nodes() -> tuple[BridgedNode, ...]:
    """Return the nodes of the tables at which the plain solver failed, and how each was found."""
    return tables().bridged


def coolprop_version() -> str:
    """Return the version of CoolProp that made the tables."""
    return tables().coolprop_version


def node_temperatures_k(low_k: float, high_k: float) -> Floats:
    """Return the temperatures of a curve's nodes: multiples of `NODE_K`, and the two ends as they are."""
    below, above = np.floor(low_k / NODE_K), np.ceil(high_k / NODE_K)
    temperatures = np.arange(below, above + 1) * NODE_K
    temperatures[0], temperatures[-1] = low_k, high_k
    return temperatures


def _segments(arrays: dict[str, npt.NDArray[np.generic]], name: str, *, reciprocal: bool) -> Segments:
    low_k = np.asarray(arrays[f"{name}_low_k"], dtype=np.float64)
    high_k = np.asarray(arrays[f"{name}_high_k"], dtype=np.float64)
    counts = np.asarray(arrays[f"{name}_counts"], dtype=np.intp)
    y = np.asarray(arrays[f"{name}_values"], dtype=np.float64)
    temperatures = [node_temperatures_k(low, high) for low, high in zip(low_k, high_k, strict=True)]
    nodes = np.concatenate(temperatures)
    x = 1.0 / nodes if reciprocal else nodes
    ends = np.cumsum(counts)
    slope = np.zeros_like(y)
    slope[:-1] = np.diff(y) / np.diff(x)
    first = ends - counts
    return Segments(
        low_k=low_k,
        high_k=high_k,
        lowest_k=np.append(low_k - _EDGE_K, np.inf),
        highest_k=np.append(high_k + _EDGE_K, -np.inf),
        low_end=tuple(arrays[f"{name}_low_end"].tolist()),
        high_end=tuple(arrays[f"{name}_high_end"].tolist()),
        first=np.append(first, 0),
        last=np.append(ends - 2, 0),
        shift=np.append(first - np.floor(low_k / NODE_K).astype(np.intp), 0),
        x0=x,
        y0=y,
        slope=slope,
    )


def _pressure_curve(arrays: dict[str, npt.NDArray[np.generic]], name: str) -> PressureCurve:
    segments = _segments(arrays, name, reciprocal=True)
    starts, steps, firsts, guides = [], [], [0], []
    end_ln_pa = np.append(segments.y0[1:], np.inf)
    for first, last in zip(segments.first[:-1], segments.last[:-1], strict=True):
        ln_pa = segments.y0[first : last + 2]
        # Shorter than any segment, so that a step holds one node at most.
        step = 0.9 * float(np.diff(ln_pa).min())
        edges = np.arange(ln_pa[0], ln_pa[-1] + step, step)
        guide = np.searchsorted(ln_pa, edges, side="right") - 1 + first
        guides.append(np.minimum(guide, last))
        starts.append(ln_pa[0])
        steps.append(1.0 / step)
        firsts.append(firsts[-1] + len(edges))
        end_ln_pa[last] = np.inf
    return PressureCurve(
        segments=segments,
        low_pa_abs=np.append(np.exp(starts) * (1 - _EDGE_RATIO), np.inf),
        high_pa_abs=np.append(np.exp(segments.y0[segments.last[:-1] + 1]) * (1 + _EDGE_RATIO), -np.inf),
        start_ln_pa=np.append(starts, 0.0),
        steps_per_ln_pa=np.append(steps, 0.0),
        guide_first=np.array([*firsts[:-1], 0], dtype=np.intp),
        guide_last=np.array([*(following - 1 for following in firsts[1:]), 0], dtype=np.intp),
        guide=np.concatenate(guides).astype(np.intp),
        end_ln_pa=end_ln_pa,
    )
