"""The same due work counted one line at a time, with dates and dateutil: no columns, no day numbers."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, timedelta

from dateutil.relativedelta import relativedelta

from fleet.dictionary.words import BoxKind, Defrost, Form, Heater, Status, Strategy, YesNo
from tests.checks.fleets import WHOLE_SYSTEM, Box, Record, Unit

TOLERANCE_DAYS = {1: 6, 3: 18, 6: 36, 12: 73}  # one fifth of the interval, written out
PUMP_DOWN = (Strategy.RECYCLING, Strategy.ONE_TIME)
CASES = (BoxKind.DISPLAY_CASE_MEDIUM, BoxKind.DISPLAY_CASE_LOW)
FREEZERS = (BoxKind.WALK_IN_FREEZER, BoxKind.REACH_IN_FREEZER)


@dataclass(frozen=True)
class Line:
    code: str
    system: int
    part: int
    due: date | None
    due_by: date | None
    late_from: date | None
    minutes: int


def of_system(unit: Unit) -> Iterator[tuple[str, int, int]]:
    small = unit.form is Form.SELF_CONTAINED
    yield ("condenser_coil", 3, 15) if small else ("condenser_coil", 6, 40)
    if unit.critically_charged is not YesNo.YES:
        yield "pressures_superheat", 12 if small else 6, 12
        yield "leak_search", 12 if small else 6, 12
    if any(heater in (Heater.WORKING, Heater.FAILED, Heater.OFF) for heater in unit.heaters):
        yield "crankcase_heater", 6, 5
    if unit.strategy in PUMP_DOWN:
        yield "pump_down_hold", 6, 20
    if not small:
        yield "control_sequence", 12, 15
    if unit.strategy is Strategy.RACK:
        yield "rack", 3, 60


def of_box(box: Box) -> Iterator[tuple[str, int, int]]:
    yield "evaporator_coil", 3 if box.kind in CASES else 6, 45
    if box.defrost in (Defrost.ELECTRIC, Defrost.HOT_GAS):
        yield "defrost", 3 if box.kind in FREEZERS else 6, 20


def lines_by_hand(units: tuple[Unit, ...], records: tuple[Record, ...]) -> set[Line]:
    lines: set[Line] = set()
    row = -1
    for system, unit in enumerate(units):
        in_use = unit.status not in (Status.IDLE, Status.REMOVED)
        if in_use:
            for code, months, minutes in of_system(unit):
                lines.add(_line(code, system, WHOLE_SYSTEM, months, minutes, unit.installed, records))
        for box in unit.boxes:
            row += 1
            if in_use:
                for code, months, minutes in of_box(box):
                    lines.add(
                        _line(code, system, row, months, minutes, box.installed or unit.installed, records)
                    )
    return lines


def _line(
    code: str,
    system: int,
    part: int,
    months: int,
    minutes: int,
    installed: date | None,
    records: tuple[Record, ...],
) -> Line:
    own = [r for r in records if (r.code, r.system, r.part) == (code, system, part)]
    done = max((r.done for r in own if r.done), default=None)
    waived = max((r.waived_until for r in own if r.waived_until), default=None)
    counted_from = done or installed
    due = None if counted_from is None else counted_from + relativedelta(months=months)
    if waived is not None:
        after = waived + timedelta(days=1)
        due = after if due is None else max(due, after)
    if due is None:
        return Line(code, system, part, None, None, None, minutes)
    due_by = due + timedelta(days=TOLERANCE_DAYS[months])
    late_from = due + relativedelta(months=months) + timedelta(days=1)
    return Line(code, system, part, due, due_by, late_from, minutes)
