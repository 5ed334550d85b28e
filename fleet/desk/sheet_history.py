"""What happened to one system: settings, events and checks merged, and the lives of its compressors."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from itertools import groupby

from sqlalchemy import or_, select
from sqlalchemy.orm import Session

from db.models import CheckRecord, Compressor, Event, Person, SettingRecord, System
from fleet.desk.derivation import Derivation, plain_derivation, setting_name
from fleet.desk.sentences import day_words
from fleet.dictionary.settings import SETTING_BY_CODE
from fleet.dictionary.words import CAUSES, Stage
from fleet.units import Dimension, UnitSystem, show

NO_DAY = "undated"


@dataclass(frozen=True, slots=True)
class HistoryRow:
    """One thing that happened."""

    day: date | None
    day_words: str
    who: str
    what: str
    explained: Derivation


@dataclass(frozen=True, slots=True)
class CompressorLife:
    """One compressor from the day it came to the day it went."""

    name: str
    position: int
    start: date | None
    end: date | None
    reason: str
    """Why it was taken out, in words; ``in service`` of the one that runs."""
    died: bool
    flooded: bool
    explained: Derivation


Names = Mapping[int, str]
"""People by key."""


def people_of(session: Session) -> Names:
    """Return the tags of people by key."""
    return {person.id: person.person for person in session.scalars(select(Person))}


def record_order(record: SettingRecord) -> tuple[date, str, int]:
    """Return what sorts records of one setting: without a day first, as-left after as-found."""
    return record.recorded_on or date.min, record.stage, record.id


def history_of(
    session: Session, system: System, records: Iterable[SettingRecord], names: Names, units: UnitSystem
) -> tuple[HistoryRow, ...]:
    """Return everything that happened to a system, newest first, what has no day last."""
    rows = [
        *_setting_rows(records, names, units),
        *_event_rows(session, system, names),
        *_check_rows(session, system, names),
    ]
    rows.sort(key=lambda row: row.day or date.min, reverse=True)
    return tuple(rows)


# Settings ------------------------------------------------------------------------------------------------


def _setting_rows(
    records: Iterable[SettingRecord], names: Names, units: UnitSystem
) -> Iterator[HistoryRow]:
    newest_first = sorted(records, key=lambda one: one.id, reverse=True)
    dated = [one for one in newest_first if one.recorded_on is not None]
    for _, group in groupby(dated, key=lambda one: (one.recorded_on, one.act_id, one.part, one.setting)):
        yield _setting_row(list(group)[::-1], names, units)
    undated = sorted((one for one in newest_first if one.recorded_on is None), key=lambda one: one.part)
    for part, group in groupby(undated, key=lambda one: one.part):
        yield _first_row(part, list(group)[::-1], units)


def _setting_row(records: list[SettingRecord], names: Names, units: UnitSystem) -> HistoryRow:
    last = records[-1]
    found = next((one for one in records if one.stage == Stage.AS_FOUND), None)
    left = next((one for one in reversed(records) if one.stage == Stage.AS_LEFT), None)
    label = setting_label(last.part, last.setting)
    confirmed = _confirmed(last.confirmed)
    what = f"{label} {_found_left(found, left, units)}, {confirmed}"
    day = last.recorded_on
    assert day is not None
    explained = plain_derivation(
        f"{label}, {day_words(day)}",
        ("as found", "" if found is None else record_text(found, units)),
        ("as left", "" if left is None else record_text(left, units)),
        ("read with", confirmed),
        ("by", _who(names, last.recorded_by_id)),
        ("note", last.note or ""),
    )
    return HistoryRow(day, day_words(day), _who(names, last.recorded_by_id), what, explained)


def _found_left(found: SettingRecord | None, left: SettingRecord | None, units: UnitSystem) -> str:
    if found is not None and left is not None:
        before, after = record_text(found, units), record_text(left, units)
        return f"{before}, left so" if found.value_si == left.value_si else f"{before} → {after}"
    if found is not None:
        return f"found at {record_text(found, units)}"
    assert left is not None
    back = "back to " if (left.note or "").startswith("undo") else "set to "
    return "withdrawn" if left.value_si is None else back + record_text(left, units)


def _first_row(part: str, records: list[SettingRecord], units: UnitSystem) -> HistoryRow:
    texts = [f"{SETTING_BY_CODE[one.setting].label} {record_text(one, units)}" for one in records]
    where = f"{part} " if part else ""
    explained = plain_derivation(
        f"{where}as first recorded, without a day",
        *((SETTING_BY_CODE[one.setting].label, record_text(one, units)) for one in records),
    )
    return HistoryRow(None, NO_DAY, "", where + ", ".join(texts), explained)


def record_text(record: SettingRecord, units: UnitSystem) -> str:
    """Return a recorded value as typed; shown in the desk's units where no text was typed."""
    if record.value_si is None:
        return "nothing recorded"
    if record.typed:
        return record.typed
    kind = SETTING_BY_CODE[record.setting]
    if not record.dimension:
        return f"{record.value_si:g}{kind.count_unit}"
    return show(record.value_si, Dimension(record.dimension), units)


