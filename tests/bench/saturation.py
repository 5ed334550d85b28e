"""Cost of a look-up against solving live, and the largest error: ``python tests/bench/saturation.py``.

Prints one JSON object. The blend is R-448A, five components; the live side is CoolProp's flash on an
open state, its cheapest form. Errors are taken halfway between nodes, over the whole range of every
curve of every refrigerant.
"""

import json
import platform
import sys
from time import perf_counter

import numpy as np

from fleet.properties import REFRIGERANTS, bridged_nodes, coolprop_version, refrigerant, refrigerant_index
from fleet.properties.equations import Equation
from fleet.properties.saturation import (
    bubble_pressure_pa_abs,
    bubble_temperature_k,
    dew_pressure_pa_abs,
    dew_temperature_k,
)
from fleet.properties.walk import curve

ROWS = 16_384
REPEATS = 30
BLEND = "R-448A"


def _best_s(call) -> float:  # type: ignore[no-untyped-def]
    best = float("inf")
    for _ in range(REPEATS):
        started = perf_counter()
        call()
        best = min(best, perf_counter() - started)
    return best


def _per_value_s() -> dict[str, float]:
    random = np.random.default_rng(1)
    rows = random.integers(0, len(REFRIGERANTS), ROWS).astype(np.int16)
    temperature_k, pressure_pa_abs = random.uniform(220, 330, ROWS), random.uniform(5e4, 3e6, ROWS)
    return {
        "dew_pressure": _best_s(lambda: dew_pressure_pa_abs(rows, temperature_k)) / ROWS,
        "bubble_pressure": _best_s(lambda: bubble_pressure_pa_abs(rows, temperature_k)) / ROWS,
        "dew_temperature": _best_s(lambda: dew_temperature_k(rows, pressure_pa_abs)) / ROWS,
        "bubble_temperature": _best_s(lambda: bubble_temperature_k(rows, pressure_pa_abs)) / ROWS,
    }


def _single_s() -> float:
    row, value = np.array([refrigerant_index(BLEND)], dtype=np.int16), np.array([260.0])
    return _best_s(lambda: dew_pressure_pa_abs(row, value))


def _live_s() -> float:
    equation = Equation(refrigerant(BLEND))
    temperatures = np.random.default_rng(2).uniform(220, 330, 400).tolist()
    return _best_s(lambda: [equation.saturated(1, temperature) for temperature in temperatures]) / 400


def _largest_error() -> tuple[float, str]:
    worst = (0.0, "")
    for index, item in enumerate(REFRIGERANTS):
        equation = Equation(item)
        for quality, look_up in ((1, dew_pressure_pa_abs), (0, bubble_pressure_pa_abs)):
            answers = curve(equation, quality)
            at = np.array([answer.temperature_k for answer in answers])
            live = np.array([answer.pressure_pa_abs for answer in answers])
            error = np.abs(look_up(np.full(at.shape, index), at) / live - 1)
            position = int(np.nanargmax(error))
            where = f"{item.name} {'dew' if quality else 'bubble'} at {at[position]:.2f} K"
            worst = max(worst, (float(error[position]), where))
    return worst


def main() -> int:
    """Measure, print, and return 0 if the promises hold."""
    columns, single_s, live_s = _per_value_s(), _single_s(), _live_s()
    slowest_s = max(columns.values())
    error, where = _largest_error()
    ratio = live_s / slowest_s
    report = {
        "rows": ROWS,
        "look_up_ns_per_value": {name: round(value * 1e9, 1) for name, value in columns.items()},
        "look_up_us_alone": round(single_s * 1e6, 1),
        "live_flash_us": round(live_s * 1e6, 1),
        "live_flash_of": BLEND,
        "ratio": round(ratio),
        "largest_error_percent": float(f"{error * 100:.3g}"),
        "largest_error_at": where,
        "bridged_nodes": len(bridged_nodes()),
        "coolprop": coolprop_version(),
        "python": platform.python_version(),
        "numpy": np.__version__,
    }
    print(json.dumps(report, indent=1))
    return 0 if ratio >= 1000 and error * 100 <= 0.002 else 1


if __name__ == "__main__":
    sys.exit(main())
