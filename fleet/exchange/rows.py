"""Rows that can be changed in place: people, customers, sites, systems, boxes, compressors, events.

An import never wipes by omission. A column that the file lacks, and a cell that is present but
empty, both leave what the register holds: people send partial lists, and an empty cell says *not
recorded here*, not *forget it*. Only a row that is new takes its empty cells as they are.
"""

import json
from collections.abc import Mapping
from dataclasses import dataclass
from typing import cast

from fleet.dictionary import Column
from fleet.dictionary.kinds import Measure
from fleet.errors import InputError
from fleet.exchange.cells import Cell, as_text
from fleet.exchange.directory import Directory
from fleet.exchange.impossible import contradictions
from fleet.exchange.outcome import Difference, Update
from fleet.exchange.parts import check_part
from fleet.exchange.pressures import setting_pa
from fleet.exchange.problems import Problems
from fleet.exchange.reading import Row, Table
from fleet.exchange.state import Existing, RegisterState, RegisterTable
from fleet.exchange.storage import (
    WITHOUT_TYPED,
    Key,
    Storage,
    Stored,
    is_person,
    key_texts,
    shown_key,
    storage,
)
from fleet.units import Dimension, Quantity

_PRESSURE = Measure((Dimension.PRESSURE,))


@dataclass(frozen=True, slots=True)
class _Stored:
    """Where a column of the file stands, and how it is stored; asked once, not for each row."""

    place: int
    column: Column
    attribute: str
    is_person: bool
    is_gauge_pressure: bool


