"""Which inputs a window lacks: one bit each, so that a fleet carries them in one integer column."""

from enum import IntFlag


class Missing(IntFlag):
    """An input that is not recorded, or that lies outside a table."""

    NONE = 0
    REFRIGERANT = 1
    STRATEGY = 2
    PLACEMENT = 4
    DESIGN_COLD = 8
    ROOM_LOW = 16
    ELEVATION = 32
    BOX = 64
    KIND = 128
    SETPOINT = 256
    DIFFERENTIAL = 512
    CUT_IN = 1024
    CUT_OUT = 2048
    GROUP_SUCTION = 4096
    COMPRESSOR_CUT_OUT = 8192
    OUTSIDE_TABLE = 16384


SETTINGS_MISSING = (
    Missing.SETPOINT
    | Missing.DIFFERENTIAL
    | Missing.CUT_IN
    | Missing.CUT_OUT
    | Missing.GROUP_SUCTION
    | Missing.COMPRESSOR_CUT_OUT
)
"""Those that are settings, not facts."""

CELLS: dict[Missing, str] = {
    Missing.REFRIGERANT: "refrigerant",
    Missing.STRATEGY: "strategy",
    Missing.PLACEMENT: "placement",
    Missing.DESIGN_COLD: "design_cold",
    Missing.ROOM_LOW: "room_low",
    Missing.ELEVATION: "elevation",
    Missing.BOX: "box",
    Missing.KIND: "kind",
    Missing.SETPOINT: "setpoint",
    Missing.DIFFERENTIAL: "differential",
    Missing.CUT_IN: "low_pressure_cut_in",
    Missing.CUT_OUT: "low_pressure_cut_out",
    Missing.GROUP_SUCTION: "group_suction",
    Missing.COMPRESSOR_CUT_OUT: "compressor_cut_out",
    Missing.OUTSIDE_TABLE: "outside_table",
}
"""Each as the register stores it, mostly the name of its column."""

LABELS: dict[str, str] = {
    "kind": "kind of box",
    "setpoint": "setpoint",
    "differential": "thermostat differential",
    "low_pressure_cut_in": "cut-in",
    "low_pressure_cut_out": "cut-out",
    "compressor_cut_out": "cut-out of a compressor",
    "box": "a box",
    "outside_table": "a temperature inside the saturation table",
}
"""Those whose words are not their name."""


def names(mask: int) -> list[str]:
    """Return the columns that a mask names.

    >>> names(int(Missing.SETPOINT | Missing.CUT_IN))
    ['setpoint', 'low_pressure_cut_in']
    """
    return [name for flag, name in CELLS.items() if mask & flag]


def label(name: str) -> str:
    """Return the words for a stored name.

    >>> label("design_cold")
    'design cold'
    """
    return LABELS.get(name, name.replace("_", " "))


def labels(mask: int) -> list[str]:
    """Return in words what a mask names."""
    return [label(name) for name in names(mask)]
