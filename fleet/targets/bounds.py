"""A window in the making: competing lower and upper constraints, and which of them binds.

The lower bound is a running maximum, the upper a running minimum, each with the code of the
constraint that set it, so that a fleet costs two arrays a side and not one per constraint.
"""

from enum import IntEnum

import numpy as np

from fleet.targets.columns import Bools, Floats, Words


class Bind(IntEnum):
    """The constraint that sets a bound; `fleet.targets.table` holds its sentence and sources."""

    NONE = 0
    NO_VACUUM = 1
    MAKER_LOWEST = 2
    SCROLL_LOWEST = 3
    DRY_ICE = 4
    ROOM_FOR_DIFFERENTIAL = 5
    NO_TRIP = 6
    NO_TRIP_LOSS_OF_CHARGE = 7
    RESTART_COLD = 8
    RESTART_HELD = 9
    RESTART_BOX = 10
    CALL_DELAY = 11
    BOX_CALLS_LOW = 12
    BOX_CALLS_HIGH = 13
    COIL_CLEARS = 14
    COIL_CLEARS_TOP = 15
    IDLE_BLEND = 16
    RUNNING_LOW = 17
    RUNNING_HIGH = 18
    SMALLEST_DIFFERENTIAL = 19
    GROUP_LOW = 20
    GROUP_HIGH = 21


class WindowMaker:
    """Bounds of one setting over all rows; infinite where nothing bounds, NaN where not known."""

    def __init__(self, rows: int) -> None:
        self.low: Floats = np.full(rows, -np.inf)
        self.high: Floats = np.full(rows, np.inf)
        self.low_code: Words = np.zeros(rows, dtype=np.int8)
        self.high_code: Words = np.zeros(rows, dtype=np.int8)

    def at_least(self, bound: Floats, bind: Bind, where: Bools) -> None:
        """Let ``bound`` compete for the lower bound where the flags say so; NaN makes it unknown."""
        raised = where & ~(bound <= self.low) & ~np.isnan(self.low)
        np.copyto(self.low, bound, where=raised)
        self.low_code[raised] = bind

    def at_most(self, bound: Floats, bind: Bind, where: Bools) -> None:
        """Let ``bound`` compete for the upper bound where the flags say so; NaN makes it unknown."""
        lowered = where & ~(bound >= self.high) & ~np.isnan(self.high)
        np.copyto(self.high, bound, where=lowered)
        self.high_code[lowered] = bind

    def lift_high(self, bound: Floats, bind: Bind, where: Bools) -> None:
        """Raise the upper bound to at least ``bound`` where the flags say so."""
        lifted = where & (bound > self.high)
        np.copyto(self.high, bound, where=lifted)
        self.high_code[lifted] = bind

    def moved_inside(self, preferred: Floats) -> Floats:
        """Return a preferred value moved inside the window, NaN where there is none."""
        inside = np.clip(preferred, self.low, self.high)
        return np.where(self.low <= self.high, inside, np.nan)


def straight_between(points: tuple[tuple[float, float], tuple[float, float]], at_k: Floats) -> Floats:
    """Return the value of a line between two points, flat outside them."""
    (x0, y0), (x1, y1) = points
    share = np.clip((at_k - x0) / (x1 - x0), 0.0, 1.0)
    return y0 + share * (y1 - y0)
