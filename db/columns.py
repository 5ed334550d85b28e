"""The register as columns: whole systems in blocks of keys, straight from the driver's cursor."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import fields
from typing import Any

import numpy as np
import numpy.typing as npt
from sqlalchemy import Connection
from sqlalchemy.engine.interfaces import DBAPICursor

from db.decode import Reader, reader_of, text_reader, whole_reader
from db.driver import id_list, row_blocks
from fleet.checks.overdue import HORIZON_DAYS
from fleet.dictionary import words
from fleet.dictionary.words import UNRECORDED, Word
from fleet.targets.columns import (
    BoxColumns,
    Columns,
    CompressorColumns,
    FleetColumns,
    GroupColumns,
    SystemColumns,
)

BLOCK_SYSTEMS = 8_192
"""How many systems are computed at once: 4 MB of columns, the fastest of the sizes that were measured."""
UNRECORDED_GROUP = "A"
"""The suction group of a box of a rack that names none."""
_ROWS_AT_ONCE = 1_024
_GROUP_PART = "group "
_WORDS: dict[str, type[Word]] = {**words.WORD_COLUMNS, "kind": words.BoxKind}
_COMPRESSOR_WORDS: dict[str, type[Word]] = {**words.WORD_COLUMNS, "kind": words.CompressorKind}
_OF_SITE = {"design_cold_k", "extreme_cold_k", "elevation_m"}
_OF_SETTINGS = {
    "low_pressure_cut_in_pa_gauge",
    "low_pressure_cut_out_pa_gauge",
    "low_pressure_differential_pa",
    "setpoint_k",
    "differential_k",
}
_OWN_NAME = {"system_id": "id", "box_id": "id", "installed_day": "installed"}
_IN_USE = "(y.status IS NULL OR y.status <> 'removed')"


def _sources(kind: type[Columns], own: str, skip: frozenset[str] = frozenset()) -> dict[str, str]:
    """Return where each column of ``kind`` comes from: settings, site, or the row itself."""
    sources = {}
    for name in (field.name for field in fields(kind)):
        if name in _OF_SETTINGS:
            sources[name] = f"c.{name}"
        elif name in _OF_SITE and kind is SystemColumns:
            sources[name] = f"s.{name}"
        elif name not in skip:
            sources[name] = f"{own}.{_OWN_NAME.get(name, name)}"
    return sources


_SYSTEM = _sources(SystemColumns, "y")
_BOX = _sources(BoxColumns, "b", frozenset({"system", "group"}))
_COMPRESSOR = _sources(CompressorColumns, "k", frozenset({"system"}))

_SYSTEM_READERS = {name: reader_of(name, _WORDS.get(name)) for name in _SYSTEM}
_BOX_READERS = {
    "of_system": whole_reader,
    "box": text_reader,
    "suction_group": text_reader,
    **{name: reader_of(name, _WORDS.get(name)) for name in _BOX},
}
_COMPRESSOR_READERS = {
    "of_system": whole_reader,
    **{name: reader_of(name, _COMPRESSOR_WORDS.get(name)) for name in _COMPRESSOR},
}

_SYSTEMS_SQL = f"""
SELECT {", ".join(_SYSTEM.values())}
FROM systems y
JOIN sites s ON s.id = y.site_id
LEFT JOIN current_settings c ON c.system_id = y.id AND c.part = ''
WHERE {{which}} AND {_IN_USE} ORDER BY y.id"""
_BOXES_SQL = f"""
SELECT b.system_id, b.box, b.suction_group, {", ".join(_BOX.values())}
FROM systems y
JOIN boxes b ON b.system_id = y.id
LEFT JOIN current_settings c ON c.system_id = b.system_id AND c.part = b.box
WHERE {{which}} AND {_IN_USE} ORDER BY y.id, b.box"""
_GROUPS_SQL = f"""
SELECT c.system_id, c.part, c.group_suction_pa_gauge
FROM systems y JOIN current_settings c ON c.system_id = y.id
WHERE {{which}} AND y.strategy = 'remote-rack' AND c.part LIKE '{_GROUP_PART}%%' AND {_IN_USE}"""
_COMPRESSORS_SQL = f"""
SELECT k.system_id, {", ".join(_COMPRESSOR.values())}
FROM systems y
JOIN compressors k ON k.system_id = y.id AND k.out_of_service IS NULL
LEFT JOIN current_settings c
  ON c.system_id = k.system_id AND c.part = 'compressor ' || CAST(k.position AS VARCHAR(4))
