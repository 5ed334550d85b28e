"""Small invented registers for sheets and corrections, made as files would make them."""

from datetime import date
from pathlib import Path

from fleet.desk.auditing import run_audit
from fleet.desk.importing import import_rows
from fleet.desk.opened import Desk, open_desk
from fleet.units import UnitSystem

TODAY = date(2026, 11, 25)
KEY = {"customer": "ALDER", "site": "Ridge Street", "system": "WC-2"}
RACK = {"customer": "ALDER", "site": "Ridge Street", "system": "RK-1"}

Rows = dict[str, list[dict[str, str]]]


def cooler_rows(*, site: dict[str, str] | None = None, **system: str) -> Rows:
    """Return a cooler with a cut-in too high for the cold, found so by R. Osei."""
    return {
        "people": [
            {"person": "R. Osei", "name": "Rita Osei", "role": "technician"},
            {"person": "J. Pell", "name": "Jo Pell", "role": "technician"},
        ],
        "customers": [{"customer": "ALDER", "name": "Alder [Foods]"}],
        "sites": [
            {
                "customer": "ALDER",
                "site": "Ridge Street",
                "elevation": "0ft",
                "design_cold": "0F",
                **(site or {}),
            }
        ],
        "systems": [
            {
                **KEY,
                "refrigerant": "R-404A",
                "strategy": "recycling-pump-down",
                "placement": "outdoor",
                "low_pressure_control": "fitted",
                "installed": "2019-08-02",
                **system,
            }
        ],
        "boxes": [
            {
                **KEY,
                "box": "B1",
                "kind": "walk-in-cooler",
                "setpoint": "36F",
                "differential": "4F",
                "td": "10F",
                "installed": "2019-08-02",
            }
        ],
        "compressors": [
            {**KEY, "position": "1", "kind": "semi-hermetic", "serial": "7K1", "in_service": "2019-08-02"}
        ],
        "settings": [
            _setting("low_pressure_cut_in", "41psig", "2025-03-12"),
            _setting("low_pressure_cut_out", "22psig", "2025-03-12"),
        ],
    }


def _setting(setting: str, value: str, day: str, part: str = "", stage: str = "as-left") -> dict[str, str]:
    return {
        **KEY,
        "part": part,
        "setting": setting,
        "value": value,
        "stage": stage,
        "recorded_on": day,
        "recorded_by": "R. Osei",
        "confirmed": "gauge",
    }


def rack_rows() -> Rows:
    """Return the cooler with a rack beside it: two suction groups, two compressors."""
    rows = cooler_rows()
    rows["systems"].append(
        {
            **RACK,
            "refrigerant": "R-448A",
            "strategy": "remote-rack",
            "form": "rack",
            "placement": "indoor-heated",
            "low_pressure_control": "fitted",
        }
    )
    for box, group, kind, setpoint in (
        ("D1", "A", "display-case-medium", "34F"),
        ("D2", "B", "display-case-low", "-10F"),
    ):
        rows["boxes"].append(
            {
                **RACK,
                "box": box,
                "suction_group": group,
                "kind": kind,
                "setpoint": setpoint,
                "differential": "4F",
                "td": "8F",
            }
        )
    for position in ("1", "2"):
        rows["compressors"].append(
            {**RACK, "position": position, "kind": "semi-hermetic", "in_service": "2022-05-01"}
        )
    return rows


def open_rows(
    folder: Path, rows: Rows, *, by: str | None = "R. Osei", units: UnitSystem = UnitSystem.US
) -> Desk:
    """Make a register of rows, audit it and open it."""
    path = folder / "register.sqlite"
    import_rows(path, rows, today=TODAY)
    desk = open_desk(path, today=TODAY, by=by, units=units)
    run_audit(desk)
    return desk


def system_id(desk: Desk, tag: str = "WC-2") -> int:
    with desk.engine.connect() as connection:
        found = connection.exec_driver_sql("SELECT id FROM systems WHERE system = ?", (tag,)).scalar()
    assert found is not None
    return int(found)
