"""Files against each other and against the register: what is refused, what changes, what stays."""

from collections.abc import Callable
from datetime import date, datetime

import pytest

from fleet.errors import ChangedMeanwhileError, ImportRefusedError
from fleet.exchange.apply import apply_plan
from fleet.exchange.gathering import read_row_sets
from fleet.exchange.outcome import Counts, Difference, Plan
from fleet.exchange.plan import make_plan
from fleet.exchange.progress import Step
from fleet.exchange.register import read_state
from tests.exchange.support import CHECK_CODES, SITE, SYSTEM, Importer, example

TODAY, NOW = date(2026, 11, 25), datetime(2026, 11, 25, 12, 0)
CURRENT = "SELECT low_pressure_cut_in_pa_gauge FROM current_settings WHERE part = ''"


def plan_of(register: Importer, rows: dict[str, list[dict[str, str]]]) -> Plan:
    gathered = read_row_sets(rows)
    return make_plan(gathered, read_state(register.engine, gathered), check_codes=CHECK_CODES)


def setting(**changed: str) -> dict[str, str]:
    return {**example()["settings"][0], **changed}


def test_a_set_of_files_is_imported(register: Importer) -> None:
    result = register.load(example())
    assert result.written
    assert result.counts["people"] == Counts(new=2)
    assert {name: counts.new for name, counts in result.counts.items() if name != "people"} == dict.fromkeys(
        ["customers", "sites", "systems", "boxes", "compressors", "settings", "events", "checks"], 1
    )
    assert register.one("SELECT p.person FROM customers c JOIN people p ON p.id = c.account_manager_id") == (
        "E. Ruiz"
    )
    assert register.rows("SELECT what, by_id FROM acts") == [("import", None)]
    assert register.one("SELECT count(*) FROM setting_records WHERE act_id IS NULL") == 0


def test_the_same_files_again_change_nothing_and_leave_no_act(register: Importer) -> None:
    register.load(example())
    before = register.dump()
    result = register.load(example())
    assert not result.written
    assert all((counts.new, counts.changed) == (0, 0) for counts in result.counts.values())
    assert register.dump() == before


def test_a_dry_run_counts_and_writes_nothing(register: Importer) -> None:
    before = register.dump()
    result = register.load(example(), dry_run=True)
    assert not result.written
    assert result.counts["systems"] == Counts(new=1)
    assert register.dump() == before


def test_a_changed_value_is_told_and_kept_with_what_stood_before(register: Importer) -> None:
    register.load(example())
    rows = {"systems": [{**SYSTEM, "charge": "23lb", "strategy": "remote-rack"}]}
    result = register.load(rows)
    assert result.counts == {"systems": Counts(changed=1)}
    key = tuple(SYSTEM.values())
    assert set(result.differences) == {
        Difference("systems", key, "charge", "22lb", "23lb"),
        Difference("systems", key, "strategy", "recycling-pump-down", "remote-rack"),
    }
    assert "23lb" in register.one("SELECT typed FROM systems")
    assert "208V" in register.one("SELECT typed FROM systems")
    assert "recycling-pump-down" in register.one("SELECT before FROM changes")
    # It is marked for the next audit.
    assert register.one("SELECT input_version - audited_version FROM systems") > 1


def test_an_import_never_wipes_by_omission(register: Importer) -> None:
    register.load(example())
    before = register.content()
    empty = dict.fromkeys(example()["systems"][0], "") | SYSTEM
    result = register.load({"systems": [empty], "boxes": [{**SYSTEM, "box": "B1"}]})
    assert not result.written
    assert register.content() == before


def test_the_same_value_in_another_spelling_is_no_change(register: Importer) -> None:
    register.load(example())
    result = register.load({"systems": [{**SYSTEM, "charge": "22.0 lb"}]})
    assert result.counts["systems"] == Counts(unchanged=1)