class RowComparison:
    """Compares the rows of one file with those of the register."""

    def __init__(self, table: Table, state: RegisterState, directory: Directory, problems: Problems) -> None:
        self.table, self.directory, self.problems = table, directory, problems
        self.storage: Storage = storage(table.kind.name)
        self.register: RegisterTable = state.table(table.kind.name)
        own = set(self.storage.own_columns)
        self.columns = [
            _Stored(place, c, c.attribute, is_person(c), c.kind == _PRESSURE)
            for place, c in enumerate(table.columns)
            if c in own
        ]
        self.inserts: list[dict[str, Stored]] = []
        self.updates: list[Update] = []
        self.differences: list[Difference] = []

    def compare(self, row: Row, key: Key) -> str:
        """Compare one row; return ``new``, ``changed`` or ``unchanged``."""
        number, cells = row
        existing = self.register.rows.get(key)
        values, typed = self._values(number, cells, key)
        self._check_together(number, values, typed, existing)
        if existing is None:
            self._insert(key, values, typed)
            return "new"
        return self._update(key, existing, cells, values, typed)

    def _values(
        self, number: int, cells: tuple[Cell, ...], key: Key
    ) -> tuple[dict[str, Stored], dict[str, str]]:
        """Return the stored values by attribute and the typed texts by column."""
        values: dict[str, Stored] = {}
        typed: dict[str, str] = {}
        for to in self.columns:
            cell = cells[to.place]
            if cell is None or cell == ():
                continue  # an insert takes the empty ones by itself
            if type(cell) is Quantity:
                typed[to.column.name] = cell.text
                values[to.attribute] = (
                    self._as_shown_pa(number, to.column, cell, key) if to.is_gauge_pressure else cell.value_si
                )
                continue
            if to.is_person:
                self._check_person(number, to.column, str(cell))
            values[to.attribute] = cell
        if self.table.kind.name == "events":
            self._place_event(number, cells, values)
        return values, typed

    def _as_shown_pa(self, number: int, column: Column, quantity: Quantity, key: Key) -> float:
        try:
            return setting_pa(column.name, quantity, key[:3], self.directory)
        except InputError as error:
            self.problems.add_error(self.table.file, number, column.name, quantity.text, error)
            return quantity.value_si

    def _check_person(self, number: int, column: Column, person: str) -> None:
        if not self.directory.knows("people", (person,)):
            sentence = self.directory.sentence_for_unknown("people", (person,))
            self.problems.add(self.table.file, number, column.name, person, sentence)

    def _check_together(
        self, number: int, values: dict[str, Stored], typed: dict[str, str], existing: Existing | None
    ) -> None:
        """Name values that cannot be true together, with those that the register holds already."""

        def value_of(attribute: str) -> Stored:
            value = values.get(attribute)
            if value is None and existing is not None:
                return self.register.value(existing, attribute)
            return value

        def text_of(name: str) -> str:
            column = cast(Column, self.table.kind.column(name))
            if column.attribute in values:
                return typed.get(name) or as_text(cast(Cell, values[column.attribute]))
            assert existing is not None
            return _text_before(existing, column, self.register.value(existing, column.attribute))

        for field, text, sentence in contradictions(self.table.kind.name, value_of, text_of):
            self.problems.add(self.table.file, number, field, text, sentence)

    def _place_event(self, number: int, cells: tuple[Cell, ...], values: dict[str, Stored]) -> None:
        """Put an event at its system, or at the site as a whole."""
        named = {column.name: cell for column, cell in zip(self.table.columns, cells, strict=True)}
        kind, parent = parent_of_event(named)
        values["site_id"] = parent[:2]
        values["system_id"] = parent if kind == "systems" else None
        part = str(named.get("part") or "")
        values["part"] = part
        try:
            if kind == "systems":
                check_part(parent, part, self.directory)
            elif part:
                raise InputError("is a part of no system; expected a system, or an empty part")
        except InputError as error:
            self.problems.add_error(self.table.file, number, "part", part, error)

    def _move_event(
        self, key: Key, existing: Existing, values: Mapping[str, Stored], changed: dict[str, Stored]
    ) -> None:
        """Note that an event belongs to another system; an empty system leaves it where it is."""
        site, system = values["site_id"], values["system_id"]
        former_site = self.register.value(existing, "site_id")
        former = self.register.value(existing, "system_id") or former_site
        if former in {system, site} or (system is None and former_site == site):
            return
        changed["site_id"], changed["system_id"] = site, system
        before, after = shown_key(cast(Key, former)), shown_key(cast(Key, system or site))
        self.differences.append(Difference("events", key_texts(key), "system", before, after))

    def _insert(self, key: Key, values: dict[str, Stored], typed: dict[str, str]) -> None:
        if self.storage.parent is not None:
            values[self.storage.parent_attribute] = key[: self.storage.parent_key_length]
        if self.table.kind.name not in WITHOUT_TYPED:
            values["typed"] = typed
        self.inserts.append(values)

    def _update(
        self,
        key: Key,
        existing: Existing,
        cells: tuple[Cell, ...],
        values: dict[str, Stored],
        typed: dict[str, str],
    ) -> str:
        changed: dict[str, Stored] = {}
        changed_typed: dict[str, str] = {}
        for to in self.columns:
            place, column, after = to.place, to.column, values.get(to.attribute)
            before = self.register.value(existing, to.attribute)
            if cells[place] is None or after is None or after == before:
                continue
            changed[to.attribute] = after
            if column.name in typed:
                changed_typed[column.name] = typed[column.name]
            self.differences.append(
                Difference(
                    self.table.kind.name,
                    key_texts(key),
                    column.name,
                    _text_before(existing, column, before),
                    as_text(cells[place]),
                )
            )
        if self.table.kind.name == "events":
            self._move_event(key, existing, values, changed)
        if not changed:
            return "unchanged"
        self.updates.append(Update(existing.id, existing.version, changed, changed_typed))
        return "changed"


def parent_of_event(named: Mapping[str, Cell]) -> tuple[str, Key]:
    """Return the kind and key of what an event belongs to: a system, or a site as a whole."""
    site = (named.get("customer"), named.get("site"))
    system = named.get("system")
    return ("sites", site) if system is None else ("systems", (*site, system))


def typed_texts(existing: Existing) -> Mapping[str, str]:
    """Return the typed texts of a row of the register."""
    typed = existing.typed
    if isinstance(typed, str):
        typed = json.loads(typed)
    return cast(Mapping[str, str], typed or {})


def _text_before(existing: Existing, column: Column, before: Stored) -> str:
    if isinstance(column.kind, Measure):
        return typed_texts(existing).get(column.name, as_text(cast(Cell, before)))
    return as_text(cast(Cell, before))
