"""Correcting settings: the window follows while one types, what is saved is appended, undo too."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date

import numpy as np
from sqlalchemy import select

from db.columns import fetch_systems
from db.models import Act, SettingRecord, System
from db.work import Work
from fleet.atmosphere import as_read_pa
from fleet.desk.auditing import run_audit
from fleet.desk.opened import Desk
from fleet.desk.windows import SystemWindows, windows_of
from fleet.dictionary.settings import SETTING_BY_CODE
from fleet.dictionary.words import UNRECORDED, Confirmed, Sensor, Stage
from fleet.errors import InputError, UsageError
from fleet.targets.columns import Columns, FleetColumns
from fleet.units import Dimension, Quantity

CONFIRMATIONS: tuple[str, ...] = tuple(word.value for word in Confirmed)
WHAT = "correct settings"
Key = tuple[str, str]
"""Part and setting."""


@dataclass(frozen=True, slots=True)
class Correction:
    """One setting as it was found and as it is left, as typed; empty where it was not looked at."""

    part: str
    setting: str
    found: str = ""
    left: str = ""


@dataclass(frozen=True, slots=True)
class Preview:
    """What the windows would say of typed values."""

    windows: SystemWindows
    problems: Mapping[Key, str]
    """Sentences about texts that are no quantities; such a setting keeps what is recorded."""


@dataclass(frozen=True, slots=True)
class Saved:
    """What a correction did."""

    act_id: int
    settled: int
    """How many findings of the system ended with it."""
    open: int
    """How many are open still."""


def columns_of(desk: Desk, system_id: int) -> FleetColumns:
    """Return one system as columns, to be looked at with other settings."""
    with desk.engine.connect() as connection:
        return fetch_systems(connection, [system_id])


def preview(desk: Desk, fleet: FleetColumns, typed: Mapping[Key, str]) -> Preview:
    """Return the windows of one system as if typed values were left in it; nothing is written."""
    problems: dict[Key, str] = {}
    for key, text in typed.items():
        if not text.strip():
            continue
        try:
            value = read_setting(key[1], text)
        except InputError as error:
            problems[key] = error.message
            continue
        fleet = _with_setting(fleet, key, value)
    return Preview(windows_of(fleet, desk.units), problems)


def read_setting(setting: str, text: str) -> Quantity | float:
    """Read the typed value of a setting.

    Raises:
        InputError: the message says what would be accepted.
    """
    value = SETTING_BY_CODE[setting].kind.read(text.strip())
    assert isinstance(value, Quantity | int | float)
    return value


def _with_setting(fleet: FleetColumns, key: Key, value: Quantity | float) -> FleetColumns:
    part, setting = key
    kind = SETTING_BY_CODE[setting]
    dimension = value.dimension if isinstance(value, Quantity) else None
    name = kind.field_for(dimension)
    si = _as_read(fleet, value) if isinstance(value, Quantity) else float(value)
    if not part:
        return replace(fleet, systems=_set(fleet.systems, name, 0, si))
    if part.startswith("group "):
        row = fleet.group_tags.index(part.removeprefix("group "))
        return replace(fleet, groups=_set(fleet.groups, name, row, si))
    if part.startswith("compressor "):
        row = fleet.compressors.position.tolist().index(int(part.removeprefix("compressor ")))
        return replace(fleet, compressors=_set(fleet.compressors, name, row, si))
    return replace(fleet, boxes=_set(fleet.boxes, name, fleet.box_tags.index(part), si))


def _set(columns: Columns, name: str, row: int, value: float) -> Columns:
    if name not in type(columns).__slots__:
        return columns
    changed = np.array(getattr(columns, name), copy=True)
    changed[row] = value
    return replace(columns, **{name: changed})


def _as_read(fleet: FleetColumns, value: Quantity) -> float:
    if value.dimension not in {Dimension.PRESSURE, Dimension.PRESSURE_ABSOLUTE}:
        return value.value_si
    code = int(fleet.systems.low_pressure_sensor[0])
    sensor = None if code == UNRECORDED else list(Sensor)[code].value
    elevation = float(fleet.systems.elevation_m[0])
    return as_read_pa(value, sensor, 0.0 if np.isnan(elevation) else elevation)


def save(
    desk: Desk,
    system_id: int,
    corrections: Sequence[Correction],
    *,
    by: str,
    on: date,
    confirmed: str,
    note: str = "",
    version: int | None = None,
) -> Saved:
    """Append what was found and what is left, audit the system, and say what settled.

    Raises:
        UsageError: nothing is to be saved, or the day lies ahead.
        InputError: a text is no value of its setting; nothing is saved.
        UnknownNameError: nobody of that name.
        ChangedMeanwhileError: somebody else was faster; nothing is overwritten.
    """
    if on > desk.today:
        raise UsageError(f"{on.isoformat()} lies ahead of today, {desk.today.isoformat()}.")
    if confirmed not in CONFIRMATIONS:
        raise UsageError(f"{confirmed!r} is none of {', '.join(CONFIRMATIONS)}.")
    person = desk.person_id(by)
    records = [
        _record(system_id, correction, stage, text, on, person, confirmed, note)
        for correction in corrections
        for stage, text in ((Stage.AS_FOUND, correction.found), (Stage.AS_LEFT, correction.left))
        if text.strip()
    ]
    if not records:
        raise UsageError("Nothing was typed that differs from what is recorded.")
    before = _open_findings(desk, system_id)
    with Work(desk.engine, by=person, what=WHAT, today=desk.today, now=desk.now()) as work:
        if version is not None:
            work.get(System, system_id, version=version)
        work.add(*records)
        act = work.commit()
    run_audit(desk)
    after = _open_findings(desk, system_id)
    assert act is not None
    return Saved(act, len(before - after), len(after))


def _record(
    system_id: int,
    correction: Correction,
    stage: Stage,
    text: str,
    on: date,
    person: int | None,
    confirmed: str,
    note: str,
) -> SettingRecord:
    value = read_setting(correction.setting, text)
    quantity = value if isinstance(value, Quantity) else None
    return SettingRecord(
        system_id=system_id,
        part=correction.part,
        setting=correction.setting,
        value_si=value.value_si if isinstance(value, Quantity) else float(value),
        dimension=quantity.dimension.value if quantity else "",
        typed=text.strip(),
        stage=stage.value,
        recorded_on=on,
        recorded_by_id=person,
        confirmed=confirmed,
        note=note or None,
    )


def _open_findings(desk: Desk, system_id: int) -> set[tuple[str, str, str]]:
    sql = (
        "SELECT part, rule, setting FROM findings WHERE system_id = {system} AND from_day <= {day} "
        "AND (until_day IS NULL OR until_day > {day})"
    )
    with desk.engine.connect() as connection:
        rows = connection.exec_driver_sql(sql.format(system=int(system_id), day=desk.today_day))
        return {(part, rule, setting) for part, rule, setting in rows}


def undo(desk: Desk, act_id: int) -> Saved:
    """Append the values that stood before an act; nothing is taken out of the history.

    Raises:
        UsageError: the act is no correction of settings, or was undone already.
    """
    with Work(
        desk.engine,
        by=desk.person_id(),
        what=f"undo: {WHAT}",
        today=desk.today,
        now=desk.now(),
        undoes=act_id,
    ) as work:
        if work.session.scalar(select(Act.id).where(Act.undoes_id == act_id, Act.id != work.act_id)):
            raise UsageError("That was undone already.")
        done = list(work.session.scalars(select(SettingRecord).where(SettingRecord.act_id == act_id)))
        if not done:
            raise UsageError("There is nothing to undo.")
        systems = {record.system_id for record in done}
        latest = {(r.system_id, r.part, r.setting): r for r in done}
        work.add(*(_value_before(work, record, act_id) for record in latest.values()))
        act = work.commit()
    run_audit(desk)
    assert act is not None
    return Saved(act, 0, sum(len(_open_findings(desk, system)) for system in systems))


def _value_before(work: Work, record: SettingRecord, act_id: int) -> SettingRecord:
    """Return a record like the one that stood before; without a value where there was none."""
    stage_order = SettingRecord.stage  # as-found sorts before as-left
    before = work.session.scalar(
        select(SettingRecord)
        .where(
            SettingRecord.system_id == record.system_id,
            SettingRecord.part == record.part,
            SettingRecord.setting == record.setting,
            SettingRecord.id < record.id,
            SettingRecord.act_id.is_distinct_from(act_id),
        )
        .order_by(SettingRecord.recorded_on.desc().nulls_last(), stage_order.desc(), SettingRecord.id.desc())
        .limit(1)
    )
    return SettingRecord(
        system_id=record.system_id,
        part=record.part,
        setting=record.setting,
        value_si=before.value_si if before else None,
        dimension=before.dimension if before else "",
        typed=before.typed if before else "",
        stage=Stage.AS_LEFT.value,
        recorded_on=record.recorded_on,
        recorded_by_id=work.by,
        confirmed=before.confirmed if before else None,
        note="undo: the value before",
    )


def last_correction(desk: Desk) -> int | None:
    """Return the last correction that was not undone, None where there is none."""
    undone = select(Act.undoes_id).where(Act.undoes_id.is_not(None))
    wanted = select(Act.id).where(Act.what == WHAT, Act.id.not_in(undone)).order_by(Act.id.desc()).limit(1)
    with desk.engine.connect() as connection:
        found = connection.execute(wanted).scalar()
    return None if found is None else int(found)