def test_a_differing_setting_is_appended_as_a_correction(register: Importer) -> None:
    register.load(example())
    result = register.load({"settings": [setting(value="16psig", confirmed="")]})
    assert result.counts["settings"] == Counts(changed=1)
    assert [(d.column, d.before, d.after) for d in result.differences] == [("value", "15psig", "16psig")]
    assert register.rows("SELECT typed, confirmed FROM setting_records ORDER BY id") == [
        ("15psig", "gauge"),
        ("16psig", "gauge"),
    ]
    assert not register.load({"settings": [setting(value="16psig")]}).written


@pytest.mark.parametrize(("installed", "recorded_on"), [("2019-05-14", "2019-05-14"), ("", None)])
def test_a_setting_as_a_column_is_a_first_as_found(
    register: Importer, installed: str, recorded_on: str | None
) -> None:
    rows = example()
    del rows["settings"]
    rows["systems"][0] |= {"installed": installed, "low_pressure_cut_in": "20psig"}
    rows["boxes"][0] |= {"installed": "", "setpoint": "36F"}
    assert register.load(rows).settings_recorded == 2
    found = register.rows("SELECT part, setting, stage, recorded_on FROM setting_records ORDER BY part")
    assert found == [
        ("", "low_pressure_cut_in", "as-found", recorded_on),
        ("B1", "setpoint", "as-found", None),
    ]
    assert not register.load(rows).written


def test_a_column_corrects_itself_and_never_a_later_record(register: Importer) -> None:
    rows = example()
    rows["systems"][0]["low_pressure_cut_in"] = "20psig"
    register.load(rows)
    later = register.one(CURRENT)
    changed = {"systems": [{**SYSTEM, "low_pressure_cut_in": "12psig"}]}
    result = register.load(changed)
    assert result.counts["systems"] == Counts(changed=1)
    assert [(d.key[4], d.before, d.after) for d in result.differences] == [
        ("low_pressure_cut_in", "20psig", "12psig")
    ]
    assert register.one(CURRENT) == later
    assert not register.load(changed).written


def test_an_undated_first_value_is_not_recorded_again_with_a_day(register: Importer) -> None:
    rows = example()
    rows["systems"][0] |= {"installed": "", "low_pressure_cut_in": "20psig"}
    register.load(rows)
    rows["systems"][0]["installed"] = "2019-05-14"
    assert register.load(rows).settings_recorded == 0


def test_a_column_and_a_row_that_say_different_things_of_one_day(register: Importer) -> None:
    rows = example()
    rows["systems"][0]["low_pressure_cut_in"] = "20psig"
    rows["settings"] = [setting(stage="as-found", recorded_on="2019-05-14")]
    assert register.refused(rows) == [
        "systems.csv, row 2, low_pressure_cut_in: '20psig': settings.csv, row 2 has another value of that "
        "day and stage; expected one value"
    ]
    rows["settings"][0]["value"] = "20 psig"
    assert register.load(rows).settings_recorded == 1


@pytest.mark.parametrize(
    ("sensor", "typed", "shown_psi"),
    [
        # independent: what a gauge shows is absolute less the air: at sea level 14.696 psi
        ("vented", "34.696psia", 20.0),
        ("sealed", "34.696psia", 20.0),
        ("absolute", "34.696psia", 34.696),
        ("absolute", "20psig", 34.696),
        ("vented", "20psig", 20.0),
    ],
)
def test_pressures_are_kept_as_typed_and_used_as_the_control_shows_them(
    register: Importer, sensor: str, typed: str, shown_psi: float
) -> None:
    rows = example()
    rows["sites"][0]["elevation"] = "0ft"
    rows["systems"][0]["low_pressure_sensor"] = sensor
    rows["settings"] = [setting(value=typed)]
    register.load(rows)
    assert register.one("SELECT typed FROM setting_records") == typed
    assert register.one(CURRENT) / 6894.757 == pytest.approx(shown_psi, abs=0.001)