def setting_label(part: str, setting: str) -> str:
    """Return a setting with its part, as lists name it."""
    return setting_name(part, SETTING_BY_CODE[setting].label)


def _confirmed(word: str | None) -> str:
    return "not confirmed" if word in {None, "none"} else str(word)


def _who(names: Names, key: int | None) -> str:
    return names.get(key, "") if key is not None else ""


# Events and checks ---------------------------------------------------------------------------------------


def _event_rows(session: Session, system: System, names: Names) -> Iterator[HistoryRow]:
    query = (
        select(Event)
        .where(
            or_(Event.system_id == system.id, Event.system_id.is_(None) & (Event.site_id == system.site_id))
        )
        .order_by(Event.happened_on.desc(), Event.id.desc())
    )
    for event in session.scalars(query):
        kind = event.kind.replace("-", " ")
        parts = [kind, event.note or "", f"({event.part})" if event.part else ""]
        explained = plain_derivation(
            f"{event.reference}: {kind}, {day_words(event.happened_on)}",
            ("part", event.part),
            ("compressor", event.compressor_serial or ""),
            ("by", _who(names, event.recorded_by_id)),
            ("evidence", ", ".join(event.evidence or ()).replace("_", " ")),
            ("note", event.note or ""),
        )
        what = ", ".join(part for part in parts[:2] if part) + (f" {parts[2]}" if parts[2] else "")
        who = _who(names, event.recorded_by_id)
        yield HistoryRow(event.happened_on, day_words(event.happened_on), who, what, explained)


def _check_rows(session: Session, system: System, names: Names) -> Iterator[HistoryRow]:
    query = (
        select(CheckRecord)
        .where(CheckRecord.system_id == system.id)
        .order_by(CheckRecord.done_on.desc(), CheckRecord.id.desc())
    )
    for record in session.scalars(query):
        label = f"{record.part} {record.check_code.replace('_', ' ')}".strip()
        outcome = record.result.replace("-", " ")
        found = "" if record.found in {None, "nothing"} else f", {record.found}"
        explained = plain_derivation(
            f"{label}, {day_words(record.done_on)}",
            ("result", outcome),
            ("found", record.found or ""),
            ("until", "" if record.until is None else day_words(record.until)),
            ("reason", record.reason or ""),
            ("minutes", record.typed.get("minutes", "")),
            ("by", _who(names, record.done_by_id)),
        )
        who = _who(names, record.done_by_id)
        what = f"{label} {outcome}{found}"
        yield HistoryRow(record.done_on, day_words(record.done_on), who, what, explained)


# Compressors ---------------------------------------------------------------------------------------------


def lives_of(session: Session, system: System) -> tuple[CompressorLife, ...]:
    """Return the compressors that are or were in a system, the oldest first."""
    query = select(Compressor).where(Compressor.system_id == system.id)
    found = sorted(session.scalars(query), key=lambda c: (c.position, c.in_service or date.min, c.id))
    several = len({compressor.position for compressor in found}) > 1
    return tuple(_life(compressor, several) for compressor in found)


def _life(compressor: Compressor, several: bool) -> CompressorLife:
    serial = compressor.serial or f"compressor {compressor.position}"
    name = f"{compressor.position}  {serial}" if several and compressor.serial else serial
    alive = compressor.out_of_service is None
    reason = "in service" if alive else (compressor.reason_out or "reason not recorded").replace("_", " ")
    end = "" if compressor.out_of_service is None else f"{day_words(compressor.out_of_service)}, {reason}"
    explained = plain_derivation(
        f"Compressor {compressor.position}, {serial}",
        ("kind", (compressor.kind or "not recorded").replace("-", " ")),
        ("made by", f"{compressor.make or ''} {compressor.model or ''}".strip()),
        ("came", "not recorded" if compressor.in_service is None else day_words(compressor.in_service)),
        ("went", end),
        ("crankcase heater", compressor.crankcase_heater or "not recorded"),
        ("lowest suction", compressor.typed.get("lowest_suction", "not recorded")),
    )
    return CompressorLife(
        name=name,
        position=compressor.position,
        start=compressor.in_service,
        end=compressor.out_of_service,
        reason=reason,
        died=not alive and compressor.reason_out in CAUSES,
        flooded=compressor.reason_out == "flooded_start",
        explained=explained,
    )
