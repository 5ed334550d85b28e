"""The refrigerants that Coldround knows: composition, safety group, and how their equation is built.

Compositions and safety groups are those of ANSI/ASHRAE Standard 34, **from memory**. The tests hold
the compositions against the mixtures that CoolProp predefines; where CoolProp predefines none, the
refrigerant is labelled estimated. Safety groups have been held against nothing.
"""

from dataclasses import dataclass
from enum import StrEnum
from functools import cache

from fleet.errors import UnknownNameError

UNKNOWN = -1
"""Stands in a column of refrigerant positions where none is known."""


class Kind(StrEnum):
    """What kind of equation of state stands behind a refrigerant."""

    PURE = "pure"
    PSEUDO_PURE = "pseudo-pure"
    BLEND = "blend"


@dataclass(frozen=True, slots=True)
class Refrigerant:
    """One refrigerant by its ASHRAE 34 designation."""

    name: str
    kind: Kind
    composition: tuple[tuple[str, float], ...]
    """Components with their mass fraction."""
    safety_group: str
    """Safety group of ASHRAE 34, from memory."""
    coolprop: str
    """CoolProp's name of the fluid; components joined by ``&`` where it predefines no mixture."""
    estimated: bool = False
    """Whether interaction parameters or composition are estimates; see ``note``."""
    note: str = ""

    @property
    def flammable(self) -> bool:
        """Whether the safety group is any but class 1 (no flame propagation)."""
        return not self.safety_group.endswith("1")


def _pure(name: str, safety_group: str, coolprop: str) -> Refrigerant:
    return Refrigerant(name, Kind.PURE, ((name, 1.0),), safety_group, coolprop)


def _parts(text: str) -> tuple[tuple[str, float], ...]:
    """Read ``"32 11, 125 59"``: designation without its R, then percent by mass."""
    pairs = (part.split() for part in text.split(","))
    return tuple((f"R-{component}", round(float(percent) / 100.0, 6)) for component, percent in pairs)


def _blend(
    name: str, composition: str, safety_group: str = "A1", *, kind: Kind = Kind.BLEND, coolprop: str = ""
) -> Refrigerant:
    plain = name.replace("-", "")
    made = coolprop or (plain if kind is Kind.PSEUDO_PURE else f"{plain}.mix")
    return Refrigerant(name, kind, _parts(composition), safety_group, made)


def _estimated(name: str, composition: str, coolprop: str, note: str) -> Refrigerant:
    return Refrigerant(name, Kind.BLEND, _parts(composition), "A1", coolprop, estimated=True, note=note)


_RULED = "No interaction parameters are published with CoolProp for {}: a linear mixing rule stands in. "
_OFF = "Its normal boiling point comes out {} from the one in ASHRAE 34 (from memory)."

