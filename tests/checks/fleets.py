"""Small fleets, and days written as people write them."""

from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import date
from math import nan

import numpy as np

from fleet.checks import WHOLE_SYSTEM, CheckRecordColumns, check_index
from fleet.dictionary.words import UNRECORDED, BoxKind, Defrost, Form, Heater, Status, Strategy, Word, YesNo
from fleet.targets.columns import (
    BoxColumns,
    CompressorColumns,
    FleetColumns,
    GroupColumns,
    SystemColumns,
    empty_columns,
)

EPOCH = date(1970, 1, 1).toordinal()


def number(day: date | str | None) -> float:
    if day is None:
        return nan
    return float((date.fromisoformat(day) if isinstance(day, str) else day).toordinal() - EPOCH)


def day_of(number_: float) -> date | None:
    return None if np.isnan(number_) else date.fromordinal(int(number_) + EPOCH)


def iso(numbers: Sequence[float] | np.ndarray) -> list[str | None]:
    days = [day_of(value) for value in numbers]
    return [None if day is None else day.isoformat() for day in days]


@dataclass(frozen=True)
class Box:
    kind: BoxKind | None = None
    defrost: Defrost | None = None
    installed: date | None = None


@dataclass(frozen=True)
class Unit:
    strategy: Strategy | None = None
    form: Form | None = None
    status: Status | None = None
    critically_charged: YesNo | None = None
    installed: date | None = None
    heaters: tuple[Heater | None, ...] = ()
    boxes: tuple[Box, ...] = field(default=())


@dataclass(frozen=True)
class Record:
    system: int
    part: int
    code: str
    done: date | None = None
    waived_until: date | None = None


def code_of(word: Word | None) -> int:
    return UNRECORDED if word is None else word.code


def fleet_of(*units: Unit) -> FleetColumns:
    systems = empty_columns(SystemColumns, len(units))
    boxes = empty_columns(BoxColumns, sum(len(unit.boxes) for unit in units))
    compressors = empty_columns(CompressorColumns, sum(len(unit.heaters) for unit in units))
    box = compressor = 0
    for row, unit in enumerate(units):
        systems.system_id[row] = row + 1
        for name in ("strategy", "form", "status", "critically_charged"):
            getattr(systems, name)[row] = code_of(getattr(unit, name))
        systems.installed_day[row] = number(unit.installed)
        for one in unit.boxes:
            boxes.system[box], boxes.kind[box] = row, code_of(one.kind)
            boxes.defrost_method[box], boxes.installed_day[box] = code_of(one.defrost), number(one.installed)
            box += 1
        for heater in unit.heaters:
            compressors.system[compressor], compressors.crankcase_heater[compressor] = row, code_of(heater)
            compressor += 1
    tags = tuple(f"box {row}" for row in range(box))
    return FleetColumns(systems, boxes, empty_columns(GroupColumns, 0), compressors, tags, ())


def records_of(*records: Record) -> CheckRecordColumns:
    return CheckRecordColumns(
        system=np.array([record.system for record in records], dtype=np.int64),
        part=np.array([record.part for record in records], dtype=np.int64),
        check=np.array([check_index(record.code) for record in records], dtype=np.int64),
        last_done_day=np.array([number(record.done) for record in records], dtype=np.float64),
        waived_until_day=np.array([number(record.waived_until) for record in records], dtype=np.float64),
    )


__all__ = ["WHOLE_SYSTEM", "Box", "Record", "Unit", "day_of", "fleet_of", "iso", "number", "records_of"]
