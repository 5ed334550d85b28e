"""How each kind of file stands in the register: its parent, its references, its own columns.

A row's key is the dictionary's key as values, parents first: ``("ALDER", "Ridge Street", "WC-2")``.
"""

from dataclasses import dataclass
from functools import cache

from fleet.dictionary import FILE_BY_NAME, Column, FileKind
from fleet.dictionary.kinds import Reference
from fleet.exchange.cells import Cell, TypedSetting
from fleet.units import Quantity

Key = tuple[object, ...]
"""What identifies a row among those of its kind."""
Stored = object
"""A value as a column of the register holds it."""

PARENT_KINDS = {"customer": "customers", "site": "sites", "system": "systems"}
_PARENTS = {
    "sites": "customers",
    "systems": "sites",
    "boxes": "systems",
    "compressors": "systems",
    "settings": "systems",
    "checks": "systems",
}
WITHOUT_TYPED = frozenset({"people", "customers"})
"""Kinds without quantities, which keep no typed texts."""
APPEND_ONLY = frozenset({"settings", "checks"})
"""Kinds whose rows are never changed: a differing row is appended beside the former one."""


@dataclass(frozen=True, slots=True)
class Storage:
    """How one kind of file stands in the register."""

    kind: FileKind
    parent: str | None
    """The kind of the row above, None for customers, people and events."""
    own_columns: tuple[Column, ...]
    """The columns that are stored in the row itself, references to people among them."""

    @property
    def parent_attribute(self) -> str:
        """The name inside of the reference to the parent."""
        assert self.parent is not None
        return f"{singular(self.parent)}_id"

    @property
    def parent_key_length(self) -> int:
        """How many leading values of a key belong to the parent."""
        return 0 if self.parent is None else len(FILE_BY_NAME[self.parent].key)


@cache
def storage(name: str) -> Storage:
    """Return how a kind of file stands in the register."""
    kind = FILE_BY_NAME[name]
    parent = _PARENTS.get(name)
    above = set(FILE_BY_NAME[parent].key) if parent else set()
    if name == "events":
        above = {"customer", "site", "system"}
    return Storage(kind, parent, tuple(column for column in kind.columns if column.name not in above))


def singular(kind_name: str) -> str:
    """Return what one row of a kind is called."""
    return {"people": "person", "boxes": "box"}.get(kind_name, kind_name.removesuffix("s"))


def is_person(column: Column) -> bool:
    """Tell whether a column names a person of people.csv."""
    return isinstance(column.kind, Reference)


def stored(cell: Cell) -> Stored:
    """Return a cell as a column of the register holds it; a quantity is its SI value."""
    if isinstance(cell, Quantity | TypedSetting):
        return cell.value_si
    return None if cell == () else cell


def key_texts(key: Key) -> tuple[str, ...]:
    """Return the values of a key as text; an empty one stays empty."""
    return tuple("" if value is None else str(value) for value in key)


def shown_key(key: Key) -> str:
    """Return a key as a sentence shows it.

    >>> shown_key(("ALDER", "Ridge Street", "WC-2", "", "setpoint"))
    'ALDER / Ridge Street / WC-2 / setpoint'
    """
    return " / ".join(text for text in key_texts(key) if text)
