"""Settings over the years: the first value, what visits found, what was turned."""

from collections.abc import Iterator

from seeds_demo.parts import Box, CompressorCutOut, Group, System, Turned
from seeds_demo.visits import visits

Key = tuple[str, str]
"""Part and setting."""
Dated = tuple[int, dict[str, str]]
"""Days ago, and the cells of a row."""

PAIR = ("low_pressure_cut_in", "low_pressure_cut_out", "low_pressure_differential")
BOX_SETTINGS = ("setpoint", "differential")


def settings_rows(
    system: System, last_visit: int, history_days: int
) -> tuple[dict[str, dict[str, str]], list[Dated]]:
    """Return the values that stand as columns (by part, as first found), and the dated rows."""
    now, dated = recorded_now(system), list(_turned_rows(system))
    first: dict[str, dict[str, str]] = {}
    taken = {(days, cells.get("part", ""), cells["setting"]) for days, cells in dated}
    for (part, setting), value in now.items():
        before = _before_turning(system, part, setting, value)
        if part.startswith(("group ", "compressor ")):
            dated.append((system.age_days, _row(part, setting, before, "as-left", "gauge", "")))
        else:
            first.setdefault(part, {})[setting] = before
        if setting in BOX_SETTINGS or not system.read_with:
            continue
        for visit in visits(system, last_visit, history_days, months=6):
            if (visit, part, setting) not in taken:
                found = _value_at(system, part, setting, before, visit)
                dated.append((visit, _row(part, setting, found, "as-found", system.read_with, "")))
    dated.sort(key=lambda entry: -entry[0])
    return first, dated


def recorded_now(system: System) -> dict[Key, str]:
    """Return what is recorded today, by part and setting."""
    now = {("", setting): system.cells[setting] for setting in PAIR if setting in system.cells}
    for part in system.parts:
        if isinstance(part, Group):
            now[f"group {part.tag}", "group_suction"] = part.suction
        elif isinstance(part, CompressorCutOut):
            now[f"compressor {part.position}", "low_pressure_cut_out"] = part.value
        elif isinstance(part, Box):
            now |= {(part.tag, name): part.cells[name] for name in BOX_SETTINGS if name in part.cells}
    return now


def _of(system: System, part: str, setting: str) -> list[Turned]:
    return [turned for turned in system.turned if (turned.part, turned.setting) == (part, setting)]


def _before_turning(system: System, part: str, setting: str, now: str) -> str:
    history = _of(system, part, setting)
    return history[0].found if history else now


def _value_at(system: System, part: str, setting: str, before: str, days_ago: int) -> str:
    past = [turned for turned in _of(system, part, setting) if turned.days_ago >= days_ago]
    return past[-1].left if past else before


def _turned_rows(system: System) -> Iterator[Dated]:
    for turned in system.turned:
        for stage, value in (("as-found", turned.found), ("as-left", turned.left)):
            note = turned.note if stage == "as-left" else ""
            yield turned.days_ago, _row(turned.part, turned.setting, value, stage, turned.confirmed, note)


def _row(part: str, setting: str, value: str, stage: str, confirmed: str, note: str) -> dict[str, str]:
    row = {
        "part": part,
        "setting": setting,
        "value": value,
        "stage": stage,
        "confirmed": confirmed,
        "note": note,
    }
    return {name: cell for name, cell in row.items() if cell}
