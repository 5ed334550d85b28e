"""The unit of work: wholly or not at all, and everything that follows from a change."""

from datetime import date
from pathlib import Path

import pytest
from sqlalchemy import Engine, func, select

from db.engine import open_register
from db.models import (
    Act,
    Box,
    Change,
    CheckDefinition,
    CheckRecord,
    Compressor,
    CurrentCheck,
    CurrentSettings,
    Customer,
    Event,
    Person,
    SettingRecord,
    Site,
    System,
)
from db.work import Work
from fleet.errors import ChangedMeanwhileError, RegisterLockedError
from tests.db.support import Keys, add_system, input_version, reading, setting, work

pytestmark = pytest.mark.independent


def test_commit_keeps_and_records_one_act(engine: Engine) -> None:
    keys = add_system(engine)
    with work(engine, "rename", by=keys.person, note="asked for") as renaming:
        renaming.get(System, keys.system).name = "produce cooler"
        act_id = renaming.commit()
    with reading(engine) as session:
        act = session.get_one(Act, act_id)
        assert (act.what, act.by_id, act.note) == ("rename", keys.person, "asked for")
        change = session.scalars(select(Change)).one()
        assert (change.table, change.row_id, change.act_id) == ("systems", str(keys.system), act_id)
        assert (change.before, change.after) == ({"name": None}, {"name": "produce cooler"})


def test_without_commit_nothing_is_kept(engine: Engine) -> None:
    with work(engine) as forgotten:
        forgotten.add(Person(person="R. Osei", role="technician"))
        forgotten.flush()
    with reading(engine) as session:
        assert session.scalar(select(func.count()).select_from(Person)) == 0
        assert session.scalar(select(func.count()).select_from(Act)) == 0


def test_an_error_rolls_back(engine: Engine) -> None:
    def break_off() -> None:
        with work(engine) as broken:
            broken.add(Person(person="R. Osei", role="technician"))
            broken.flush()
            raise ZeroDivisionError

    with pytest.raises(ZeroDivisionError):
        break_off()
    with reading(engine) as session:
        assert session.scalar(select(func.count()).select_from(Person)) == 0


def test_work_that_changes_nothing_is_no_act(engine: Engine) -> None:
    keys = add_system(engine)
    before = input_version(engine, keys.system)
    with work(engine) as idle:
        idle.get(System, keys.system).refrigerant = "R-404A"
        assert idle.commit() is None
    assert input_version(engine, keys.system) == before


def test_two_writers_do_not_both_win(register: Path) -> None:
    first, second = open_register(register), open_register(register, busy_seconds=0.05)
    keys = add_system(first)
    with work(first) as one:
        one.get(System, keys.system).name = "first"
        with pytest.raises(RegisterLockedError), work(second):
            pass
        one.commit()
    with work(second) as two:
        assert two.get(System, keys.system).name == "first"
    first.dispose()
    second.dispose()


def test_the_second_of_two_editors_is_told(engine: Engine) -> None:
    keys = add_system(engine)
    with reading(engine) as session:
        seen = session.get_one(System, keys.system).version
    with work(engine) as first:
        first.get(System, keys.system, version=seen).name = "first"
        first.commit()
    message = "System 'WC-1' was changed by somebody else after you opened it; nothing was overwritten"
    with pytest.raises(ChangedMeanwhileError, match=message), work(engine) as second:
        second.get(System, keys.system, version=seen)
    with reading(engine) as session:
        assert session.get_one(System, keys.system).name == "first"


def test_a_row_that_is_gone_is_told(engine: Engine) -> None:
    with (
        pytest.raises(ChangedMeanwhileError, match="Row 7 of systems is no longer there"),
        work(engine) as late,
    ):
        late.get(System, 7)


@pytest.mark.parametrize(
    "change",
    [
        "system",
        "box",
        "compressor",
        "setting",
        "event",
        "check",
        "site",
        "catalogue",
        "new box",
        "no box",
        "move",
    ],
)
def test_whatever_findings_depend_on_marks_the_system(engine: Engine, change: str) -> None:
    keys, other = add_system(engine), add_system(engine, "WC-2")
    before = input_version(engine, keys.system), input_version(engine, other.system)
    with work(engine, change) as changing:
        _change(changing, change, keys)
        changing.commit()
    after = input_version(engine, keys.system), input_version(engine, other.system)
    both = change in {"catalogue"}
    assert after == (before[0] + 1, before[1] + both)


