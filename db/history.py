"""What happened to the systems of a fleet, as columns beside the fleet's own."""

from collections.abc import Sequence
from typing import Any

import numpy as np
import numpy.typing as npt
from sqlalchemy import Connection

from db.columns import read_columns, which_systems
from db.decode import Reader, code_reader, day_reader, float_reader, text_reader, whole_reader
from fleet.audit.run import History
from fleet.checks.catalogue import CheckKind
from fleet.checks.due import WHOLE_SYSTEM, CheckRecordColumns, no_records
from fleet.reliability.flooded import LifeColumns
from fleet.targets.columns import FleetColumns

_UNKNOWN_PART = -2
_LIVES_SQL = """
SELECT system_id, position, out_of_service FROM compressors
WHERE reason_out = 'flooded_start' AND {which} ORDER BY system_id, position, id"""
_CHECKS_SQL = """
SELECT system_id, part, check_code, last_done_day, waived_until_day FROM current_checks
WHERE {which}"""
_LIFE_READERS: dict[str, Reader[Any]] = {
    "system": whole_reader,
    "position": whole_reader,
    "out_day": day_reader,
}


def fetch_history(connection: Connection, fleet: FleetColumns, catalogue: Sequence[CheckKind]) -> History:
    """Return what the audit of ``fleet`` needs of the past."""
    return History(fetch_checks(connection, fleet, catalogue), fetch_lives(connection, fleet))


def fetch_lives(connection: Connection, fleet: FleetColumns) -> LifeColumns:
    """Return the compressors of ``fleet`` that were taken out for a flooded start."""
    read = read_columns(connection, _LIVES_SQL, _which(connection, fleet), _LIFE_READERS)
    rows, known = _fleet_rows(fleet, read["system"])
    return LifeColumns(rows[known], read["position"][known], read["out_day"][known])


def fetch_checks(
    connection: Connection, fleet: FleetColumns, catalogue: Sequence[CheckKind]
) -> CheckRecordColumns:
    """Return when each check of ``fleet`` was last done and until when it is waived.

    What was recorded for a box that is no longer there, or for a check that is not in the catalogue,
    is left out.
    """
    if not len(fleet):
        return no_records()
    readers: dict[str, Reader[Any]] = {
        "system": whole_reader,
        "part": text_reader,
        "check": code_reader([kind.code for kind in catalogue]),
        "last_done_day": float_reader,
        "waived_until_day": float_reader,
    }
    read = read_columns(connection, _CHECKS_SQL, _which(connection, fleet), readers)
    rows, known = _fleet_rows(fleet, read["system"])
    parts = _box_rows(fleet, rows, read["part"])
    kept = known & (parts != _UNKNOWN_PART) & (read["check"] >= 0)
    return CheckRecordColumns(
        system=rows[kept],
        part=parts[kept],
        check=read["check"][kept].astype(np.int64),
        last_done_day=read["last_done_day"][kept],
        waived_until_day=read["waived_until_day"][kept],
    )


def _which(connection: Connection, fleet: FleetColumns) -> str:
    return which_systems(connection, fleet.systems.system_id.tolist(), column="system_id")


def _fleet_rows(
    fleet: FleetColumns, system_ids: npt.NDArray[np.int64]
) -> tuple[npt.NDArray[np.int64], npt.NDArray[np.bool_]]:
    """Return the row of each system in the fleet, and which of them are there at all."""
    keys = fleet.systems.system_id
    if not len(keys):
        return np.zeros(len(system_ids), dtype=np.int64), np.zeros(len(system_ids), dtype=bool)
    rows = np.minimum(np.searchsorted(keys, system_ids), len(keys) - 1).astype(np.int64, copy=False)
    return rows, keys[rows] == system_ids


def _box_rows(
    fleet: FleetColumns, system_rows: npt.NDArray[np.int64], parts: list[str]
) -> npt.NDArray[np.int64]:
    """Return the row of the box that each part names, `WHOLE_SYSTEM` for the system itself."""
    rows = np.full(len(parts), WHOLE_SYSTEM, dtype=np.int64)
    named = [place for place, part in enumerate(parts) if part]
    if named:
        boxes = {
            key: row for row, key in enumerate(zip(fleet.boxes.system.tolist(), fleet.box_tags, strict=True))
        }
        owners = system_rows[named].tolist()
        rows[named] = [
            boxes.get((owner, parts[place]), _UNKNOWN_PART)
            for owner, place in zip(owners, named, strict=True)
        ]
    return rows
