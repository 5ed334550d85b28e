"""What an import would do, and what it did."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from fleet.exchange.storage import Key, Stored


@dataclass(frozen=True, slots=True)
class Counts:
    """How the rows of one file stand to the register."""

    new: int = 0
    changed: int = 0
    unchanged: int = 0


@dataclass(frozen=True, slots=True)
class Difference:
    """One value of the register that a file changes, as people read it."""

    table: str
    key: tuple[str, ...]
    column: str
    before: str
    after: str


@dataclass(frozen=True, slots=True)
class Update:
    """The new values of one row of the register, and the version that was compared."""

    id: int
    version: int
    values: Mapping[str, Stored]
    typed: Mapping[str, str]


@dataclass(frozen=True, slots=True)
class Plan:
    """Everything that an import would write; references are still names."""

    counts: Mapping[str, Counts]
    """By kind of file, in the order of the dictionary."""
    differences: tuple[Difference, ...] = ()
    inserts: Mapping[str, list[dict[str, Stored]]] = field(default_factory=dict)
    updates: Mapping[str, list[Update]] = field(default_factory=dict)
    ids: Mapping[str, Mapping[Key, int]] = field(default_factory=dict)
    """The numbers of rows that the register has already, by kind and key."""
    stamp: int = 0
    """The last act of the register that was compared."""

    @property
    def is_empty(self) -> bool:
        """Tell whether the register holds all of it already."""
        return not any(self.inserts.values()) and not any(self.updates.values())

    @property
    def settings_recorded(self) -> int:
        """How many settings would be recorded, those of columns in systems.csv and boxes.csv too."""
        return len(self.inserts.get("settings", ()))


@dataclass(frozen=True, slots=True)
class Result:
    """What an import did, or with a dry run would do."""

    counts: Mapping[str, Counts]
    differences: tuple[Difference, ...]
    settings_recorded: int
    written: bool
    """False with a dry run, and where nothing had to be changed."""
