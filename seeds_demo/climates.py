"""Climates of the demo: invented, plausible for their kind of place, taken from no station.

Design temperatures too are invented. Each climate fills the cells of a site; a site may overrule.
"""

from seeds_demo.parts import Cells


def _climate(
    name: str, unit: str, cold: str, extreme: str, hot: str, highs: str, lows: str, spreads: tuple[str, str]
) -> Cells:
    """Return the cells of a climate from twelve mean highs and lows."""
    cells = {"climate": f"{name} (invented)"}
    cells |= {f"high_{month}": value + unit for month, value in enumerate(highs.split(), 1)}
    cells |= {f"low_{month}": value + unit for month, value in enumerate(lows.split(), 1)}
    cells |= {"design_cold": cold + unit, "extreme_cold": extreme + unit, "design_hot": hot + unit}
    return cells | {"day_spread_winter": spreads[0], "day_spread_summer": spreads[1]}


NORTH = _climate(
    "cold continental", "F", "-10", "-19", "89",
    "24 29 41 57 69 78 83 81 72 58 41 28", "7 11 24 37 48 58 63 61 52 40 26 13", ("17F", "20F"),
)  # fmt: skip
PLAINS = _climate(
    "high dry plains", "F", "1", "-10", "92",
    "45 47 56 62 71 83 90 87 79 65 53 44", "18 20 28 35 44 53 60 58 49 36 25 17", ("25F", "28F"),
)  # fmt: skip
MOUNTAIN = _climate(
    "mountain valley", "F", "-14", "-24", "82",
    "26 31 40 49 60 71 79 77 68 55 38 27", "-1 3 14 24 32 38 44 43 35 25 13 1", ("27F", "34F"),
)  # fmt: skip
VALLEY = _climate(
    "mixed river valley", "F", "12", "3", "91",
    "39 44 54 66 75 83 87 86 79 67 54 43", "23 26 34 44 54 63 67 65 58 46 36 28", ("16F", "20F"),
)  # fmt: skip
GULF = _climate(
    "warm humid coast", "F", "30", "22", "95",
    "62 66 72 78 85 90 92 92 88 80 71 64", "44 48 54 60 68 74 75 75 71 61 52 46", ("18F", "17F"),
)  # fmt: skip
DESERT = _climate(
    "hot desert basin", "F", "36", "28", "109",
    "66 70 77 85 94 104 106 104 99 88 75 65", "44 47 52 58 67 76 83 82 75 62 50 43", ("22F", "24F"),
)  # fmt: skip
COAST = _climate(
    "mild ocean coast", "F", "35", "27", "84",
    "57 60 63 65 68 72 73 73 74 70 62 57", "43 45 47 48 51 54 56 57 56 53 47 43", ("14F", "16F"),
)  # fmt: skip
LOWLAND = _climate(
    "mild island lowland", "C", "-2.5", "-6", "28",
    "8 8 11 14 17 20 23 22 19 15 11 8", "2 2 3 5 8 11 13 13 10 8 5 2", ("6K", "10K"),
)  # fmt: skip
UPLAND = _climate(
    "cool island upland", "C", "-4.5", "-8.5", "24",
    "6 6 8 11 14 17 18 18 15 12 8 6", "0 0 1 3 6 8 10 10 8 5 3 0", ("6K", "8K"),
)  # fmt: skip
INLAND = _climate(
    "central continental", "C", "-11", "-16", "32",
    "3 5 10 15 19 23 25 25 20 14 7 4", "-3 -3 1 4 9 12 14 14 10 6 1 -2", ("6K", "11K"),
)  # fmt: skip
ALPINE = _climate(
    "alpine valley", "C", "-15", "-21", "27",
    "2 4 9 13 18 21 23 23 19 14 7 2", "-8 -7 -3 1 5 9 11 10 7 2 -3 -7", ("10K", "12K"),
)  # fmt: skip
