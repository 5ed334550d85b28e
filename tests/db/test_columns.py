"""The register as columns, against the rows they were made from."""

import random
from datetime import date

import numpy as np
import pytest
from sqlalchemy import Engine, select

from db.columns import fetch_fleet, fetch_systems, stale_blocks
from db.engine import writer
from db.findings import replace_findings
from db.history import fetch_history
from db.models import Box, CheckRecord, Compressor, SettingRecord, System
from fleet.checks.catalogue import CATALOGUE
from fleet.checks.due import WHOLE_SYSTEM
from fleet.checks.overdue import HORIZON_DAYS
from fleet.dictionary.words import BoxKind, Heater, Strategy, YesNo
from fleet.properties.catalogue import REFRIGERANTS
from tests.db.support import TODAY_DAY, Keys, add_system, reading, setting, work

pytestmark = pytest.mark.independent
GAUGE = "gauge pressure"
EPOCH = date(1970, 1, 1).toordinal()


def test_every_cell_arrives(engine: Engine) -> None:
    keys = _one_of_everything(engine)
    with engine.connect() as connection:
        fleet = fetch_fleet(connection, keys.system, keys.system + 1)
    systems, boxes, compressors = fleet.systems, fleet.boxes, fleet.compressors
    assert REFRIGERANTS[systems.refrigerant[0]].name == "R-448A"
    assert systems.strategy[0] == Strategy.RECYCLING.code
    assert (systems.critically_charged[0], systems.check_valve[0]) == (YesNo.NO.code, -1)
    assert (systems.line_loss_k[0], systems.elevation_m[0]) == (1.5, 259.0)
    assert np.isnan(systems.design_cold_k[0])
    assert systems.installed_day[0] == date(2019, 5, 14).toordinal() - EPOCH
    assert systems.low_pressure_cut_in_pa_gauge[0] == 1e5
    assert fleet.box_tags == ("B1",)
    assert (boxes.system[0], boxes.box_id[0], boxes.group[0]) == (0, keys.box, -1)
    assert (boxes.kind[0], boxes.setpoint_k[0]) == (BoxKind.WALK_IN_COOLER.code, 275.0)
    assert np.isnan(boxes.differential_k[0])
    assert (compressors.position[0], compressors.crankcase_heater[0]) == (1, Heater.FAILED.code)
    assert compressors.low_pressure_cut_out_pa_gauge[0] == 4e4


def _one_of_everything(engine: Engine) -> Keys:
    keys = add_system(
        engine,
        refrigerant="R-448A",
        strategy="recycling-pump-down",
        critically_charged=False,
        line_loss_k=1.5,
        installed=date(2019, 5, 14),
    )
    with work(engine) as more:
        more.get(Compressor, keys.compressor).crankcase_heater = "failed"
        gauge = {"dimension": GAUGE}
        more.add(
            setting(keys.system, 275.0, date(2026, 1, 1)),
            setting(keys.system, 1e5, None, part="", setting="low_pressure_cut_in", **gauge),
            setting(keys.system, 4e4, None, part="compressor 1", setting="low_pressure_cut_out", **gauge),
        )
        more.commit()
    return keys


def test_compressors_that_are_gone_and_removed_systems_are_left_out(engine: Engine) -> None:
    keys, removed = add_system(engine), add_system(engine, "WC-2", status="removed")
    with work(engine) as changing:
        changing.get(Compressor, keys.compressor).out_of_service = date(2024, 1, 1)
        changing.add(Compressor(system_id=keys.system, position=1, in_service=date(2024, 1, 2)))
        changing.commit()
    with engine.connect() as connection:
        fleet = fetch_fleet(connection, 0, 100)
        blocks = list(stale_blocks(connection, TODAY_DAY))
    assert fleet.systems.system_id.tolist() == [keys.system]
    assert len(fleet.compressors.system) == 1
    assert fleet.boxes.box_id.tolist() == [keys.box]
    # A removed system still has findings to lose.
    assert blocks == [(keys.system, removed.system)]


def test_suction_groups_of_a_rack(engine: Engine) -> None:
    split = add_system(engine, "WC-1", strategy="pressure-cycling")
    rack = add_system(engine, "R-1", strategy="remote-rack")
    with work(engine) as adding:
        adding.add(
            Box(system_id=rack.system, box="B2", suction_group="MT"),
            Box(system_id=rack.system, box="B3", suction_group="A"),
            Box(system_id=split.system, box="B2", suction_group="MT"),
            setting(
                rack.system, 2e5, None, part="group MT", setting="group_suction", dimension="gauge pressure"
            ),
        )
        adding.commit()
    with engine.connect() as connection:
        fleet = fetch_systems(connection, [split.system, rack.system])
    assert fleet.group_tags == ("A", "MT")
    assert fleet.groups.system.tolist() == [1, 1]
    assert np.isnan(fleet.groups.group_suction_pa_gauge[0])
    assert fleet.groups.group_suction_pa_gauge[1] == 2e5
    assert fleet.box_tags == ("B1", "B2", "B1", "B2", "B3")
    assert fleet.boxes.group.tolist() == [-1, -1, 0, 1, 0]


