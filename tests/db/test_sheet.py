"""The sheet of one system, and the check of a whole register."""

from datetime import date

import pytest
from sqlalchemy import Engine

from db import integrity
from db.engine import writer
from db.models import CheckRecord, Event, System
from db.sheet import read_facts, read_sheet
from fleet.errors import UnknownNameError
from tests.db.support import Keys, add_system, setting, work

pytestmark = pytest.mark.independent


@pytest.fixture
def keys(engine: Engine) -> Keys:
    """A system that somebody visited twice."""
    keys = add_system(engine, charge_kg=9.979, typed={"charge": "22lb"})
    add_system(engine, "WC-2")
    with work(engine, "first visit", by=keys.person) as visit:
        found = {"stage": "as-found", "recorded_by_id": keys.person, "confirmed": "thermometer"}
        visit.add(
            setting(keys.system, 274.0, date(2026, 1, 1), typed="34F", **found),
            setting(keys.system, 275.0, date(2026, 1, 1), typed="35.3F"),
            setting(keys.system, 1.0, date(2026, 1, 1), setting="differential"),
            Event(
                reference="E-1",
                site_id=keys.site,
                system_id=keys.system,
                kind="call",
                happened_on=date(2026, 1, 1),
                recorded_by_id=keys.person,
            ),
            CheckRecord(system_id=keys.system, check_code="rack", done_on=date(2026, 1, 1), result="done"),
        )
        visit.commit()
    with work(engine, "correct") as correcting:
        correcting.add(setting(keys.system, None, date(2026, 1, 1), setting="differential"))
        correcting.get(System, keys.system).name = "[produce]"
        correcting.commit()
    return keys


def test_the_sheet_holds_what_is_recorded(engine: Engine, keys: Keys) -> None:
    with engine.connect() as connection:
        sheet = read_sheet(connection, keys.system)
    assert (sheet.customer["customer"], sheet.site["site"], sheet.system["system"]) == (
        "of WC-1",
        "Ridge Street",
        "WC-1",
    )
    assert (sheet.system["charge_kg"], sheet.system["typed"]) == (9.979, {"charge": "22lb"})
    assert [box["box"] for box in sheet.boxes] == ["B1"]
    assert [life["in_service"] for life in sheet.compressors] == [date(2020, 1, 2)]
    setpoint = sheet.setting("B1", "setpoint")
    assert setpoint is not None
    assert (setpoint.typed, setpoint.stage, setpoint.recorded_by) == ("35.3F", "as-left", None)
    assert sheet.setting("B1", "differential") is None
    told = [(entry.setting, entry.value_si, entry.recorded_by, entry.confirmed) for entry in sheet.history]
    assert told == [
        ("differential", None, None, None),
        ("differential", 1.0, None, None),
        ("setpoint", 275.0, None, None),
        ("setpoint", 274.0, "who WC-1", "thermometer"),
    ]
    assert [(event["reference"], event["recorded_by"]) for event in sheet.events] == [("E-1", "who WC-1")]
    assert [check["check_code"] for check in sheet.checks] == ["rack"]
    assert [(act.what, act.by) for act in sheet.acts] == [("correct", None), ("first visit", "who WC-1")]
    assert [change["after"] for change in sheet.acts[0].changes] == [{"name": "[produce]"}]


def test_an_unknown_system_is_named(engine: Engine) -> None:
    with engine.connect() as connection:
        with pytest.raises(UnknownNameError, match="There is no system '99'"):
            read_sheet(connection, 99)
        assert read_facts(connection, System, 99) is None


def test_a_sound_register_is_called_sound(engine: Engine, keys: Keys) -> None:
    report = integrity.check(engine)
    assert report.sound
    assert (report.revision, report.systems, report.changed_since_audit) == ("0001", 2, 2)


@pytest.mark.parametrize(
    ("spoil", "named"),
    [
        ("UPDATE current_settings SET setpoint_k = 1", "wrong_settings"),
        ("DELETE FROM current_settings", "wrong_settings"),
        ("INSERT INTO current_settings (system_id, part) VALUES (1, 'B9')", "wrong_settings"),
        ("UPDATE current_checks SET last_done_day = 1", "wrong_checks"),
    ],
)
def test_what_does_not_follow_from_the_records_is_found(
    engine: Engine, keys: Keys, spoil: str, named: str
) -> None:
    with writer(engine).begin() as connection:
        connection.exec_driver_sql(spoil)
    report = integrity.check(engine)
    assert not report.sound
    assert [system for system, _ in getattr(report, named)] == [keys.system]


def test_rows_that_refer_to_nothing_are_found(engine: Engine, keys: Keys) -> None:
    with engine.connect() as connection:
        driver = connection.connection.driver_connection
        assert driver is not None
        driver.execute("PRAGMA foreign_keys = OFF")
        driver.execute("UPDATE boxes SET system_id = 999 WHERE id = 1")
        driver.execute("PRAGMA foreign_keys = ON")
    report = integrity.check(engine)
    assert not report.sound
    assert report.orphans == ("boxes",)
