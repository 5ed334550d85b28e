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
from db.models import CheckRecord, CurrentCheck, CurrentSettings, SettingRecord
from fleet.dictionary.settings import SETTINGS
from fleet.units import Dimension

SETTING_FIELDS: tuple[str, ...] = tuple(field for kind in SETTINGS for field in kind.fields)
_EMPTY: dict[str, float | None] = dict.fromkeys(SETTING_FIELDS)
_FIELD: dict[tuple[str, str], str] = {
    (kind.code, dimension.value): kind.field_for(dimension)
    for kind in SETTINGS
    for dimension in (*kind.dimensions, Dimension.PRESSURE_ABSOLUTE)
    if dimension in kind.dimensions or Dimension.PRESSURE in kind.dimensions
} | {(kind.code, ""): kind.code for kind in SETTINGS if not kind.dimensions}
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
        select(record.system_id, record.part, record.setting, record.value_si, record.dimension)
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
            values[field] = row.value_si
    return values


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
