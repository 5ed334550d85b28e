"""Everything that is recorded of one system, as one frozen value for a screen or a report."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime
from typing import Any, cast

from sqlalchemy import Connection, Table, or_, select

from db.models import (
    Act,
    Base,
    Box,
    Change,
    CheckRecord,
    Compressor,
    CurrentCheck,
    Customer,
    Event,
    Person,
    SettingRecord,
    Site,
    System,
)
from fleet.errors import UnknownNameError

Facts = Mapping[str, Any]
"""A row by the dictionary's names inside; ``typed`` holds the quantities as they were typed."""


@dataclass(frozen=True, slots=True)
class SettingEntry:
    """One record of a setting."""

    id: int
    part: str
    setting: str
    value_si: float | None
    """None withdraws what stood before."""
    dimension: str
    typed: str
    stage: str
    recorded_on: date | None
    recorded_by: str | None
    confirmed: str | None
    note: str | None
    act_id: int | None


@dataclass(frozen=True, slots=True)
class ActEntry:
    """One act that concerned the system, with what it changed in rows."""

    id: int
    at: datetime
    by: str | None
    what: str
    note: str | None
    undoes_id: int | None
    changes: tuple[Facts, ...]


@dataclass(frozen=True, slots=True)
class SystemSheet:
    """One system with everything around it."""

    customer: Facts
    site: Facts
    system: Facts
    boxes: tuple[Facts, ...]
    compressors: tuple[Facts, ...]
    """Every life, by position and the day it began."""
    settings: tuple[SettingEntry, ...]
    """What holds now, one record for each part and setting, withdrawn ones left out."""
    history: tuple[SettingEntry, ...]
    """Every record of a setting, the latest first."""
    events: tuple[Facts, ...]
    checks: tuple[Facts, ...]
    check_states: tuple[Facts, ...]
    acts: tuple[ActEntry, ...]

    def setting(self, part: str, code: str) -> SettingEntry | None:
        """Return what holds now for one setting of a part."""
        return next((e for e in self.settings if (e.part, e.setting) == (part, code)), None)


def read_sheet(connection: Connection, system_id: int) -> SystemSheet:
    """Return the sheet of a system.

    Raises:
        UnknownNameError: there is no such system.
    """
    systems = _rows(connection, System, System.id == system_id)
    if not systems:
        raise UnknownNameError("system", str(system_id), ())
    system = systems[0]
    site = _rows(connection, Site, Site.id == system["site_id"])[0]
    people: dict[int | None, str] = {
        row.id: row.person for row in connection.execute(select(Person.id, Person.person))
    }
    history = _history(connection, system_id, people)
    boxes = _rows(connection, Box, Box.system_id == system_id, Box.box)
    compressors = _rows(
        connection, Compressor, Compressor.system_id == system_id, Compressor.position, Compressor.in_service
    )
    checks = _rows(connection, CheckRecord, CheckRecord.system_id == system_id, CheckRecord.done_on.desc())
    events = _rows(connection, Event, Event.system_id == system_id, Event.happened_on.desc(), Event.id.desc())
    return SystemSheet(
        customer=_rows(connection, Customer, Customer.id == site["customer_id"])[0],
        site=site,
        system=system,
        boxes=boxes,
        compressors=compressors,
        settings=_holding(history),
        history=tuple(reversed(history)),
        events=_named(events, people, "recorded_by"),
        checks=_named(checks, people, "done_by"),
        check_states=_rows(connection, CurrentCheck, CurrentCheck.system_id == system_id),
        acts=_acts(connection, system, boxes, compressors, (history, checks, events), people),
    )


def read_facts(connection: Connection, model: type[Base], key: int) -> Facts | None:
    """Return one row by its key, None where there is none."""
    rows = _rows(connection, model, cast(Table, model.__table__).c.id == key)
    return rows[0] if rows else None


def _rows(connection: Connection, model: type[Base], condition: Any, *order: Any) -> tuple[Facts, ...]:
    table = cast(Table, model.__table__)
    found = connection.execute(select(table).where(condition).order_by(*order)).mappings()
    return tuple(dict(row) for row in found)


def _history(
    connection: Connection, system_id: int, people: Mapping[int | None, str]
) -> tuple[SettingEntry, ...]:
    """Return every record, the earliest first: of one day as-left after as-found, a later one last."""
    record = SettingRecord
    rows = _rows(
        connection,
        record,
        record.system_id == system_id,
        record.recorded_on.nulls_first(),
        record.stage,
        record.id,
    )
    return tuple(
        SettingEntry(
            recorded_by=people.get(row["recorded_by_id"]),
            **{name: row[name] for name in SettingEntry.__slots__ if name != "recorded_by"},
        )
        for row in rows
    )


def _holding(history: Sequence[SettingEntry]) -> tuple[SettingEntry, ...]:
    latest = {(entry.part, entry.setting): entry for entry in history}
    return tuple(entry for _, entry in sorted(latest.items()) if entry.value_si is not None)


def _named(rows: tuple[Facts, ...], people: Mapping[int | None, str], who: str) -> tuple[Facts, ...]:
    return tuple({**row, who: people.get(row[f"{who}_id"])} for row in rows)


def _acts(
    connection: Connection,
    system: Facts,
    boxes: tuple[Facts, ...],
    compressors: tuple[Facts, ...],
    records: tuple[Sequence[Any], ...],
    people: Mapping[int | None, str],
) -> tuple[ActEntry, ...]:
    """Return the acts that wrote records of the system or changed its rows, the latest first."""
    rows_of = {"systems": [system], "boxes": boxes, "compressors": compressors}
    named = [
        (Change.table == table) & Change.row_id.in_([str(row["id"]) for row in rows])
        for table, rows in rows_of.items()
        if rows
    ]
    changes: dict[int, list[Facts]] = {}
    for change in connection.execute(select(cast(Table, Change.__table__)).where(or_(*named))).mappings():
        changes.setdefault(change["act_id"], []).append(dict(change))
    wanted = set(changes) | {_act_of(entry) for entries in records for entry in entries}
    found = connection.execute(
        select(cast(Table, Act.__table__)).where(Act.id.in_(wanted - {None})).order_by(Act.id.desc())
    )
    return tuple(
        ActEntry(
            id=act.id,
            at=act.at,
            by=people.get(act.by_id),
            what=act.what,
            note=act.note,
            undoes_id=act.undoes_id,
            changes=tuple(changes.get(act.id, ())),
        )
        for act in found
    )


def _act_of(entry: Any) -> int | None:
    act: int | None = entry["act_id"] if isinstance(entry, dict) else entry.act_id
    return act
