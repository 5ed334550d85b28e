"""Read of the register what an import is compared with.

A few customers are read alone, so that a small file asks little of a large register.
"""

from collections.abc import Callable, Mapping
from typing import Any, cast

from sqlalchemy import Connection, Engine, Select, String, func, select, type_coerce

from db.models import (
    Act,
    Base,
    Box,
    CheckRecord,
    Compressor,
    Customer,
    Event,
    Person,
    SettingRecord,
    Site,
    System,
)
from fleet.exchange.gathering import Gathered
from fleet.exchange.state import Existing, RegisterState, RegisterTable
from fleet.exchange.storage import APPEND_ONLY, WITHOUT_TYPED, Key, Stored, is_person, storage

MODELS: Mapping[str, type[Base]] = {
    "people": Person,
    "customers": Customer,
    "sites": Site,
    "systems": System,
    "boxes": Box,
    "compressors": Compressor,
    "settings": SettingRecord,
    "events": Event,
    "checks": CheckRecord,
}
_NAMED = ("people", "customers", "sites", "systems", "boxes", "compressors")
"""Kinds that rows of other kinds refer to."""
_FACTS = {
    "sites": ("elevation_m",),
    "systems": ("low_pressure_sensor", "high_pressure_sensor", "installed"),
    "boxes": ("installed", "suction_group"),
}
_ELSEWHERE: Key = ("another customer",)
"""Where an event belongs to a customer that was not read."""
_MOST_CUSTOMERS = 200
"""With more customers than these, everything is read."""


def read_state(engine: Engine, gathered: Gathered) -> RegisterState:
    """Read the rows that the files may refer to or change, and the last act."""
    with engine.connect() as connection:
        return _Reader(connection, gathered).read()


def last_act(connection: Connection) -> int:
    """Return the number of the last act of the register, 0 before the first."""
    return connection.scalar(select(func.max(Act.id))) or 0


class _Reader:
    """Reads the kinds parents first, so that each key begins with its parent's."""

    def __init__(self, connection: Connection, gathered: Gathered) -> None:
        self.connection, self.gathered = connection, gathered
        self.customers = _customers_of(gathered)
        self.keys: dict[str, dict[int, Key]] = {}
        self.people: dict[int | None, str] = {}

    def read(self) -> RegisterState:
        stamp = last_act(self.connection)
        tables: dict[str, RegisterTable] = {}
        for name in MODELS:
            if name in _NAMED or name in self.gathered.tables or self._has_settings(name):
                tables[name] = self._read_kind(name)
            if name == "people":
                self.people = {e.id: str(key[0]) for key, e in tables[name].rows.items()}
        return RegisterState(tables, stamp)

    def _has_settings(self, name: str) -> bool:
        """Settings also come with columns of systems.csv and boxes.csv."""
        return name == "settings" and bool({"systems", "boxes"} & self.gathered.tables.keys())

    def _read_kind(self, name: str) -> RegisterTable:
        model = MODELS[name]
        attributes = self._attributes(name)
        id_column, layout = _column(model, "id"), {a: place for place, a in enumerate(attributes)}
        version = id_column if name in APPEND_ONLY else _column(model, "version")
        typed = id_column if name in WITHOUT_TYPED else type_coerce(_column(model, "typed"), String)
        query = select(id_column, version, typed, *(_column(model, a) for a in attributes))
        table = RegisterTable(layout)
        key_of = self._key_reader(name, layout)
        keys = self.keys.setdefault(name, {})
        people = [place for attribute, place in layout.items() if attribute in _person_attributes(name)]
        # In the order of their ids, so that of records under one key the latest remains.
        for id_, row_version, row_typed, *values in self.connection.execute(
            self._narrowed(name, query).order_by(id_column)
        ):
            for place in people:
                values[place] = self.people.get(values[place])
            key = key_of(values)
            if name == "events":
                self._name_parents(values, layout)
            table.rows[key] = Existing(id_, row_version, tuple(values), row_typed)
            keys[id_] = key
        return table

    def _attributes(self, name: str) -> tuple[str, ...]:
        of = storage(name)
        if name in self.gathered.tables or name in {"settings", "checks"}:
            own = tuple(column.attribute for column in of.own_columns)
            own = tuple("value_si" if attribute == "value" else attribute for attribute in own)
        else:
            key = tuple(column.attribute for column in of.own_columns if column.name in of.kind.key)
            own = key + tuple(fact for fact in _FACTS.get(name, ()) if fact not in key)
        extra = {"settings": ("dimension",), "events": ("site_id", "system_id", "part")}.get(name, ())
        parent = () if of.parent is None else (of.parent_attribute,)
        return tuple(dict.fromkeys((*parent, *own, *extra)))

    def _key_reader(self, name: str, layout: Mapping[str, int]) -> Callable[[list[Stored]], Key]:
        of = storage(name)
        own = [layout[column] for column in of.kind.key[of.parent_key_length :]]
        if of.parent is None:
            return lambda values: tuple(values[place] for place in own)
        parents, parent = self.keys[of.parent], layout[of.parent_attribute]
        return lambda values: parents[cast(int, values[parent])] + tuple(values[place] for place in own)

    def _name_parents(self, values: list[Stored], layout: Mapping[str, int]) -> None:
        for attribute, kind in (("site_id", "sites"), ("system_id", "systems")):
            id_ = cast(int, values[layout[attribute]])
            values[layout[attribute]] = None if id_ is None else self.keys[kind].get(id_, _ELSEWHERE)

    def _narrowed(self, name: str, query: Select[Any]) -> Select[Any]:
        """Keep to the customers of the files."""
        if self.customers is None or name in {"people", "customers", "events"}:
            return query
        of_customers = select(Customer.id).where(Customer.customer.in_(self.customers))
        if name == "sites":
            return query.where(Site.customer_id.in_(of_customers))
        of_sites = select(Site.id).where(Site.customer_id.in_(of_customers))
        if name == "systems":
            return query.where(System.site_id.in_(of_sites))
        of_systems = select(System.id).where(System.site_id.in_(of_sites))
        return query.where(_column(MODELS[name], "system_id").in_(of_systems))


def _person_attributes(name: str) -> set[str]:
    return {column.attribute for column in storage(name).own_columns if is_person(column)}


def _column(model: type[Base], attribute: str) -> Any:
    return getattr(model, attribute)


def _customers_of(gathered: Gathered) -> list[str] | None:
    """Return the customers that the files name, None where they are too many to ask for."""
    found: set[object] = set()
    for table in gathered.tables.values():
        place = table.place("customer")
        if place is not None:
            found |= {cells[place] for _, cells in table.rows}
    names = [str(name) for name in found if name is not None]
    return sorted(names) if len(names) <= _MOST_CUSTOMERS else None