def test_a_moved_box_marks_both_systems(engine: Engine) -> None:
    keys, other = add_system(engine), add_system(engine, "WC-2")
    before = input_version(engine, keys.system), input_version(engine, other.system)
    with work(engine) as moving:
        box = moving.get(Box, keys.box)
        box.box, box.system_id = "B2", other.system
        moving.commit()
    assert input_version(engine, keys.system) == before[0] + 1
    assert input_version(engine, other.system) == before[1] + 1


def test_people_and_customers_mark_nothing(engine: Engine) -> None:
    keys = add_system(engine)
    before = input_version(engine, keys.system)
    with work(engine) as changing:
        changing.get(Person, keys.person).phone = "555 0101"
        changing.get(Customer, keys.customer).note = "prefers mornings"
        changing.commit()
    assert input_version(engine, keys.system) == before


def _change(w: Work, what: str, k: Keys) -> None:
    if what == "system":
        w.get(System, k.system).refrigerant = "R-448A"
    elif what == "box":
        w.get(Box, k.box).td_k = 5.0
    elif what == "new box":
        w.add(Box(system_id=k.system, box="B2"))
    elif what == "no box":
        w.session.delete(w.get(Box, k.box))
    elif what == "move":
        w.get(System, k.system).site_id = _another_site(w, k)
    elif what == "compressor":
        w.get(Compressor, k.compressor).out_of_service = date(2026, 1, 1)
    elif what == "setting":
        w.add(setting(k.system, 275.0, date(2026, 1, 1)))
    elif what == "event":
        w.add(
            Event(
                reference="E-1", site_id=k.site, system_id=k.system, kind="call", happened_on=date(2026, 1, 1)
            )
        )
    elif what == "check":
        w.add(CheckRecord(system_id=k.system, check_code="rack", done_on=date(2026, 1, 1), result="done"))
    elif what == "site":
        w.get(Site, k.site).design_cold_k = 250.0
    else:
        w.add(CheckDefinition(code="rack", months=1))


def _another_site(w: Work, k: Keys) -> int:
    site = Site(site="Dock Road", customer_id=k.customer)
    w.add(site)
    w.flush()
    return site.id


SETPOINT_CASES = {
    "the latest day wins": ([(275.0, date(2026, 1, 1)), (276.0, date(2026, 2, 1))], 276.0),
    "a back-dated record changes nothing": ([(276.0, date(2026, 2, 1)), (275.0, date(2026, 1, 1))], 276.0),
    "an undated record comes before all dated": ([(275.0, date(1950, 1, 1)), (276.0, None)], 275.0),
    "a correction of the same day wins": ([(275.0, date(2026, 1, 1)), (276.0, date(2026, 1, 1))], 276.0),
    "an undo leaves nothing recorded": ([(275.0, date(2026, 1, 1)), (None, date(2026, 1, 1))], None),
    "after an undo a new value counts": (
        [(275.0, date(2026, 1, 1)), (None, date(2026, 1, 1)), (277.0, date(2026, 1, 2))],
        277.0,
    ),
}


@pytest.mark.parametrize(("records", "current"), SETPOINT_CASES.values(), ids=SETPOINT_CASES)
@pytest.mark.parametrize("bulk", [False, True])
def test_the_current_setting(
    engine: Engine, records: list[tuple[float | None, date | None]], current: float | None, bulk: bool
) -> None:
    keys = add_system(engine)
    for value, day in records:
        with work(engine) as recording:
            if bulk:
                row = setting(keys.system, value, day)
                names = (
                    "system_id",
                    "part",
                    "setting",
                    "value_si",
                    "dimension",
                    "typed",
                    "stage",
                    "recorded_on",
                )
                recording.insert_many(SettingRecord, [{name: getattr(row, name) for name in names}])
            else:
                recording.add(setting(keys.system, value, day))
            recording.commit()
    assert _current(engine, keys.system).setpoint_k == current
    with reading(engine) as session:
        assert session.scalar(select(func.count()).select_from(SettingRecord)) == len(records)


