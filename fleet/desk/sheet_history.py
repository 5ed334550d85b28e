"""What happened to one system: settings, events and checks merged, and the lives of its compressors."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import date
from itertools import groupby

from db.sheet import Facts, SettingEntry, SystemSheet
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
    explained: Derivation


def history_of(read: SystemSheet, units: UnitSystem) -> tuple[HistoryRow, ...]:
    """Return everything that happened to a system, newest first, what has no day last."""
    rows = [
        *_setting_rows(read.history, units),
        *(_event_row(event) for event in read.events),
        *(_check_row(check) for check in read.checks),
    ]
    rows.sort(key=lambda row: row.day or date.min, reverse=True)
    return tuple(rows)


# Settings ------------------------------------------------------------------------------------------------


def _setting_rows(records: Iterable[SettingEntry], units: UnitSystem) -> Iterator[HistoryRow]:
    newest_first = sorted(records, key=lambda one: one.id, reverse=True)
    together: dict[tuple[object, ...], list[SettingEntry]] = {}
    for one in newest_first:
        if one.recorded_on is not None:
            key = (one.recorded_on, one.act_id, one.part, one.setting)
            together.setdefault(key, []).insert(0, one)
    for group in together.values():
        yield _setting_row(group, units)
    undated = sorted((one for one in newest_first if one.recorded_on is None), key=lambda one: one.part)
    for part, of_part in groupby(undated, key=lambda one: one.part):
        yield _first_row(part, list(of_part)[::-1], units)


def _setting_row(records: list[SettingEntry], units: UnitSystem) -> HistoryRow:
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
        ("by", last.recorded_by or ""),
        ("note", last.note or ""),
    )
    return HistoryRow(day, day_words(day), last.recorded_by or "", what, explained)


def _found_left(found: SettingEntry | None, left: SettingEntry | None, units: UnitSystem) -> str:
    if found is not None and left is not None:
        before, after = record_text(found, units), record_text(left, units)
        return f"{before}, left so" if found.value_si == left.value_si else f"{before} → {after}"
    if found is not None:
        return f"found at {record_text(found, units)}"
    assert left is not None
    back = "back to " if (left.note or "").startswith("undo") else "set to "
    return "withdrawn" if left.value_si is None else back + record_text(left, units)


def _first_row(part: str, records: list[SettingEntry], units: UnitSystem) -> HistoryRow:
    texts = [f"{SETTING_BY_CODE[one.setting].label} {record_text(one, units)}" for one in records]
    where = f"{part} " if part else ""
    explained = plain_derivation(
        f"{where}as first recorded, without a day",
        *((SETTING_BY_CODE[one.setting].label, record_text(one, units)) for one in records),
    )
    return HistoryRow(None, NO_DAY, "", where + ", ".join(texts), explained)


def record_text(record: SettingEntry, units: UnitSystem) -> str:
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


# Events and checks ---------------------------------------------------------------------------------------


def _event_row(event: Facts) -> HistoryRow:
    kind, day = event["kind"].replace("-", " "), event["happened_on"]
    note, part, who = event["note"] or "", event["part"], event["recorded_by"] or ""
    explained = plain_derivation(
        f"{event['reference']}: {kind}, {day_words(day)}",
        ("part", part),
        ("compressor", event["compressor_serial"] or ""),
        ("by", who),
        ("evidence", ", ".join(event["evidence"] or ()).replace("_", " ")),
        ("note", note),
    )
    what = (f"{kind}, {note}" if note else kind) + (f" ({part})" if part else "")
    return HistoryRow(day, day_words(day), who, what, explained)


def _check_row(check: Facts) -> HistoryRow:
    label = f"{check['part']} {check['check_code'].replace('_', ' ')}".strip()
    day, who = check["done_on"], check["done_by"] or ""
    outcome = check["result"].replace("-", " ")
    found = "" if check["found"] in {None, "nothing"} else f", {check['found']}"
    explained = plain_derivation(
        f"{label}, {day_words(day)}",
        ("result", outcome),
        ("found", check["found"] or ""),
        ("until", "" if check["until"] is None else day_words(check["until"])),
        ("reason", check["reason"] or ""),
        ("minutes", check["typed"].get("minutes", "")),
        ("by", who),
    )
    return HistoryRow(day, day_words(day), who, f"{label} {outcome}{found}", explained)


# Compressors ---------------------------------------------------------------------------------------------


def lives_of(read: SystemSheet) -> tuple[CompressorLife, ...]:
    """Return the compressors that are or were in a system, by position, the oldest first."""
    several = len({compressor["position"] for compressor in read.compressors}) > 1
    return tuple(_life(compressor, several) for compressor in read.compressors)


def _life(compressor: Facts, several: bool) -> CompressorLife:
    position, came, went = compressor["position"], compressor["in_service"], compressor["out_of_service"]
    serial = compressor["serial"] or f"compressor {position}"
    reason = (compressor["reason_out"] or "reason not recorded").replace("_", " ") if went else "in service"
    explained = plain_derivation(
        f"Compressor {position}, {serial}",
        ("kind", (compressor["kind"] or "not recorded").replace("-", " ")),
        ("made by", f"{compressor['make'] or ''} {compressor['model'] or ''}".strip()),
        ("came", "not recorded" if came is None else day_words(came)),
        ("went", "" if went is None else f"{day_words(went)}, {reason}"),
        ("crankcase heater", compressor["crankcase_heater"] or "not recorded"),
        ("lowest suction", compressor["typed"].get("lowest_suction", "not recorded")),
    )
    return CompressorLife(
        name=f"{position}  {serial}" if several and compressor["serial"] else serial,
        position=position,
        start=came,
        end=went,
        reason=reason,
        died=went is not None and compressor["reason_out"] in CAUSES,
        explained=explained,
    )