def test_an_absolute_pressure_in_a_gauge_column_needs_the_elevation(register: Importer) -> None:
    rows = example()
    rows["boxes"][0]["mop"] = "34.696psia"
    rows["sites"][0]["elevation"] = ""
    assert register.refused(rows) == [
        "boxes.csv, row 2, mop: '34.696psia': is typed as an absolute pressure, and what the control shows "
        "for it depends on the elevation of the site, which is not recorded; expected the elevation in "
        "sites.csv, or the pressure as the control shows it"
    ]
    rows["sites"][0]["elevation"] = "0ft"
    register.load(rows)
    assert register.one("SELECT mop_pa_gauge FROM boxes") / 6894.757 == pytest.approx(20.0, abs=0.001)


REFUSED: list[tuple[str, dict[str, str], str]] = [
    (
        "sites",
        {"customer": "ALDR"},
        "sites.csv, row 2, customer: 'ALDR': There is no customer 'ALDR'. Nearest: ALDER.",
    ),
    (
        "boxes",
        {"site": "Rigde Street"},
        "boxes.csv, row 2, site: 'Rigde Street': There is no site of ALDER 'Rigde Street'. "
        "Nearest: Ridge Street.",
    ),
    (
        "compressors",
        {"system": "WC-3", "position": "2"},
        "compressors.csv, row 2, system: 'WC-3': There is no system of Ridge Street 'WC-3'. Nearest: WC-2.",
    ),
    (
        "customers",
        {"account_manager": "E. Ruis"},
        "customers.csv, row 2, account_manager: 'E. Ruis': There is no person 'E. Ruis'. Nearest: E. Ruiz.",
    ),
    (
        "settings",
        {"recorded_by": "R. Ose"},
        "settings.csv, row 2, recorded_by: 'R. Ose': There is no person 'R. Ose'. Nearest: R. Osei.",
    ),
    (
        "settings",
        {"part": "compressor 2"},
        "settings.csv, row 2, part: 'compressor 2': There is no part of the system WC-2 'compressor 2'. "
        "Nearest: compressor 1.",
    ),
    (
        "settings",
        {"part": "B1"},
        "settings.csv, row 2, part: 'B1': low_pressure_cut_in belongs to the system or a compressor; "
        "expected an empty part or one like 'compressor 1' (WC-2 has compressor 1)",
    ),
    (
        "settings",
        {"setting": "setpoint", "value": "36F"},
        "settings.csv, row 2, part: '': setpoint belongs to a box; expected the tag of a box (WC-2 has B1)",
    ),
    (
        "settings",
        {"setting": "group_suction", "part": "group B"},
        "settings.csv, row 2, part: 'group B': There is no part of the system WC-2 'group B'. "
        "Known: B1, compressor 1.",
    ),
    (
        "checks",
        {"check_code": "condensor_coil"},
        "checks.csv, row 2, check_code: 'condensor_coil': There is no check 'condensor_coil'. "
        "Nearest: condenser_coil.",
    ),
    (
        "checks",
        {"until": "2026-05-19"},
        "checks.csv, row 2, until: '2026-05-19': lies before done_on 2026-05-20; "
        "expected the same day or a later one",
    ),
    (
        "checks",
        {"part": "B9"},
        "checks.csv, row 2, part: 'B9': There is no part of the system WC-2 'B9'. Known: B1, compressor 1.",
    ),
    (
        "events",
        {"part": "compressor 7"},
        "events.csv, row 2, part: 'compressor 7': There is no part of the system WC-2 'compressor 7'. "
        "Nearest: compressor 1.",
    ),
    (
        "events",
        {"system": ""},
        "events.csv, row 2, part: 'compressor 1': is a part of no system; "
        "expected a system, or an empty part",
    ),
    (
        "events",
        {"arrived_at": "2025-02-09T06:09"},
        "events.csv, row 2, arrived_at: '2025-02-09T06:09': lies before called_at 2025-02-09T06:10; "
        "expected the same time or a later one",
    ),
    (
        "compressors",
        {"out_of_service": "2023-02-17"},
        "compressors.csv, row 2, out_of_service: '2023-02-17': lies before in_service 2023-02-18; "
        "expected the same day or a later one",
    ),
    (
        "boxes",
        {"td_low": "12F", "td_high": "8F"},
        "boxes.csv, row 2, td_high: '8F': is less than td_low 12F; expected the same or more",
    ),
    (
        "sites",
        {"low_1": "30F"},
        "sites.csv, row 2, high_1: '26F': is less than low_1 30F; expected the same or more",
    ),
]