@pytest.mark.parametrize("stages", [("as-found", "as-left"), ("as-left", "as-found")])
def test_on_one_day_as_left_comes_after_as_found(engine: Engine, stages: tuple[str, str]) -> None:
    keys = add_system(engine)
    values = {"as-found": 270.0, "as-left": 275.0}
    for stage in stages:
        with work(engine) as recording:
            recording.add(setting(keys.system, values[stage], date(2026, 1, 1), stage=stage))
            recording.commit()
    assert _current(engine, keys.system).setpoint_k == 275.0


def test_of_a_setting_of_two_dimensions_only_the_latest_stands(engine: Engine) -> None:
    keys = add_system(engine)
    of_system = {"part": "", "setting": "head_pressure_hold"}
    with work(engine) as recording:
        recording.add(setting(keys.system, 300.0, date(2026, 1, 1), **of_system))
        recording.add(setting(keys.system, 1e6, date(2026, 2, 1), dimension="gauge pressure", **of_system))
        recording.commit()
    current = _current(engine, keys.system, "")
    assert (current.head_pressure_hold_k, current.head_pressure_hold_pa_gauge) == (None, 1e6)


def test_parts_and_systems_are_kept_apart(engine: Engine) -> None:
    keys, other = add_system(engine), add_system(engine, "WC-2")
    with work(engine) as recording:
        recording.add(setting(keys.system, 275.0, date(2026, 1, 1)))
        recording.add(setting(keys.system, 276.0, date(2026, 1, 1), part="B2"))
        recording.add(setting(other.system, 277.0, date(2026, 1, 1)))
        recording.commit()
    found = [_current(engine, s, p).setpoint_k for s, p in ((keys.system, "B1"), (keys.system, "B2"))]
    assert [*found, _current(engine, other.system).setpoint_k] == [275.0, 276.0, 277.0]


CHECK_CASES = {
    "never done": ([("partly", 10, None), ("not-possible", 11, None)], (None, None)),
    "done": ([("done", 10, None), ("done", 12, None), ("done", 11, None)], (12, None)),
    "waived after": ([("done", 10, None), ("waived", 11, 40)], (10, 40)),
    "waived before": ([("waived", 9, 40), ("done", 10, None)], (10, None)),
    "the latest waiver": ([("waived", 12, 30), ("waived", 11, 40)], (None, 30)),
}


@pytest.mark.parametrize(("records", "state"), CHECK_CASES.values(), ids=CHECK_CASES)
def test_the_state_of_a_check(
    engine: Engine, records: list[tuple[str, int, int | None]], state: tuple[int | None, int | None]
) -> None:
    keys = add_system(engine)
    epoch = date(1970, 1, 1).toordinal()
    with work(engine) as recording:
        for result, day, until in records:
            recording.add(
                CheckRecord(
                    system_id=keys.system,
                    check_code="rack",
                    result=result,
                    done_on=date.fromordinal(epoch + day),
                    until=None if until is None else date.fromordinal(epoch + until),
                )
            )
        recording.commit()
    with reading(engine) as session:
        found = session.scalars(select(CurrentCheck)).one()
        assert (found.last_done_day, found.waived_until_day) == state


def test_records_know_their_act(engine: Engine) -> None:
    keys = add_system(engine)
    with work(engine) as recording:
        recording.add(setting(keys.system, 275.0, date(2026, 1, 1)))
        act_id = recording.commit()
    with reading(engine) as session:
        assert session.scalars(select(SettingRecord.act_id)).one() == act_id


def test_bulk_rows_of_several_shapes_keep_their_defaults(engine: Engine) -> None:
    keys = add_system(engine)
    with work(engine) as adding:
        made = adding.insert_many(
            System,
            [
                {
                    "site_id": keys.site,
                    "system": "A",
                    "typed": {"charge": "22lb"},
                    "fitted": ("suction_filter",),
                },
                {"site_id": keys.site, "system": "B", "input_version": 5},
            ],
            returning=True,
        )
        adding.commit()
    with reading(engine) as session:
        first, second = (session.get_one(System, key) for key in made)
        assert (first.system, first.typed, first.fitted) == ("A", {"charge": "22lb"}, ("suction_filter",))
        assert (first.input_version, first.version) == (1, 1)
        assert (second.system, second.typed, second.fitted, second.input_version) == ("B", {}, None, 5)


def _current(engine: Engine, system_id: int, part: str = "B1") -> CurrentSettings:
    with reading(engine) as session:
        return session.get_one(CurrentSettings, (system_id, part))
