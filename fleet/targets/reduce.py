"""From boxes to their system, from rows to their group: smallest, largest, any, all.

NaN is passed on by the smallest and the largest: where one box is unknown, the system is.
"""

from collections.abc import Callable

import numpy as np
import numpy.typing as npt

from fleet.targets.columns import Bools, Floats, Indices


class Segments:
    """Rows that belong to owners, each owner's rows side by side or not; made once, used often."""

    def __init__(self, owner: Indices, owners: int) -> None:
        """Take the owner of each row; a negative owner is nobody."""
        sorted_already = bool(np.all(owner[1:] >= owner[:-1])) and (owner.size == 0 or owner[0] >= 0)
        self._order = None if sorted_already else np.argsort(owner, kind="stable")
        if self._order is not None:
            self._order = self._order[owner[self._order] >= 0]
        ordered = owner if self._order is None else owner[self._order]
        counts = np.bincount(ordered, minlength=owners) if ordered.size else np.zeros(owners, np.int64)
        starts = np.concatenate(([0], np.cumsum(counts)[:-1])) if owners else np.zeros(0, np.int64)
        self.owners = owners
        self.filled: Bools = counts > 0
        self._starts = starts[self.filled]

    def _reduce(self, reduce: Callable[..., Floats], values: Floats, empty: float) -> Floats:
        out = np.full(self.owners, empty)
        if self._starts.size:
            rows = values if self._order is None else values[self._order]
            out[self.filled] = reduce(rows, self._starts)
        return out

    def smallest(self, values: Floats, *, empty: float = np.nan) -> Floats:
        """Return the smallest value of each owner's rows, NaN where one of them is."""
        return self._reduce(np.minimum.reduceat, values, empty)

    def largest(self, values: Floats, *, empty: float = np.nan) -> Floats:
        """Return the largest value of each owner's rows, NaN where one of them is."""
        return self._reduce(np.maximum.reduceat, values, empty)

    def any(self, flags: Bools) -> Bools:
        """Return whether any of each owner's rows is flagged; False without rows."""
        return self.largest(flags.astype(np.float64), empty=0.0) > 0

    def all(self, flags: Bools) -> Bools:
        """Return whether all of each owner's rows are flagged; False without rows."""
        return self.smallest(flags.astype(np.float64), empty=0.0) > 0

    def union(self, flags: npt.NDArray[np.int32]) -> npt.NDArray[np.int32]:
        """Return all bits set in any of each owner's rows."""
        out = np.zeros(self.owners, dtype=np.int32)
        if self._starts.size:
            rows = flags if self._order is None else flags[self._order]
            out[self.filled] = np.bitwise_or.reduceat(rows, self._starts)
        return out
