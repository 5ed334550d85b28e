"""The names that rows may refer to: those of the register and those of the files together.

A fact that both hold (an elevation, a sensor) is the file's, where its cell is not empty.
"""

from collections import defaultdict
from collections.abc import Iterable

from fleet.dictionary import FILE_BY_NAME
from fleet.errors import UnknownNameError
from fleet.exchange.gathering import Gathered
from fleet.exchange.reading import Table
from fleet.exchange.state import RegisterState
from fleet.exchange.storage import PARENT_KINDS, Key, Stored, singular, stored

_FACTS = {
    "sites": ("elevation",),
    "systems": ("low_pressure_sensor", "high_pressure_sensor", "installed"),
    "boxes": ("installed", "suction_group"),
}
"""What other rows need to know of a row."""


class Directory:
    """Everything that has a name."""

    def __init__(self, state: RegisterState, gathered: Gathered) -> None:
        self.names: dict[str, set[Key]] = defaultdict(set)
        self.facts: dict[tuple[str, Key, str], Stored] = {}
        self._parts: dict[Key, dict[str, None]] = defaultdict(dict)
        self._children: dict[tuple[str, Key], list[str]] | None = None
        self._said: dict[tuple[str, Key], str] = {}
        self.unknown_kinds = frozenset(name for name, table in gathered.tables.items() if not table.complete)
        """Kinds whose file could not be read: what refers to them cannot be judged."""
        for name in ("people", "customers", "sites", "systems", "boxes", "compressors"):
            self._add_from_register(name, state)
            table = gathered.table(name)
            if table is not None:
                self._add_from_file(name, table)
        self._add_groups()

    def _add_from_register(self, name: str, state: RegisterState) -> None:
        table = state.table(name)
        self.names[name].update(table.rows)
        for fact in _FACTS.get(name, ()):
            column = FILE_BY_NAME[name].column(fact)
            if column is None or column.attribute not in table.layout:
                continue
            place = table.layout[column.attribute]
            for key, existing in table.rows.items():
                if existing.values[place] is not None:
                    self.facts[name, key, fact] = existing.values[place]
        self._add_parts(name, table.rows)

    def _add_from_file(self, name: str, table: Table) -> None:
        places = [table.place(column) for column in table.kind.key]
        keys: list[Key] = []
        facts = [(fact, place) for fact in _FACTS.get(name, ()) if (place := table.place(fact)) is not None]
        for _, cells in table.rows:
            key = tuple(None if place is None else cells[place] for place in places)
            keys.append(key)
            for fact, place in facts:
                if cells[place] is not None:
                    self.facts[name, key, fact] = stored(cells[place])
        self.names[name].update(keys)
        self._add_parts(name, keys)

    def _add_parts(self, name: str, keys: Iterable[Key]) -> None:
        if name == "boxes":
            for *system, box in keys:
                self._parts[tuple(system)][str(box)] = None
        elif name == "compressors":
            for *system, position, _ in keys:
                self._parts[tuple(system)][f"compressor {position}"] = None

    def _add_groups(self) -> None:
        for (kind, key, fact), value in self.facts.items():
            if kind == "boxes" and fact == "suction_group":
                self._parts[key[:-1]][f"group {value}"] = None

    def fact(self, kind: str, key: Key, name: str) -> Stored:
        """Return what is known of a row, None where nothing is."""
        return self.facts.get((kind, key, name))

    def parts(self, system: Key) -> list[str]:
        """Return the parts of a system: boxes, compressors, groups."""
        return list(self._parts.get(system, ()))

    def has_part(self, system: Key, part: str) -> bool:
        """Tell whether a system has a part; the empty part is the system itself.

        A system that does not exist is named as such, and not once more for each of its parts.
        """
        return not part or part in self._parts.get(system, ()) or system not in self.names["systems"]

    def knows(self, kind: str, key: Key) -> bool:
        """Tell whether a row of that key exists, or may exist in a file that could not be read."""
        return key in self.names[kind] or kind in self.unknown_kinds

    def first_unknown(self, kind: str, key: Key) -> tuple[str, Key] | None:
        """Return the outermost kind and key on the way to a row that does not exist."""
        if self.knows(kind, key):
            return None
        for length, column in enumerate(FILE_BY_NAME[kind].key, 1):
            outer = PARENT_KINDS.get(column, kind)
            if not self.knows(outer, key[:length]):
                return outer, key[:length]
        return None

    def sentence_for_unknown(self, kind: str, key: Key) -> str:
        """Return the sentence that says there is no such row, with the nearest names."""
        said = self._said.get((kind, key))
        if said is None:
            above = f" of {key[-2]}" if len(key) > 1 else ""
            known = self._names_below(kind, key[:-1])
            said = UnknownNameError(singular(kind) + above, str(key[-1]), known).message
            self._said[kind, key] = said
        return said

    def _names_below(self, kind: str, above: Key) -> list[str]:
        if self._children is None:
            self._children = defaultdict(list)
            for name in ("people", "customers", "sites", "systems"):
                for key in self.names[name]:
                    if key[-1] is not None:
                        self._children[name, key[:-1]].append(str(key[-1]))
        return self._children.get((kind, above), [])
