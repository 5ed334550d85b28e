"""Make the saturation tables: ``python -m fleet.properties.make``.

Nodes stand every 0.5 K, on multiples of 0.5 K; a pure fluid's curve has its triple and its critical
point besides. Between two nodes ln p is a straight line in 1/T, liquid density one in T. A curve
ends where its equation has no more answer or where such a line would err by more than its tolerance,
whatever comes first. The file says which CoolProp made it and which nodes the plain solver failed at.
"""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import log
from pathlib import Path

import numpy as np

from fleet.properties.catalogue import REFRIGERANTS, Refrigerant
from fleet.properties.equations import Equation, Saturated
from fleet.properties.tables import (
    BUBBLE,
    CRITICAL_POINT,
    DENSITY,
    DEW,
    FILE,
    NODE_K,
    TABLE_END,
    TRIPLE_POINT,
    BridgedNode,
)
from fleet.properties.walk import curve, line

PRESSURE_TOLERANCE = 1.8e-5
"""Largest error of a pressure halfway between nodes (relative); 0.002 % is promised."""
DENSITY_TOLERANCE = 5e-4
"""Largest error of a liquid density halfway between nodes (relative)."""

_PURE_ENDS = (TRIPLE_POINT, CRITICAL_POINT)


@dataclass(frozen=True, slots=True)
class NodeCurve:
    """One curve of one refrigerant as it goes into the file."""

    temperatures_k: tuple[float, ...]
    values: tuple[float, ...]
    low_end: str
    high_end: str
    bridged: tuple[BridgedNode, ...]


def solve(refrigerant: Refrigerant) -> dict[str, NodeCurve]:
    """Solve all curves of a refrigerant with CoolProp."""
    equation = Equation(refrigerant)
    dew, bubble = curve(equation, 1), curve(equation, 0)
    return {
        DEW: _pressure_curve(refrigerant, DEW, dew),
        BUBBLE: _pressure_curve(refrigerant, BUBBLE, bubble),
        DENSITY: _density_curve(refrigerant, bubble, equation.molar_mass_kg_mol),
    }


def _pressure_curve(refrigerant: Refrigerant, name: str, answers: Sequence[Saturated]) -> NodeCurve:
    def error(first: Saturated, middle: Saturated, last: Saturated) -> float:
        return abs(line(first, last, middle.temperature_k) / middle.pressure_pa_abs - 1)

    kept = _trimmed(answers, error, PRESSURE_TOLERANCE)
    return _as_curve(refrigerant, name, kept, lambda answer: log(answer.pressure_pa_abs))


def _density_curve(
    refrigerant: Refrigerant, answers: Sequence[Saturated], molar_mass_kg_mol: float
) -> NodeCurve:
    def error(first: Saturated, middle: Saturated, last: Saturated) -> float:
        share = (middle.temperature_k - first.temperature_k) / (last.temperature_k - first.temperature_k)
        straight = first.liquid_mol_m3 + share * (last.liquid_mol_m3 - first.liquid_mol_m3)
        return abs(straight / middle.liquid_mol_m3 - 1)

    kept = _trimmed(answers, error, DENSITY_TOLERANCE)
    return _as_curve(refrigerant, DENSITY, kept, lambda answer: answer.liquid_mol_m3 * molar_mass_kg_mol)


def _trimmed(
    answers: Sequence[Saturated],
    error: Callable[[Saturated, Saturated, Saturated], float],
    tolerance: float,
) -> list[Saturated]:
    """Return the nodes up to where the line between two of them first errs by too much."""
    nodes = [position for position, answer in enumerate(answers) if _is_node(answer)]
    kept = [answers[nodes[0]]]
    for first, last in pairwise(nodes):
        between = answers[first + 1 : last]
        if any(error(answers[first], middle, answers[last]) > tolerance for middle in between):
            break
        kept.append(answers[last])
    return kept


def _is_node(answer: Saturated) -> bool:
    return answer.how in _PURE_ENDS or (answer.temperature_k / NODE_K).is_integer()


def _as_curve(
    refrigerant: Refrigerant, name: str, kept: Sequence[Saturated], value: Callable[[Saturated], float]
) -> NodeCurve:
    low_end, high_end = (end.how if end.how in _PURE_ENDS else TABLE_END for end in (kept[0], kept[-1]))
    bridged = [answer for answer in kept if answer.how == "continued"]
    return NodeCurve(
        temperatures_k=tuple(answer.temperature_k for answer in kept),
        values=tuple(value(answer) for answer in kept),
        low_end=low_end,
        high_end=high_end,
        bridged=tuple(
            BridgedNode(refrigerant.name, name, answer.temperature_k, answer.how) for answer in bridged
        ),
    )


def write(path: Path, refrigerants: Iterable[Refrigerant] = REFRIGERANTS) -> None:
    """Solve every refrigerant and write the file of tables."""
    import CoolProp

    solved = [solve(refrigerant) for refrigerant in refrigerants]
    arrays = {
        "coolprop_version": np.array(CoolProp.__version__),
        "refrigerants": np.array([refrigerant.name for refrigerant in refrigerants]),
    }
    for name in (DEW, BUBBLE, DENSITY):
        curves = [curves_of_one[name] for curves_of_one in solved]
        arrays[f"{name}_low_k"] = np.array([item.temperatures_k[0] for item in curves])
        arrays[f"{name}_high_k"] = np.array([item.temperatures_k[-1] for item in curves])
        arrays[f"{name}_low_end"] = np.array([item.low_end for item in curves])
        arrays[f"{name}_high_end"] = np.array([item.high_end for item in curves])
        arrays[f"{name}_counts"] = np.array([len(item.values) for item in curves])
        arrays[f"{name}_values"] = np.concatenate([np.array(item.values) for item in curves])
    bridged = [node for curves_of_one in solved for item in curves_of_one.values() for node in item.bridged]
    arrays["bridged_refrigerant"] = np.array([node.refrigerant for node in bridged])
    arrays["bridged_curve"] = np.array([node.curve for node in bridged])
    arrays["bridged_temperature_k"] = np.array([node.temperature_k for node in bridged])
    arrays["bridged_how"] = np.array([node.how for node in bridged])
    np.savez_compressed(path, allow_pickle=False, **arrays)


def main() -> None:
    """Write the tables beside the module and say what they are."""
    write(FILE)
    print(f"{FILE.name}: {len(REFRIGERANTS)} refrigerants, {FILE.stat().st_size:,} bytes")


if __name__ == "__main__":
    main()
