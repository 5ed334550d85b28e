"""What holds now, recomputed from the appended records.

A record may be dated before others that are there already, so the latest by day decides, not the
latest written: the rows of the systems in question are made anew from the whole history.
"""

from collections.abc import Iterable, Iterator, Sequence
from datetime import date
from itertools import groupby
from typing import Any

from sqlalchemy import Connection, delete, insert, select

from db.driver import batches, chunks, day_number
from db.models import CheckRecord, CurrentCheck, CurrentSettings, SettingRecord, Site, System
from fleet.atmosphere import as_read_pa
from fleet.dictionary.settings import SETTING_BY_CODE, SETTINGS
from fleet.units import Dimension, Quantity

SETTING_FIELDS: tuple[str, ...] = tuple(field for kind in SETTINGS for field in kind.fields)
_EMPTY: dict[str, float | None] = dict.fromkeys(SETTING_FIELDS)
_PRESSURES = {Dimension.PRESSURE.value, Dimension.PRESSURE_ABSOLUTE.value}
_FIELD: dict[tuple[str, str], str] = {
    (kind.code, dimension.value): kind.field_for(dimension)
    for kind in SETTINGS
    for dimension in (*kind.dimensions, Dimension.PRESSURE_ABSOLUTE)
    if dimension in kind.dimensions or Dimension.PRESSURE in kind.dimensions
} | {(kind.code, ""): kind.code for kind in SETTINGS if not kind.dimensions}
_SENSED_BY = {
    "low_pressure_cut_in": "low_pressure_sensor",
    "low_pressure_cut_out": "low_pressure_sensor",
    "high_pressure_cut_out": "high_pressure_sensor",
}
_BATCH = 2_000


def recompute_settings(connection: Connection, system_ids: Sequence[int]) -> None:
    """Make the current settings of whole systems anew."""
    for ids in chunks(system_ids):
        connection.execute(delete(CurrentSettings).where(CurrentSettings.system_id.in_(ids)))
        for rows in batches(settings_from_history(connection, ids), _BATCH):
            connection.execute(insert(CurrentSettings), rows)


def recompute_checks(connection: Connection, system_ids: Sequence[int]) -> None:
    """Make the current state of the checks of whole systems anew."""
    for ids in chunks(system_ids):
        connection.execute(delete(CurrentCheck).where(CurrentCheck.system_id.in_(ids)))
        for rows in batches(checks_from_history(connection, ids), _BATCH):
            connection.execute(insert(CurrentCheck), rows)


def settings_from_history(connection: Connection, ids: Sequence[int]) -> Iterator[dict[str, Any]]:
    """Yield one row of `CurrentSettings` for each part that has a record."""
    record = SettingRecord
    query = (
        select(
            record.system_id,
            record.part,
            record.setting,
            record.value_si,
            record.dimension,
            System.low_pressure_sensor,
            System.high_pressure_sensor,
            Site.elevation_m,
        )
        .join(System, System.id == record.system_id)
        .join(Site, Site.id == System.site_id)
        .where(record.system_id.in_(ids))
        .order_by(
            record.system_id,
            record.part,
            record.setting,
            record.recorded_on.nulls_first(),
            record.stage,
            record.id,
        )
    )
    for (system_id, part), rows in groupby(connection.execute(query), key=_part_of):
        yield {"system_id": system_id, "part": part, **_EMPTY, **_latest_values(rows)}


def checks_from_history(connection: Connection, ids: Sequence[int]) -> Iterator[dict[str, Any]]:
    """Yield one row of `CurrentCheck` for each check that has a record."""
    record = CheckRecord
    query = (
        select(record.system_id, record.part, record.check_code, record.done_on, record.result, record.until)
        .where(record.system_id.in_(ids))
        .order_by(record.system_id, record.part, record.check_code, record.done_on, record.id)
    )
    for (system_id, part, code), rows in groupby(connection.execute(query), key=_check_of):
        last_done, waived_until = _last_done(rows)
        yield {
            "system_id": system_id,
            "part": part,
            "check_code": code,
            "last_done_day": last_done,
            "waived_until_day": waived_until,
        }


def _part_of(row: Any) -> tuple[int, str]:
    return row[0], row[1]


def _check_of(row: Any) -> tuple[int, str, str]:
    return row[0], row[1], row[2]


def _latest_values(rows: Iterable[Any]) -> dict[str, float | None]:
    """Return the fields of one part; of a setting of two dimensions only the latest one stands."""
    latest = {row.setting: row for row in rows}
    values = {}
    for setting, row in latest.items():
        field = _FIELD.get((setting, row.dimension))
        if field is not None:
            values[field] = _as_read(row)
    return values


def _as_read(row: Any) -> float | None:
    """Return a value as the control's own scale shows it; None where that cannot be known."""
    value: float | None = row.value_si
    if value is None or row.dimension not in _PRESSURES:
        return value
    sensor_name = _SENSED_BY.get(row.setting)
    sensor = getattr(row, sensor_name) if sensor_name else None
    typed_absolute = row.dimension == Dimension.PRESSURE_ABSOLUTE.value
    if typed_absolute == (sensor == "absolute"):
        elevation_m = 0.0  # plays no part: the scale shows what was typed
    elif row.elevation_m is None and sensor != "sealed":
        return None
    else:
        elevation_m = row.elevation_m or 0.0
    return as_read_pa(Quantity(value, Dimension(row.dimension), ""), sensor, elevation_m)


def _last_done(rows: Iterable[Any]) -> tuple[int | None, int | None]:
    """Return the day a check was last done, and until when it is waived since."""
    last_done: date | None = None
    waived_until: date | None = None
    for row in rows:
        if row.result == "done":
            last_done, waived_until = row.done_on, None
        elif row.result == "waived":
            waived_until = row.until
    return _number(last_done), _number(waived_until)


def _number(day: date | None) -> int | None:
    return None if day is None else day_number(day)


assert set(_FIELD.values()) == set(SETTING_FIELDS)
assert set(_SENSED_BY) <= set(SETTING_BY_CODE)
