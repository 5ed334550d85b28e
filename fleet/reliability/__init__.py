"""What the lives of compressors tell: so far, those that started on liquid refrigerant."""

from fleet.reliability.flooded import (
    WITHIN_MONTHS,
    FloodedStarts,
    LifeColumns,
    flooded_start_severity,
    flooded_starts,
)

__all__ = ["WITHIN_MONTHS", "FloodedStarts", "LifeColumns", "flooded_start_severity", "flooded_starts"]