# Append only: the position in this tuple stands in columns and in the tables' file.
REFRIGERANTS: tuple[Refrigerant, ...] = (
    _pure("R-12", "A1", "R12"),
    _pure("R-22", "A1", "R22"),
    _pure("R-32", "A2L", "R32"),
    _pure("R-134a", "A1", "R134a"),
    _pure("R-290", "A3", "n-Propane"),
    _pure("R-600a", "A3", "IsoButane"),
    _pure("R-717", "B2L", "Ammonia"),
    _pure("R-744", "A1", "CarbonDioxide"),
    _pure("R-1234yf", "A2L", "R1234yf"),
    _pure("R-1234ze(E)", "A2L", "R1234ze(E)"),
    _estimated(
        "R-401A",
        "22 53, 152a 13, 124 34",
        "R22&R152A&R124",
        _RULED.format("R-22/R-124 and R-152a/R-124") + _OFF.format("about 1.9 K"),
    ),
    _estimated(
        "R-402A",
        "125 60, 290 2, 22 38",
        "R125&n-Propane&R22",
        _RULED.format("R-125/R-22") + _OFF.format("about 2.3 K"),
    ),
    _blend("R-404A", "125 44, 143a 52, 134a 4", kind=Kind.PSEUDO_PURE),
    _blend("R-407A", "32 20, 125 40, 134a 40"),
    _blend("R-407C", "32 23, 125 25, 134a 52", kind=Kind.PSEUDO_PURE),
    _blend("R-407F", "32 30, 125 30, 134a 40"),
    _blend("R-407H", "32 32.5, 125 15, 134a 52.5"),
    _estimated(
        "R-408A",
        "125 7, 143a 46, 22 47",
        "R125&R143a&R22",
        _RULED.format("R-125/R-22") + _OFF.format("about 1.3 K"),
    ),
    _estimated(
        "R-409A",
        "22 60, 124 25, 142b 15",
        "R22&R124&R142b",
        _RULED.format("R-22/R-124") + _OFF.format("about 1.6 K"),
    ),
    _blend("R-410A", "32 50, 125 50", kind=Kind.PSEUDO_PURE),
    _blend("R-422D", "125 65.1, 134a 31.5, 600a 3.4"),
    _estimated(
        "R-438A",
        "32 8.5, 125 45, 134a 44.2, 600 1.7, 601a 0.6",
        "R32&R125&R134a&n-Butane&Isopentane",
        _RULED.format("R-601a with R-32, with R-125 and with R-134a") + _OFF.format("up to 3.2 K (dew)"),
    ),
    _blend("R-448A", "32 26, 125 26, 1234yf 20, 134a 21, 1234ze(E) 7"),
    _blend("R-449A", "32 24.3, 125 24.7, 1234yf 25.3, 134a 25.7"),
    _blend("R-450A", "134a 42, 1234ze(E) 58"),
    _blend("R-452A", "32 11, 125 59, 1234yf 30"),
    _blend("R-454A", "32 35, 1234yf 65", "A2L"),
    _blend("R-454B", "32 68.9, 1234yf 31.1", "A2L"),
    _blend("R-454C", "32 21.5, 1234yf 78.5", "A2L"),
    _blend("R-455A", "744 3, 32 21.5, 1234yf 75.5", "A2L"),
    _blend("R-471A", "1234ze(E) 78.7, 227ea 4.3, 1336mzz(E) 17"),
    _blend("R-502", "22 48.8, 115 51.2"),
    _blend("R-507A", "125 50, 143a 50", kind=Kind.PSEUDO_PURE),
    _blend("R-513A", "1234yf 56, 134a 44"),
    _estimated(
        "R-515B",
        "1234ze(E) 91.1, 227ea 8.9",
        "R1234ze(E)&R227EA",
        "CoolProp predefines no such mixture: its composition, from memory, was held against none.",
    ),
)

_SHORT = {"r1234ze": "R-1234ze(E)"}


def _folded(name: str) -> str:
    letters = "".join(character for character in name.casefold() if character.isalnum())
    return letters if letters.startswith("r") else f"r{letters}"


@cache
def _positions() -> dict[str, int]:
    positions = {_folded(item.name): position for position, item in enumerate(REFRIGERANTS)}
    for short, name in _SHORT.items():
        positions[short] = positions[_folded(name)]
    return positions


def refrigerant_index(name: str) -> int:
    """Return the position of a refrigerant in `REFRIGERANTS`, which columns hold in its place.

    Raises:
        UnknownNameError: no such designation; the nearest ones are named.

    >>> REFRIGERANTS[refrigerant_index("404a")].name
    'R-404A'
    """
    try:
        return _positions()[_folded(name)]
    except KeyError:
        known = (item.name for item in REFRIGERANTS)
        raise UnknownNameError("refrigerant", name.strip(), known) from None


def refrigerant(name: str) -> Refrigerant:
    """Return the refrigerant of a designation; case, hyphen, spaces and the leading R do not matter.

    Raises:
        UnknownNameError: no such designation; the nearest ones are named.

    >>> refrigerant("r1234ze").name
    'R-1234ze(E)'
    >>> refrigerant("R-454C").flammable
    True
    """
    return REFRIGERANTS[refrigerant_index(name)]