@pytest.mark.parametrize(("kind", "changed", "sentence"), REFUSED)
def test_what_cannot_be_is_refused(
    register: Importer, kind: str, changed: dict[str, str], sentence: str
) -> None:
    rows = example()
    rows[kind][0] |= changed
    if kind == "compressors":
        del rows["events"]
    if kind == "sites":
        rows = {name: rows[name] for name in ("people", "customers", "sites")}
    assert register.refused(rows) == [sentence]


def test_a_pair_is_judged_with_what_the_register_holds(register: Importer) -> None:
    rows = example()
    rows["boxes"][0]["td_low"] = "12F"
    register.load(rows)
    box = {**SYSTEM, "box": "B1"}
    assert register.refused({"boxes": [{**box, "td_high": "8F"}]}) == [
        "boxes.csv, row 2, td_high: '8F': is less than td_low 12F; expected the same or more"
    ]
    register.load({"boxes": [{**box, "td_high": "13F"}]})


def test_what_is_merely_wrong_is_kept(register: Importer) -> None:
    rows = example()
    rows["settings"] = [
        setting(value="5psig"),
        setting(setting="low_pressure_cut_out", value="15psig"),
    ]
    rows["systems"][0] |= {"warranty_until": "2001-01-01"}
    register.load(rows)
    assert register.one("SELECT count(*) FROM setting_records") == 2


def test_twice_the_same_tag_names_both_rows(register: Importer) -> None:
    rows = example()
    rows["systems"].append({**rows["systems"][0], "name": "another"})
    rows["settings"].append(setting(value="3psig"))
    assert register.refused(rows) == [
        "settings.csv, row 3, recorded_on: "
        "'ALDER / Ridge Street / WC-2 / low_pressure_cut_in / as-left / 2026-03-12': "
        "this setting of the same day and stage stands in row 2 already; expected each once",
        "systems.csv, row 3, system: 'ALDER / Ridge Street / WC-2': this system stands in row 2 already; "
        "expected each once",
    ]


def test_problems_of_all_files_come_in_one_pass(register: Importer) -> None:
    rows = example()
    rows["systems"][0]["charge"] = "22"
    rows["boxes"][0]["kind"] = "fridge"
    rows["checks"][0]["done_by"] = "Nobody"
    files = [sentence.split(",")[0] for sentence in register.refused(rows)]
    assert sorted(files) == ["boxes.csv", "checks.csv", "systems.csv"]


def test_a_bad_cell_of_a_site_does_not_make_its_systems_homeless(register: Importer) -> None:
    rows = example()
    rows["sites"][0]["elevation"] = "high"
    assert len(register.refused(rows)) == 1


def test_a_bad_last_row_leaves_the_register_as_it_was(register: Importer) -> None:
    register.load(example())
    rows = example()
    rows["systems"] = [{**rows["systems"][0], "system": f"S{number}"} for number in range(200)]
    rows["systems"].append({**SYSTEM, "system": "last", "charge": "much"})
    assert len(register.refused({"systems": rows["systems"]})) == 1  # it compares the register as SQL


def test_a_failure_in_the_middle_of_writing_leaves_the_register_as_it_was(register: Importer) -> None:
    register.load(example())
    before = register.dump()
    rows = example()
    rows["systems"].append({**rows["systems"][0], "system": "WC-9"})
    rows["boxes"].append({**rows["boxes"][0], "system": "WC-9"})

    def stop(step: Step) -> None:
        if step.stage == "writing boxes":
            raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        register.load(rows, progress=stop)
    assert register.dump() == before


