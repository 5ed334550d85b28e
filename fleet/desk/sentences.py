"""What is wrong, in words: one sentence per finding, made only for findings that are shown.

Findings of windows are explained by computing their systems again; the others say what their own
figures hold.
"""

from collections.abc import Callable, Iterable, Sequence
from datetime import date

from sqlalchemy import Connection

from db.columns import BLOCK_SYSTEMS, fetch_systems
from db.driver import day_of
from db.pages import FindingRow
from fleet.checks.catalogue import CATALOGUE
from fleet.desk.opened import Desk
from fleet.dictionary.words import Severity
from fleet.targets.columns import FleetColumns
from fleet.targets.explain import explain
from fleet.targets.judge import Judged
from fleet.targets.lowpressure import LowPressure, low_pressure
from fleet.targets.missing import label
from fleet.units import Dimension, UnitSystem, show

_CHECKS = {kind.code: kind for kind in CATALOGUE}


def day_words(day: date) -> str:
    """Return a day as people read it.

    >>> day_words(date(2026, 11, 5))
    '5 Nov 2026'
    """
    return f"{day.day} {day:%b %Y}"


def sentences(desk: Desk, rows: Sequence[FindingRow]) -> list[str]:
    """Return the sentence of each finding, in their order."""
    made: list[str] = [""] * len(rows)
    computed: list[int] = []
    for place, row in enumerate(rows):
        if row.rule in {"low_pressure_window", "low_pressure_conflict"} and row.setting != "receiver_hold":
            computed.append(place)
        else:
            made[place] = _PLAIN[row.rule](row, desk)
    with desk.engine.connect() as connection:
        for block in _blocks(rows, computed):
            for place, text in _explained(connection, rows, block, desk.units):
                made[place] = text
    return made


def _blocks(rows: Sequence[FindingRow], places: list[int]) -> Iterable[list[int]]:
    """Yield places in blocks of whole systems."""
    ordered = sorted(places, key=lambda place: rows[place].system_id)
    for start in range(0, len(ordered), BLOCK_SYSTEMS):
        yield ordered[start : start + BLOCK_SYSTEMS]


def _explained(
    connection: Connection, rows: Sequence[FindingRow], block: list[int], units: UnitSystem
) -> Iterable[tuple[int, str]]:
    fleet = fetch_systems(connection, sorted({rows[place].system_id for place in block}))
    found = low_pressure(fleet)
    where = {key: row for row, key in enumerate(fleet.systems.system_id.tolist())}
    for place in block:
        row = rows[place]
        if row.system_id not in where:
            continue
        judged, at = judged_row(fleet, found, where[row.system_id], row.setting, row.part)
        if at is not None:
            yield place, explain(fleet, found, judged, at, units).reason


def judged_row(
    fleet: FleetColumns, found: LowPressure, system: int, setting: str, part: str
) -> tuple[Judged, int | None]:
    """Return where the window of a setting of a part stands in the computed columns."""
    if part.startswith("group "):
        rows = [row for row, owner in enumerate(fleet.groups.system.tolist()) if owner == system]
        wanted = part.removeprefix("group ")
        return found.group_suction, next((row for row in rows if fleet.group_tags[row] == wanted), None)
    if part.startswith("compressor "):
        rows = [row for row, owner in enumerate(fleet.compressors.system.tolist()) if owner == system]
        number = int(part.removeprefix("compressor "))
        return found.rack_cut_out, next((r for r in rows if fleet.compressors.position[r] == number), None)
    by_setting = {judged.setting: judged for judged in (found.cut_in, found.cut_out, found.differential)}
    judged = by_setting.get(setting)
    return (judged, system) if judged is not None else (found.cut_in, None)


def _check_overdue(row: FindingRow, desk: Desk) -> str:
    kind = _CHECKS.get(row.setting)
    what = kind.what if kind else row.setting.replace("_", " ")
    due_by = day_of(int(row.high or 0))
    late = (desk.today - due_by).days
    done = "no record of it" if row.recorded is None else f"last done {day_words(day_of(int(row.recorded)))}"
    longer = ", over one interval late" if row.severity == Severity.NEXT_VISIT else ""
    days = "1 day" if late == 1 else f"{late:,} days"
    return f"{what}: {done}, due by {day_words(due_by)}; {days} late{longer}."


def _flooded_starts(row: FindingRow, desk: Desk) -> str:
    count = int(row.recorded or 0)
    if count == 1:
        return "A compressor was taken out after starting on liquid refrigerant."
    if row.severity == Severity.ACT_NOW:
        return (
            f"{count} compressors were taken out after starting on liquid, two of them within 24 months, and "
            "the low-pressure control still stands wrong."
        )
    return f"{count} compressors were taken out after starting on liquid refrigerant."


def _not_recorded(row: FindingRow, desk: Desk) -> str:
    cells = [label(name) for name in (row.detail or "").split(";") if name]
    return f"Not recorded: {', '.join(cells)}. An empty cell never reads as good."


def _boxes_apart(row: FindingRow, desk: Desk) -> str:
    apart = show(row.recorded or 0.0, Dimension.TEMPERATURE_DIFFERENCE, desk.units)
    most = show(row.high or 0.0, Dimension.TEMPERATURE_DIFFERENCE, desk.units)
    return (
        f"The warmest box without a regulator wants a suction {apart} above the coldest; over {most} one "
        "suction cannot serve both: fit an evaporator pressure regulator on the warmer box."
    )


def _fans_cycle(row: FindingRow, desk: Desk) -> str:
    return (
        f"The fans of {row.part} stop with the compressor: then the idle coil no longer follows the box, and "
        "the low-pressure control, which is the thermostat here, reads the coil and not the air. "
        "Set the fans to run always."
    )


def _receiver_hold(row: FindingRow, desk: Desk) -> str:
    return (
        "A held receiver is recorded, and so are fittings that cannot hold it (heater failed, off or none, "
        "no insulation, or no check valve). Windows are computed without the hold."
    )


_PLAIN: dict[str, Callable[[FindingRow, Desk], str]] = {
    "low_pressure_conflict": _receiver_hold,
    "check_overdue": _check_overdue,
    "flooded_starts": _flooded_starts,
    "not_recorded": _not_recorded,
    "boxes_apart": _boxes_apart,
    "fans_cycle": _fans_cycle,
}