WHERE {{which}} AND {_IN_USE} ORDER BY y.id, k.position, k.id"""


def fetch_fleet(connection: Connection, low_id: int, high_id: int) -> FleetColumns:
    """Return the systems with ``low_id <= id < high_id`` that are in use, with all that is theirs."""
    return _fetch(connection, f"y.id >= {int(low_id)} AND y.id < {int(high_id)}")


def fetch_systems(connection: Connection, system_ids: Sequence[int]) -> FleetColumns:
    """Return the named systems that are in use, with all that is theirs."""
    return _fetch(connection, which_systems(connection, system_ids))


def which_systems(connection: Connection, system_ids: Sequence[int], column: str = "y.id") -> str:
    """Return the SQL condition for some systems: a range of keys where nothing else lies in it."""
    if not system_ids:
        return "1 = 0"
    low, high = min(system_ids), max(system_ids)
    inside = f"SELECT count(*) FROM systems WHERE id >= {int(low)} AND id <= {int(high)}"
    if len(system_ids) > 1 and connection.exec_driver_sql(inside).scalar() == len(set(system_ids)):
        return f"{column} >= {int(low)} AND {column} <= {int(high)}"
    return f"{column} IN ({id_list(system_ids)})"


def stale_blocks(
    connection: Connection, today_day: int, block: int = BLOCK_SYSTEMS
) -> Iterator[tuple[int, ...]]:
    """Yield the keys of the systems that need an audit, in rising order, in blocks of whole systems.

    Needing one are those whose inputs changed since the last, those whose findings hold only up to a day
    before ``today_day``, and those audited on a later day when it is asked for an earlier one. Removed
    systems are among them: they have findings to lose.
    """
    stale = connection.exec_driver_sql(
        "SELECT id FROM systems WHERE input_version <> audited_version "
        "UNION SELECT id FROM systems WHERE audited_through IS NULL "
        f"UNION SELECT id FROM systems WHERE audited_through < {int(today_day)} "
        f"UNION SELECT id FROM systems WHERE audited_through > {int(today_day) + HORIZON_DAYS} ORDER BY 1"
    ).fetchall()
    for start in range(0, len(stale), block):
        yield tuple(row[0] for row in stale[start : start + block])


def _fetch(connection: Connection, which: str) -> FleetColumns:
    systems = SystemColumns(**read_columns(connection, _SYSTEMS_SQL, which, _SYSTEM_READERS))
    boxes, tags, group_names = _box_columns(
        read_columns(connection, _BOXES_SQL, which, _BOX_READERS), systems
    )
    groups = _group_columns(group_names, systems, _group_settings(connection, which) if group_names else {})
    compressors = read_columns(connection, _COMPRESSORS_SQL, which, _COMPRESSOR_READERS)
    compressors["system"] = _system_rows(compressors.pop("of_system"), systems)
    return FleetColumns(
        systems,
        boxes,
        groups,
        CompressorColumns(**compressors),
        tags,
        tuple(name for _, name in group_names),
    )


def read_columns(
    connection: Connection, sql: str, which: str, readers: Mapping[str, Reader[Any]]
) -> dict[str, Any]:
    """Return columns by name, made from a few thousand rows at a time while these are in the cache."""
    pieces: dict[str, list[Any]] = {name: [] for name in readers}
    cursor = _cursor(connection, sql, which)
    for rows in row_blocks(connection, cursor, _ROWS_AT_ONCE):
        for (name, reader), values in zip(readers.items(), zip(*rows, strict=True), strict=True):
            pieces[name].append(reader.read(values))
    cursor.close()
    return {name: readers[name].joined(found) for name, found in pieces.items()}


def _cursor(connection: Connection, sql: str, which: str) -> DBAPICursor:
    percent = "%" if connection.dialect.paramstyle == "qmark" else "%%"
    cursor = connection.exec_driver_sql(sql.replace("%%", percent).format(which=which)).cursor
    assert cursor is not None
    return cursor


def _system_rows(system_ids: npt.NDArray[np.int64], systems: SystemColumns) -> npt.NDArray[np.int64]:
    """Return the row of each system; the systems are in rising order of their keys."""
    return np.searchsorted(systems.system_id, system_ids).astype(np.int64, copy=False)


GroupNames = list[tuple[int, str]]
"""Row of a rack and the name of one of its suction groups, in the order of the group rows."""


def _box_columns(
    read: dict[str, Any], systems: SystemColumns
) -> tuple[BoxColumns, tuple[str, ...], GroupNames]:
    system = _system_rows(read.pop("of_system"), systems)
    tags: list[str] = read.pop("box")
    group, group_names = _groups_of(system, read.pop("suction_group"), systems)
    return BoxColumns(system=system, group=group, **read), tuple(tags), group_names


def _groups_of(
    system: npt.NDArray[np.int64], group_tags: Sequence[str | None], systems: SystemColumns
) -> tuple[npt.NDArray[np.int64], GroupNames]:
    """Number the suction groups of racks in the order in which boxes name them."""
    group = np.full(len(system), UNRECORDED, dtype=np.int64)
    numbers: dict[tuple[int, str], int] = {}
    on_rack = np.flatnonzero(systems.strategy[system] == words.Strategy.RACK.code)
    for box, row in zip(on_rack.tolist(), system[on_rack].tolist(), strict=True):
        name = (row, group_tags[box] or UNRECORDED_GROUP)
        group[box] = numbers.setdefault(name, len(numbers))
    return group, list(numbers)


def _group_settings(connection: Connection, which: str) -> dict[tuple[int, str], float | None]:
    cursor = _cursor(connection, _GROUPS_SQL, which)
    recorded = {(system_id, part): value for system_id, part, value in cursor.fetchall()}
    cursor.close()
    return recorded


def _group_columns(
    names: GroupNames, systems: SystemColumns, recorded: Mapping[tuple[int, str], float | None]
) -> GroupColumns:
    rows = np.array([row for row, _ in names], dtype=np.int64)
    keys = systems.system_id[rows].tolist()
    suctions = [recorded.get((key, _GROUP_PART + name)) for key, (_, name) in zip(keys, names, strict=True)]
    return GroupColumns(rows, np.array(suctions, dtype=np.float64))