def test_a_register_that_changed_meanwhile_is_not_written(register: Importer) -> None:
    register.load(example())
    plan = plan_of(register, {"systems": [{**SYSTEM, "charge": "30lb"}]})
    register.load({"systems": [{**SYSTEM, "charge": "31lb"}]})
    before = register.dump()
    with pytest.raises(ChangedMeanwhileError, match="after the files were compared with it; nothing was"):
        apply_plan(register.engine, plan, by=None, today=TODAY, now=NOW)
    assert register.dump() == before


def test_an_event_can_move_to_another_system(register: Importer) -> None:
    rows = example()
    rows["systems"].append({**rows["systems"][0], "system": "WC-5"})
    register.load(rows)
    event = {"reference": "E-1042", **SITE, "kind": "repair", "happened_on": "2025-02-09"}
    assert register.load({"events": [{**event, "system": ""}]}).counts["events"] == Counts(changed=1)
    assert register.one("SELECT part FROM events") == "compressor 1"
    result = register.load({"events": [{**event, "system": "WC-5"}]})
    assert [(d.column, d.after) for d in result.differences] == [("system", "ALDER / Ridge Street / WC-5")]
    at = "SELECT s.system FROM events e JOIN systems s ON s.id = e.system_id"
    assert register.one(at) == "WC-5"
    assert not register.load({"events": [{**event, "system": "WC-5"}]}).written


def test_an_event_of_a_whole_site(register: Importer) -> None:
    rows = example()
    rows["events"][0] |= {"system": "", "part": "", "kind": "power-outage"}
    register.load(rows)
    assert register.rows("SELECT system_id, part FROM events") == [(None, "")]


def test_the_suction_group_of_a_column(register: Importer) -> None:
    rows = example()
    rows["systems"][0] |= {"group_suction": "47psig"}
    rows["boxes"][0] |= {"suction_group": "A"}
    register.load(rows)
    assert register.one("SELECT part FROM setting_records WHERE setting = 'group_suction'") == "group A"
    rows["boxes"].append({**rows["boxes"][0], "box": "B2", "suction_group": "B"})
    assert register.refused(rows) == [
        "systems.csv, row 2, group_suction: '47psig': the system has group A, group B; "
        "expected a row of settings.csv for each"
    ]


def test_check_again_and_corrected(register: Importer) -> None:
    rows = example()
    register.load(rows)
    check = {**rows["checks"][0], "found": "fault", "minutes": ""}
    result = register.load({"checks": [check]})
    assert [(d.column, d.before, d.after) for d in result.differences] == [("found", "nothing", "fault")]
    typed = '{"minutes": "40min"}'
    assert register.rows("SELECT found, minutes_s, typed FROM check_records ORDER BY id") == [
        ("nothing", 2400.0, typed),
        ("fault", 2400.0, typed),
    ]
    assert not register.load({"checks": [check]}).written


def test_a_compressor_without_a_day_is_known_again(register: Importer) -> None:
    rows = example()
    rows["compressors"][0]["in_service"] = ""
    register.load(rows)
    assert not register.load(rows).written


def test_a_large_first_import_tells_how_far_it_is(new_register: Callable[[], Importer]) -> None:
    rows = example()
    rows["boxes"] = [{**rows["boxes"][0], "box": f"B{number}"} for number in range(5_000)]
    steps: list[Step] = []
    new_register().load(rows, progress=steps.append)
    stages = list(dict.fromkeys(step.stage for step in steps))
    assert stages[0] == "comparing settings.csv"
    assert stages[-2:] == ["writing checks", "working out what holds now"]
    assert [step.done for step in steps if step.stage == "comparing boxes.csv"] == [2_000, 4_000, 5_000]


def test_an_unreadable_file_does_not_accuse_the_others(register: Importer) -> None:
    rows = example()
    gathered = read_row_sets(rows)
    gathered.tables["systems"].complete = False
    gathered.tables["systems"].rows.clear()
    gathered.problems.add("systems.csv", None, None, None, "is a database; expected a CSV file in UTF-8")
    with pytest.raises(ImportRefusedError) as refused:
        make_plan(gathered, read_state(register.engine, gathered), check_codes=CHECK_CODES)
    assert len(refused.value.problems) == 1
