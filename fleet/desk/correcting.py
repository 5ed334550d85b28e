"""Correcting settings: the window follows while one types, what is saved is appended, undo too."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime

import numpy as np
from sqlalchemy import select

from db.columns import fetch_systems
from db.models import Act, SettingRecord, Site, System
from db.work import Work
from fleet.atmosphere import as_shown_pa
from fleet.desk.auditing import run_audit
from fleet.desk.opened import Desk
from fleet.desk.undoing import before_of
from fleet.desk.windows import SystemWindows, windows_of
from fleet.dictionary.settings import SETTING_BY_CODE
from fleet.dictionary.words import UNRECORDED, Confirmed, Sensor, Stage
from fleet.errors import ChangedMeanwhileError, InputError, UsageError
from fleet.targets.columns import Columns, FleetColumns
from fleet.text import clean
from fleet.units import Quantity

CONFIRMATIONS: tuple[str, ...] = tuple(word.value for word in Confirmed)
WHAT = "correct settings"
LONGEST_TYPED, LONGEST_NOTE = 60, 2000
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
            fleet = _with_setting(fleet, key, read_setting(key[1], text))
        except InputError as error:
            problems[key] = error.message
    return Preview(windows_of(fleet, desk.units), problems)


def read_setting(setting: str, text: str) -> Quantity | float:
    """Read the typed value of a setting.

    Raises:
        InputError: the message says what would be accepted.
    """
    typed = clean(text).strip()
    if len(typed) > LONGEST_TYPED:
        raise InputError(f"{len(typed)} characters; expected {SETTING_BY_CODE[setting].kind.accepted}.")
    value = SETTING_BY_CODE[setting].kind.read(typed)
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
    code = int(fleet.systems.low_pressure_sensor[0])
    sensor = None if code == UNRECORDED else list(Sensor)[code].value
    elevation = float(fleet.systems.elevation_m[0])
    return as_shown_pa(value, sensor, None if np.isnan(elevation) else elevation)


def save(
    desk: Desk,
    system_id: int,
    corrections: Sequence[Correction],
    *,
    by: str,
    on: date,
    confirmed: str,
    note: str = "",
    seen: int | None = None,
) -> Saved:
    """Append what was found and what is left, audit the system, and say what settled.

    Parameters
    ----------
    by
        The tag of a person; empty only while the register knows nobody.
    on
        The day of the visit, today or before.
    seen
        The system's input version that the person looked at; None overwrites nothing either, it only
        asks for no comparison.

    Raises:
        UsageError: nothing is to be saved, nobody is named, or the day lies ahead.
        InputError: a text is no value of its setting; nothing is saved.
        UnknownNameError: nobody of that name.
        ChangedMeanwhileError: somebody else was faster; nothing is overwritten.
        RegisterMissingError: the file is not where it was opened any more.
    """
    desk.require_file()
    _check_circumstances(desk, by, on, confirmed, note)
    person = desk.person_id(by or None)
    wanted = [
        (correction, stage, text)
        for correction in corrections
        for stage, text in ((Stage.AS_FOUND, correction.found), (Stage.AS_LEFT, correction.left))
        if text.strip()
    ]
    if not wanted:
        raise UsageError("Nothing was typed: type what was found or what is left.")
    before = open_findings(desk, system_id)
    with Work(desk.engine, by=person, what=WHAT, today=desk.today, now=desk.now()) as work:
        system = _system_as_seen(work, system_id, seen)
        site = work.get(Site, system.site_id)
        for correction, stage, text in wanted:
            record = _record(system, site.elevation_m, correction, stage, text)
            record.recorded_on, record.recorded_by_id = on, person
            record.confirmed, record.note = confirmed, clean(note).strip() or None
            work.add(record)
        act = work.commit()
    run_audit(desk)
    after = open_findings(desk, system_id)
    assert act is not None
    return Saved(act, len(before - after), len(after))


def _check_circumstances(desk: Desk, by: str, on: date, confirmed: str, note: str) -> None:
    if on > desk.today:
        raise UsageError(f"{on.isoformat()} lies ahead of today, {desk.today.isoformat()}.")
    if confirmed not in CONFIRMATIONS:
        raise UsageError(f"{confirmed!r} is none of {', '.join(CONFIRMATIONS)}.")
    if len(note) > LONGEST_NOTE:
        raise UsageError(f"The note has {len(note):,} characters; expected at most {LONGEST_NOTE:,}.")
    if not by and not desk.by and desk.people():
        raise UsageError("Say who: a correction is signed with a name.")


def _system_as_seen(work: Work, system_id: int, seen: int | None) -> System:
    system = work.get(System, system_id)
    if seen is not None and system.input_version != seen:
        raise ChangedMeanwhileError(
            f"{system.system} was changed by somebody else after you opened it; nothing was overwritten. "
            "Look at it again, then repeat your correction."
        )
    return system


def _record(
    system: System, elevation_m: float | None, correction: Correction, stage: Stage, text: str
) -> SettingRecord:
    value = read_setting(correction.setting, text)
    if isinstance(value, Quantity):
        si = as_shown_pa(value, _sensor(system, correction.setting), elevation_m)
        dimension = value.dimension.value
    else:
        si, dimension = float(value), ""
    return SettingRecord(
        system_id=system.id,
        part=correction.part,
        setting=correction.setting,
        value_si=si,
        dimension=dimension,
        typed=clean(text).strip(),
        stage=stage.value,
    )


def _sensor(system: System, setting: str) -> str | None:
    """Return which sensor reads a setting; a regulator is set by a gauge against the local air."""
    if setting.startswith("low_pressure_") or setting == "group_suction":
        return system.low_pressure_sensor
    if setting in {"high_pressure_cut_out", "head_pressure_hold"}:
        return system.high_pressure_sensor
    return None


def open_findings(desk: Desk, system_id: int) -> set[tuple[str, str, str]]:
    """Return part, rule and setting of what is open on a system today."""
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
        UsageError: the act is no correction of settings, was undone already, or one of its settings was
            corrected again since.
        RegisterMissingError: the file is not where it was opened any more.
    """
    desk.require_file()
    person, what = desk.person_id(), f"undo: {WHAT}"
    with Work(desk.engine, by=person, what=what, today=desk.today, now=desk.now(), undoes=act_id) as work:
        if work.session.scalar(select(Act.id).where(Act.undoes_id == act_id)):
            raise UsageError("That was undone already.")
        done = work.session.scalars(
            select(SettingRecord).where(SettingRecord.act_id == act_id).order_by(SettingRecord.id)
        ).all()
        if not done or work.session.get_one(Act, act_id).what != WHAT:
            raise UsageError("There is nothing to undo.")
        latest = {(r.system_id, r.part, r.setting): r for r in done}
        systems = {record.system_id for record in done}
        work.add(*(before_of(work, record, act_id) for record in latest.values()))
        act = work.commit()
    run_audit(desk)
    assert act is not None
    return Saved(act, 0, sum(len(open_findings(desk, system)) for system in systems))


def last_correction(desk: Desk, system_id: int | None = None, since: datetime | None = None) -> int | None:
    """Return the last correction that was not undone, None where there is none.

    Parameters
    ----------
    system_id
        Only corrections of this system.
    since
        Only corrections that were saved at this moment or after it.
    """
    undone = select(Act.undoes_id).where(Act.undoes_id.is_not(None))
    wanted = select(Act.id).where(Act.what == WHAT, Act.id.not_in(undone))
    if system_id is not None:
        of_system = select(SettingRecord.act_id).where(SettingRecord.system_id == system_id)
        wanted = wanted.where(Act.id.in_(of_system))
    if since is not None:
        wanted = wanted.where(Act.at >= since)
    with desk.engine.connect() as connection:
        found = connection.execute(wanted.order_by(Act.id.desc()).limit(1)).scalar()
    return None if found is None else int(found)
