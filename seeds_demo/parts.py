"""What a customer of the demo is made of: frozen values that `seeds_demo.writing` turns into rows.

Days are written as days before the day on which the demo is made, so that it looks the same on any
day. A cell given as an empty string is a cell nobody filled in.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field

Cells = Mapping[str, str]


@dataclass(frozen=True, slots=True)
class Box:
    """One box, with the cells of its row."""

    tag: str
    cells: Cells


@dataclass(frozen=True, slots=True)
class Compressor:
    """One place for a compressor; what failed in it is told by `Failed`."""

    position: int
    kind: str
    cells: Cells


@dataclass(frozen=True, slots=True)
class Group:
    """One suction group of a rack, and the pressure it is held at."""

    tag: str
    suction: str


@dataclass(frozen=True, slots=True)
class CompressorCutOut:
    """The cut-out of one compressor of a rack."""

    position: int
    value: str


@dataclass(frozen=True, slots=True)
class Failed:
    """A compressor taken out and replaced."""

    days_ago: int
    cause: str
    note: str
    evidence: str = ""
    position: int = 1


@dataclass(frozen=True, slots=True)
class Turned:
    """A setting found at one value and left at another."""

    days_ago: int
    setting: str
    found: str
    left: str
    note: str = ""
    part: str = ""
    confirmed: str = "gauge"


@dataclass(frozen=True, slots=True)
class Happened:
    """A service event other than a compressor change."""

    days_ago: int
    kind: str
    note: str
    cells: Cells = field(default_factory=dict)
    part: str = ""


@dataclass(frozen=True, slots=True)
class LastDone:
    """A check that was last done so many days ago, whatever the visits were."""

    check_code: str
    days_ago: int
    part: str = ""


Part = Box | Compressor | Group | CompressorCutOut | Failed | Turned | Happened | LastDone


@dataclass(frozen=True, slots=True)
class System:
    """One refrigerant circuit."""

    tag: str
    cells: Cells
    parts: tuple[Part, ...]
    age_days: int
    idle_days: int | None = None
    """Since when it is out of use."""
    read_with: str = "gauge"
    """With what its pressures are read on visits; empty where nobody reads them."""

    @property
    def boxes(self) -> tuple[Box, ...]:
        """Its boxes."""
        return tuple(part for part in self.parts if isinstance(part, Box))

    @property
    def compressors(self) -> tuple[Compressor, ...]:
        """The places of its compressors."""
        return tuple(part for part in self.parts if isinstance(part, Compressor))

    @property
    def turned(self) -> tuple[Turned, ...]:
        """What was turned, the oldest first."""
        turned = (part for part in self.parts if isinstance(part, Turned))
        return tuple(sorted(turned, key=lambda part: -part.days_ago))

    @property
    def failed(self) -> tuple[Failed, ...]:
        """Compressors taken out, the oldest first."""
        failed = (part for part in self.parts if isinstance(part, Failed))
        return tuple(sorted(failed, key=lambda part: -part.days_ago))


@dataclass(frozen=True, slots=True)
class Site:
    """One site, how long ago its last visit was, and its systems."""

    tag: str
    cells: Cells
    last_visit: int
    systems: tuple[System, ...]
    events: tuple[Happened, ...] = ()


@dataclass(frozen=True, slots=True)
class Customer:
    """One customer: the service company's technicians who go there, and the sites."""

    tag: str
    cells: Cells
    technicians: tuple[str, ...]
    sites: tuple[Site, ...]
    review_in_days: int = 60
