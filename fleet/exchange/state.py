"""What of the register an import is compared with, read in one pass."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from fleet.exchange.storage import Key, Stored


@dataclass(frozen=True, slots=True)
class Existing:
    """One row of the register."""

    id: int
    version: int
    values: tuple[Stored, ...]
    typed: object
    """The typed texts: a mapping, or the JSON of one."""


@dataclass(slots=True)
class RegisterTable:
    """The rows of one kind by their key."""

    layout: Mapping[str, int] = field(default_factory=dict)
    """Where each attribute stands in `Existing.values`."""
    rows: dict[Key, Existing] = field(default_factory=dict)

    def value(self, existing: Existing, attribute: str) -> Stored:
        """Return one value of a row."""
        return existing.values[self.layout[attribute]]


@dataclass(frozen=True, slots=True)
class RegisterState:
    """What the register holds of the customers of an import."""

    tables: Mapping[str, RegisterTable] = field(default_factory=dict)
    stamp: int = 0
    """The last act, so that a change in between is noticed."""

    def ids(self) -> dict[str, dict[Key, int]]:
        """Return the numbers of the rows that others refer to."""
        return {
            name: {key: existing.id for key, existing in self.table(name).rows.items()}
            for name in ("people", "customers", "sites", "systems")
        }

    def table(self, name: str) -> RegisterTable:
        """Return the rows of a kind; none where none were read."""
        return self.tables.get(name) or RegisterTable()
