"""Follow one saturation curve of an equation upward and downward, step by step.

The plain solver fails at scattered temperatures inside the range, and close to the critical point it
may answer wrongly. So an answer must lie where the curve was heading; where the plain solver gives
none, the equation is solved from the answer at the step before (``continued``, on record); where
that fails too, the curve ends. No value is ever interpolated into a gap.
"""

from collections.abc import Iterator
from dataclasses import replace
from math import exp, inf, log

from fleet.properties.catalogue import Kind
from fleet.properties.equations import Equation, Saturated
from fleet.properties.tables import CRITICAL_POINT, TRIPLE_POINT

STEP_K = 0.25
"""Half the distance between nodes: every second answer checks the interpolation between two nodes."""
LOWEST_K = 200.0
"""The lowest temperature of any table: the pseudo-pure equations end there."""

_START_K = 250.0
_HEADING_TOLERANCE = 5e-4
"""How far ln p may leave the straight line of the two answers before, which err by 1e-4 at most."""
_SMALLEST_DENSITY_RATIO = 1.05
"""Liquid over vapour density below which the solver may have found the trivial solution."""


def curve(equation: Equation, quality: int) -> list[Saturated]:
    """Return the answers of one curve in rising temperature, `STEP_K` apart.

    A pure fluid's curve begins at its triple point, if that lies above `LOWEST_K`, and ends at its
    critical point; these two stand off the grid.
    """
    start = [_plain(equation, quality, temperature_k) for temperature_k in (_START_K, _START_K + STEP_K)]
    down = list(_follow(equation, quality, start[::-1], -STEP_K))
    up = list(_follow(equation, quality, start, STEP_K))
    found = [*down[::-1], *start, *up]
    if equation.refrigerant.kind is Kind.PURE:
        triple_k, critical_k = equation.triple_and_critical_k()
        if triple_k > LOWEST_K:
            found.insert(0, replace(_plain(equation, quality, triple_k), how=TRIPLE_POINT))
        found.append(replace(_plain(equation, quality, critical_k), how=CRITICAL_POINT))
    return found


def _plain(equation: Equation, quality: int, temperature_k: float) -> Saturated:
    answer = equation.saturated(quality, temperature_k)
    if answer is None:
        raise RuntimeError(f"{equation.refrigerant.name}: the solver fails at {temperature_k} K")
    return answer


def _follow(equation: Equation, quality: int, start: list[Saturated], step_k: float) -> Iterator[Saturated]:
    before, last = start
    lowest_k, highest_k = LOWEST_K, inf
    if equation.refrigerant.kind is Kind.PURE:
        triple_k, highest_k = equation.triple_and_critical_k()
        lowest_k = max(LOWEST_K, triple_k)
    while lowest_k <= last.temperature_k + step_k < highest_k:
        answer = step(equation, quality, last.temperature_k + step_k, before, last)
        if answer is None:
            return
        yield answer
        before, last = last, answer


def step(
    equation: Equation, quality: int, temperature_k: float, before: Saturated, last: Saturated
) -> Saturated | None:
    """Solve one step onward from the two answers before it."""
    plain = equation.saturated(quality, temperature_k)
    if plain is not None and _believable(plain, before, last):
        return plain
    continued = equation.continued(quality, temperature_k, last)
    if continued is not None and _believable(continued, before, last):
        return continued
    return None


def _believable(answer: Saturated, before: Saturated, last: Saturated) -> bool:
    """Tell whether an answer lies where the curve was heading, with two distinct phases."""
    one_phase = answer.liquid_mol_m3 < _SMALLEST_DENSITY_RATIO * answer.vapour_mol_m3
    if one_phase or not answer.pressure_pa_abs > 0:
        return False
    rises = (answer.pressure_pa_abs - last.pressure_pa_abs) * (answer.temperature_k - last.temperature_k) > 0
    off = log(answer.pressure_pa_abs / line(before, last, answer.temperature_k))
    return rises and abs(off) < _HEADING_TOLERANCE


def line(first: Saturated, second: Saturated, temperature_k: float) -> float:
    """Return the pressure on the straight line of ln p against 1/T through two answers."""
    x, x_first, x_second = (1 / value for value in (temperature_k, first.temperature_k, second.temperature_k))
    y_first, y_second = log(first.pressure_pa_abs), log(second.pressure_pa_abs)
    return exp(y_first + (x - x_first) / (x_second - x_first) * (y_second - y_first))