def test_an_empty_register_gives_empty_columns(engine: Engine) -> None:
    with engine.connect() as connection:
        fleet = fetch_fleet(connection, 0, 10)
        history = fetch_history(connection, fleet, CATALOGUE)
        nothing = fetch_systems(connection, [])
    assert len(fleet) == len(nothing) == 0
    assert fleet.boxes.setpoint_k.dtype == np.float64
    assert fleet.systems.strategy.dtype == np.int8
    assert len(history.checks.system) == len(history.lives.system) == 0


def test_blocks_and_single_systems_give_the_same_columns(engine: Engine) -> None:
    draw = random.Random(20261125)
    keys = [add_system(engine, f"S{n}", strategy=draw.choice(list(Strategy))) for n in range(12)]
    with engine.connect() as connection:
        whole = fetch_fleet(connection, 0, 1000)
        some = sorted(draw.sample([key.system for key in keys], 5))
        part = fetch_systems(connection, some)
        rows = np.flatnonzero(np.isin(whole.systems.system_id, some))
        for name in ("system_id", "strategy", "refrigerant", "elevation_m"):
            np.testing.assert_array_equal(getattr(part.systems, name), getattr(whole.systems, name)[rows])
        blocks = list(stale_blocks(connection, TODAY_DAY, block=5))
    assert [len(block) for block in blocks] == [5, 5, 2]
    assert [key for block in blocks for key in block] == whole.systems.system_id.tolist()


def test_an_audit_settles_what_is_stale_until_something_changes(engine: Engine) -> None:
    keys, other = add_system(engine), add_system(engine, "WC-2")
    with writer(engine).begin() as connection:
        for block in list(stale_blocks(connection, TODAY_DAY)):
            replace_findings(connection, block, [], today_day=TODAY_DAY, through_day=TODAY_DAY + HORIZON_DAYS)
    both = [(keys.system, other.system)]
    assert _stale(engine, TODAY_DAY) == []
    assert _stale(engine, TODAY_DAY + HORIZON_DAYS) == []
    assert _stale(engine, TODAY_DAY + HORIZON_DAYS + 1) == both
    assert _stale(engine, TODAY_DAY - 1) == both  # asked for a day before the audit's
    with work(engine) as changing:
        changing.get(System, other.system).refrigerant = "R-22"
        changing.commit()
    assert _stale(engine, TODAY_DAY) == [(other.system,)]


def _stale(engine: Engine, day: int) -> list[tuple[int, ...]]:
    with engine.connect() as connection:
        return list(stale_blocks(connection, day))


def test_history_beside_the_fleet(engine: Engine) -> None:
    add_system(engine, "gone", status="removed")
    keys = add_system(engine)
    code, box_code = CATALOGUE[0].code, next(kind.code for kind in CATALOGUE if kind.scope == "box")
    done = {"system_id": keys.system, "done_on": date(2026, 1, 1), "result": "done"}
    with work(engine) as recording:
        recording.get(Compressor, keys.compressor).out_of_service = date(2025, 1, 1)
        recording.get(Compressor, keys.compressor).reason_out = "flooded_start"
        recording.add(
            CheckRecord(**done, check_code=code),
            CheckRecord(**done, check_code=box_code, part="B1"),
            CheckRecord(**done, check_code=box_code, part="no longer there"),
            CheckRecord(**done, check_code="not in the catalogue"),
        )
        recording.commit()
    with engine.connect() as connection:
        fleet = fetch_fleet(connection, 0, 100)
        history = fetch_history(connection, fleet, CATALOGUE)
    checks = sorted(zip(history.checks.part.tolist(), history.checks.check.tolist(), strict=True))
    place = next(n for n, kind in enumerate(CATALOGUE) if kind.code == box_code)
    assert checks == [(WHOLE_SYSTEM, 0), (0, place)]
    assert set(history.checks.last_done_day.tolist()) == {float(date(2026, 1, 1).toordinal() - EPOCH)}
    assert (history.lives.system.tolist(), history.lives.position.tolist()) == ([0], [1])
    assert history.lives.out_day.tolist() == [float(date(2025, 1, 1).toordinal() - EPOCH)]


def test_the_setting_columns_read_the_current_settings(engine: Engine) -> None:
    keys = add_system(engine)
    for value in (275.0, None):
        with work(engine) as recording:
            recording.add(setting(keys.system, value, date(2026, 1, 1)))
            recording.commit()
    with engine.connect() as connection:
        assert np.isnan(fetch_fleet(connection, 0, 100).boxes.setpoint_k[0])
    with reading(engine) as session:
        assert len(session.scalars(select(SettingRecord)).all()) == 2
