"""Preventive checks as they were done: which apply to a system, and the records of the years."""

from collections.abc import Iterator

from seeds_demo.parts import LastDone, System
from seeds_demo.visits import visits

Dated = tuple[int, dict[str, str]]
Line = tuple[str, str, int, int]
"""Check, part, interval in months, minutes."""

_PUMP_DOWN = ("recycling-pump-down", "one-time-pump-down")


def lines(system: System) -> Iterator[Line]:
    """Yield the checks that apply to a system; intervals and minutes are common practice, no source."""
    contained = system.cells["form"] == "self-contained"
    for box in system.boxes:
        kind = box.cells["kind"]
        yield "evaporator_coil", box.tag, 3 if kind.startswith("display-case") else 6, 45
        if box.cells.get("defrost_method") in ("electric", "hot-gas"):
            yield "defrost", box.tag, 3 if kind.endswith("freezer") else 6, 20
    yield ("condenser_coil", "", 3, 15) if contained else ("condenser_coil", "", 6, 40)
    if system.cells.get("critically_charged") != "yes":
        yield "pressures_superheat", "", 12 if contained else 6, 12
        yield "leak_search", "", 12 if contained else 6, 12
    if any(compressor.cells.get("crankcase_heater") != "none" for compressor in system.compressors):
        yield "crankcase_heater", "", 6, 5
    if system.cells.get("strategy") in _PUMP_DOWN:
        yield "pump_down_hold", "", 6, 20
    if not contained:
        yield "control_sequence", "", 12, 15
    if system.cells.get("strategy") == "remote-rack":
        yield "rack", "", 3, 60


def check_rows(system: System, last_visit: int, history_days: int) -> Iterator[Dated]:
    """Yield every record of a check as days ago and cells."""
    last = {
        (part.check_code, part.part): part.days_ago for part in system.parts if isinstance(part, LastDone)
    }
    for number, (code, part, months, minutes) in enumerate(lines(system)):
        days = visits(system, last_visit, history_days, months)
        latest = last.get((code, part))
        if latest is not None:
            days = [latest, *(day for day in days if day > latest + 30)]
        for count, day in enumerate(days):
            yield day, _record(code, part, minutes, seed=day + 7 * number, old=count > 1)


def _record(code: str, part: str, minutes: int, seed: int, old: bool) -> dict[str, str]:
    """Return one record; of the older ones some were not finished, as life is."""
    row = {"part": part, "check_code": code, "result": "done", "minutes": f"{minutes + seed % 9 - 3}min"}
    row["found"] = {0: "fault", 1: "adjusted", 2: "adjusted"}.get(seed % 23, "nothing")
    if old and seed % 29 == 0:
        row |= {"result": "partly", "reason": "called away", "found": ""}
    elif old and seed % 31 == 0:
        row |= {"result": "not-possible", "reason": "stock in front of it", "found": ""}
    return {name: cell for name, cell in row.items() if cell}
