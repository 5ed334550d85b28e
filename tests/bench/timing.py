"""Paired timings: each candidate is timed beside its baseline in the same run, best of several."""

import gc
import time
from collections.abc import Callable


def seconds(work: Callable[[], object]) -> float:
    """Return how long one call takes."""
    gc.collect()
    start = time.perf_counter()
    work()
    return time.perf_counter() - start


def paired(
    baseline: Callable[[], object], candidate: Callable[[], object], rounds: int = 5
) -> tuple[float, float]:
    """Return the best times of both, taken in turns so that a drifting machine hits both alike."""
    pairs = [(seconds(baseline), seconds(candidate)) for _ in range(rounds)]
    return min(pair[0] for pair in pairs), min(pair[1] for pair in pairs)
