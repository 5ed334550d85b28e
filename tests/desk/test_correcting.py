"""Correcting settings: typed, looked at, saved, undone; nothing half-written, nothing taken away."""

from datetime import date, timedelta
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from fleet.atmosphere import air_pressure_pa
from fleet.desk.correcting import (
    Correction,
    Saved,
    columns_of,
    last_correction,
    preview,
    read_setting,
    save,
    undo,
)
from fleet.desk.form import Form, FormLook, form, look, read_day, to_save, verdict_of
from fleet.desk.opened import Desk
from fleet.desk.sheet import sheet
from fleet.errors import (
    ChangedMeanwhileError,
    ColdroundError,
    InputError,
    QuantityError,
    RegisterMissingError,
    UnknownNameError,
    UsageError,
)
from fleet.units import PSI_PA
from tests.desk.systems import TODAY, cooler_rows, open_rows, rack_rows, system_id

CUT_IN, CUT_OUT, DIFFERENTIAL = "low_pressure_cut_in", "low_pressure_cut_out", "low_pressure_differential"


@pytest.fixture
def cooler(tmp_path: Path) -> Desk:
    return open_rows(tmp_path, cooler_rows())


def _save(desk: Desk, *corrections: Correction, on: date = TODAY, tag: str = "WC-2", by: str = "") -> Saved:
    return save(desk, system_id(desk, tag), corrections, by=by, on=on, confirmed="gauge")


def _current(desk: Desk, setting: str, tag: str = "WC-2", part: str = "") -> float | None:
    with desk.engine.connect() as connection:
        value = connection.exec_driver_sql(
            f"SELECT {setting} FROM current_settings WHERE system_id = ? AND part = ?",
            (system_id(desk, tag), part),
        ).scalar()
    return None if value is None else float(value)


def _cut_in_psi(desk: Desk) -> float | None:
    value = _current(desk, "low_pressure_cut_in_pa_gauge")
    return None if value is None else value / PSI_PA


def _records(desk: Desk) -> int:
    with desk.engine.connect() as connection:
        return int(connection.exec_driver_sql("SELECT count(*) FROM setting_records").scalar() or 0)


# Looking -------------------------------------------------------------------------------------


def test_preview_follows_what_is_typed_and_writes_nothing(cooler: Desk) -> None:
    before = _records(cooler)
    fleet = columns_of(cooler, system_id(cooler))
    seen = preview(cooler, fleet, {("", CUT_IN): "15psig", ("", CUT_OUT): "5 psig"})
    assert [w.verdict.value for w in seen.windows.windows] == ["inside"] * 3
    again = preview(cooler, fleet, {})
    assert again.windows.windows[0].verdict.value == "above"
    assert _records(cooler) == before


def test_preview_equals_what_is_computed_after_saving(cooler: Desk) -> None:
    fleet = columns_of(cooler, system_id(cooler))
    seen = preview(cooler, fleet, {("", CUT_IN): "29.7psia", ("", CUT_OUT): "5psig"})
    _save(cooler, Correction("", CUT_IN, left="29.7psia"), Correction("", CUT_OUT, left="5psig"))
    saved = preview(cooler, columns_of(cooler, system_id(cooler)), {})
    assert [(w.recorded, w.low, w.high, w.verdict) for w in saved.windows.windows] == [
        (w.recorded, w.low, w.high, w.verdict) for w in seen.windows.windows
    ]


@pytest.mark.parametrize(
    ("setting", "text", "says"),
    [
        (CUT_IN, "15", "'15' has no unit; expected a gauge pressure like 15psig"),
        (CUT_IN, "15F", "'15F' is a temperature; expected a gauge pressure"),
        (CUT_IN, "-20psig", "below a full vacuum"),
        (DIFFERENTIAL, "10psig", "'10psig' is a gauge pressure; expected a pressure difference"),
        ("setpoint", "-500F", "below absolute zero"),
    ],
)
def test_what_is_no_value_is_said_with_what_would_be(
    cooler: Desk, setting: str, text: str, says: str
) -> None:
    part = "B1" if setting == "setpoint" else ""
    fleet = columns_of(cooler, system_id(cooler))
    seen = preview(cooler, fleet, {(part, setting): text})
    assert says in seen.problems[part, setting]
    before = _records(cooler)
    with pytest.raises(InputError, match=r"."):
        _save(cooler, Correction("", CUT_OUT, left="5psig"), Correction(part, setting, left=text))
    assert _records(cooler) == before  # nothing half-written


# Saving -------------------------------------------------------------------------------------


def test_saving_settles_the_finding_and_keeps_both_values(cooler: Desk) -> None:
    saved = _save(
        cooler,
        Correction("", CUT_IN, found="41psig", left="15psig"),
        Correction("", CUT_OUT, left="5psig"),
    )
    assert saved.settled == 1
    shown = sheet(cooler, system_id(cooler))
    assert [finding.key for finding in shown.findings if finding.key[1] != "check_overdue"] == []
    assert [row.what for row in shown.history[:2]] == [
        "cut-out set to 5psig, gauge",
        "cut-in 41psig → 15psig, gauge",
    ]
    assert {row.who for row in shown.history[:2]} == {"R. Osei"}
    assert shown.windows[0].explained.lines[0] == ("recorded", "15.0 psig, typed 15psig")


def test_value_outside_can_be_saved_and_the_finding_stays(cooler: Desk) -> None:
    saved = _save(cooler, Correction("", CUT_IN, left="50psig"))
    assert saved.settled == 0
    assert "low_pressure_cut_in" in {f.key[2] for f in sheet(cooler, system_id(cooler)).findings}


def test_as_found_only_becomes_what_holds(cooler: Desk) -> None:
    _save(cooler, Correction("", CUT_IN, found="20psig"))
    assert _cut_in_psi(cooler) == pytest.approx(20.0)
    assert sheet(cooler, system_id(cooler)).history[0].what == "cut-in found at 20psig, gauge"


def test_back_dated_does_not_overrule_what_came_later(cooler: Desk) -> None:
    _save(cooler, Correction("", CUT_IN, left="15psig"), on=date(2025, 3, 11))
    assert _cut_in_psi(cooler) == pytest.approx(41.0)  # recorded for 12 March 2025


def test_absolute_pressure_is_kept_as_the_control_shows_it(tmp_path: Path) -> None:
    # independent: 1976 standard atmosphere at 5,000 ft, 84,307 Pa (tests of fleet.atmosphere).
    desk = open_rows(tmp_path, cooler_rows(site={"elevation": "5000ft"}))
    _save(desk, Correction("", CUT_IN, left="30psia"))
    stands = _current(desk, "low_pressure_cut_in_pa_gauge")
    assert stands == pytest.approx(30 * PSI_PA - air_pressure_pa(1524.0))
    assert sheet(desk, system_id(desk)).windows[0].explained.lines[0][1].endswith("typed 30psia")


def test_absolute_pressure_needs_the_elevation(tmp_path: Path) -> None:
    desk = open_rows(tmp_path, cooler_rows(site={"elevation": ""}))
    with pytest.raises(QuantityError, match=r"'30psia'.*depends on the elevation.*not recorded"):
        _save(desk, Correction("", CUT_IN, left="30psia"))
    _save(desk, Correction("", CUT_IN, left="15psig"))


def test_absolute_sensor_reads_a_typed_gauge_pressure_plus_the_air(tmp_path: Path) -> None:
    desk = open_rows(tmp_path, cooler_rows(low_pressure_sensor="absolute"))
    _save(desk, Correction("", CUT_IN, left="15psig"))
    assert _current(desk, "low_pressure_cut_in_pa_gauge") == pytest.approx(15 * PSI_PA + 101325.0)


def test_group_compressor_and_box_parts(tmp_path: Path) -> None:
    desk = open_rows(tmp_path, rack_rows())
    _save(
        desk,
        Correction("group A", "group_suction", left="50psig"),
        Correction("compressor 2", CUT_OUT, left="1psig"),
        tag="RK-1",
    )
    assert _current(desk, "group_suction_pa_gauge", "RK-1", "group A") == pytest.approx(50 * PSI_PA)
    assert _current(desk, "low_pressure_cut_out_pa_gauge", "RK-1", "compressor 2") == pytest.approx(PSI_PA)
    by_part = {window.part: window for window in sheet(desk, system_id(desk, "RK-1")).windows}
    assert by_part["group A"].value == "50.0"
    assert by_part["compressor 1"].recorded is None
    _save(desk, Correction("B1", "setpoint", left="38F"), Correction("B1", "differential", left="2F"))
    assert _current(desk, "setpoint_k", part="B1") == pytest.approx(276.4833, abs=1e-3)


def test_people_days_and_confirmations_are_checked(cooler: Desk) -> None:
    one = Correction("", CUT_IN, left="15psig")
    key = system_id(cooler)
    before = _records(cooler)
    with pytest.raises(UnknownNameError, match=r"no person 'R. Oseo'. Nearest: R. Osei"):
        _save(cooler, one, by="R. Oseo")
    with pytest.raises(UsageError, match=r"2026-11-26 lies ahead of today, 2026-11-25"):
        _save(cooler, one, on=TODAY + timedelta(days=1))
    with pytest.raises(UsageError, match=r"'guess' is none of gauge, thermometer"):
        save(cooler, key, [one], by="", on=TODAY, confirmed="guess")
    with pytest.raises(UsageError, match=r"Nothing was typed"):
        _save(cooler, Correction("", CUT_IN, left="  "))
    with pytest.raises(UsageError, match=r"2,001 characters"):
        save(cooler, key, [one], by="", on=TODAY, confirmed="gauge", note="x" * 2001)
    cooler.by = None
    with pytest.raises(UsageError, match=r"Say who"):
        _save(cooler, one)
    assert _records(cooler) == before


def test_register_without_people_takes_a_correction_from_nobody(tmp_path: Path) -> None:
    rows = cooler_rows()
    rows["people"] = []
    for row in rows["settings"]:
        del row["recorded_by"]
    desk = open_rows(tmp_path, rows, by=None)
    _save(desk, Correction("", CUT_IN, left="15psig"))
    assert sheet(desk, system_id(desk)).history[0].who == ""


def test_second_of_two_hands_is_told(cooler: Desk) -> None:
    key = system_id(cooler)
    seen_by_both = form(cooler, key).seen
    save(cooler, key, [Correction("", CUT_IN, left="15psig")], by="", on=TODAY, confirmed="gauge",
         seen=seen_by_both)  # fmt: skip
    before = _records(cooler)
    with pytest.raises(ChangedMeanwhileError, match=r"WC-2 was changed by somebody else.*nothing was overw"):
        save(cooler, key, [Correction("", CUT_IN, left="20psig")], by="", on=TODAY, confirmed="gauge",
             seen=seen_by_both)  # fmt: skip
    assert _records(cooler) == before


def test_unknown_system_is_told(cooler: Desk) -> None:
    with pytest.raises(ColdroundError, match=r"no longer there"):
        save(cooler, 4711, [Correction("", CUT_IN, left="15psig")], by="", on=TODAY, confirmed="gauge")


# Undoing -------------------------------------------------------------------------------------


def test_undo_restores_and_takes_nothing_away(cooler: Desk) -> None:
    before = _records(cooler)
    saved = _save(cooler, Correction("", CUT_IN, found="40psig", left="15psig"))
    assert last_correction(cooler) == saved.act_id
    undo(cooler, saved.act_id)
    assert _cut_in_psi(cooler) == pytest.approx(41.0)
    assert _records(cooler) == before + 3
    assert "low_pressure_cut_in" in {f.key[2] for f in sheet(cooler, system_id(cooler)).findings}
    assert last_correction(cooler) is None
    with pytest.raises(UsageError, match=r"undone already"):
        undo(cooler, saved.act_id)


def test_undo_of_a_first_value_leaves_it_unrecorded(cooler: Desk) -> None:
    saved = _save(cooler, Correction("", DIFFERENTIAL, left="10psi"))
    undo(cooler, saved.act_id)
    assert _current(cooler, "low_pressure_differential_pa") is None
    assert sheet(cooler, system_id(cooler)).history[0].what.startswith("LP differential withdrawn")


def test_undo_of_as_found_only_restores(cooler: Desk) -> None:
    saved = _save(cooler, Correction("", CUT_IN, found="20psig"))
    undo(cooler, saved.act_id)
    assert _cut_in_psi(cooler) == pytest.approx(41.0)


def test_undo_of_back_dated_leaves_what_came_later(cooler: Desk) -> None:
    saved = _save(cooler, Correction("", CUT_IN, left="15psig"), on=date(2025, 3, 11))
    undo(cooler, saved.act_id)
    assert _cut_in_psi(cooler) == pytest.approx(41.0)
    rows = [row for row in sheet(cooler, system_id(cooler)).history if row.day == date(2025, 3, 11)]
    assert [row.what for row in rows] == ["cut-in withdrawn, not confirmed", "cut-in set to 15psig, gauge"]


def test_undo_goes_back_step_by_step_also_over_days(cooler: Desk) -> None:
    first = _save(cooler, Correction("", CUT_IN, left="30psig"), on=TODAY - timedelta(days=3))
    second = _save(cooler, Correction("", CUT_IN, left="15psig"))
    undo(cooler, second.act_id)
    assert _cut_in_psi(cooler) == pytest.approx(30.0)
    assert last_correction(cooler) == first.act_id
    undo(cooler, first.act_id)
    assert _cut_in_psi(cooler) == pytest.approx(41.0)


def test_undo_out_of_order_on_one_day_is_refused(cooler: Desk) -> None:
    first = _save(cooler, Correction("", CUT_IN, left="30psig"))
    _save(cooler, Correction("", CUT_IN, left="15psig"))
    before = _records(cooler)
    with pytest.raises(UsageError, match=r"corrected again since"):
        undo(cooler, first.act_id)
    assert (_records(cooler), _cut_in_psi(cooler)) == (before, pytest.approx(15.0))


def test_only_corrections_are_undone(cooler: Desk) -> None:
    with cooler.engine.connect() as connection:
        act = connection.exec_driver_sql("SELECT min(id) FROM acts").scalar()
    assert act is not None
    with pytest.raises(UsageError, match=r"nothing to undo"):
        undo(cooler, int(act))


def test_last_correction_of_one_system_since_a_moment(tmp_path: Path) -> None:
    desk = open_rows(tmp_path, rack_rows())
    start = desk.now()
    saved = _save(desk, Correction("", CUT_IN, left="15psig"))
    assert last_correction(desk, system_id(desk)) == saved.act_id
    assert last_correction(desk, system_id(desk, "RK-1")) is None
    assert last_correction(desk, system_id(desk), since=start) == saved.act_id
    assert last_correction(desk, system_id(desk), since=desk.now() + timedelta(minutes=1)) is None


VALUES = st.lists(st.integers(1, 60), min_size=1, max_size=4)


@settings(max_examples=8, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(values=VALUES, days=st.lists(st.integers(0, 5), min_size=4, max_size=4))
def test_undoing_everything_restores_what_held_before(
    cooler: Desk, values: list[int], days: list[int]
) -> None:
    held = _cut_in_psi(cooler)
    acts = [
        _save(cooler, Correction("", CUT_IN, left=f"{value}psig"), on=TODAY - timedelta(days=day)).act_id
        for value, day in zip(values, days, strict=False)
    ]
    for act in reversed(acts):
        undo(cooler, act)
    assert _cut_in_psi(cooler) == held


# The form -------------------------------------------------------------------------------------


def _look(desk: Desk, shown: Form, **left: str) -> FormLook:
    return look(
        desk, shown, [Correction("", f"low_pressure_{name}", left=text) for name, text in left.items()]
    )


def test_form_holds_the_settings_of_the_control(tmp_path: Path) -> None:
    desk = open_rows(tmp_path, rack_rows())
    cooler = form(desk, system_id(desk))
    assert [(f.label, f.recorded) for f in cooler.fields] == [
        ("cut-in", "41psig"),
        ("cut-out", "22psig"),
        ("differential", ""),
    ]
    assert cooler.people == ("J. Pell", "R. Osei")
    assert ("", CUT_IN) in cooler.open
    rack = form(desk, system_id(desk, "RK-1"))
    assert [f.label for f in rack.fields] == ["group A", "group B", "compressor 1", "compressor 2"]
    box = form(desk, system_id(desk), ("B1", "setpoint"))
    assert [(f.key, f.label, f.recorded) for f in box.fields] == [
        (("B1", "setpoint"), "setpoint", "36F"),
        (("B1", "differential"), "differential", "4F"),
    ]
    assert box.system == "WC-2 B1"


def test_verdict_names_distance_and_side(cooler: Desk) -> None:
    shown = form(cooler, system_id(cooler))
    high = _look(cooler, shown)
    verdict = verdict_of(cooler, shown, high, ("", CUT_IN))
    assert (verdict.severity_words, verdict.inside) == ("act now", False)
    assert verdict.text.endswith("above the highest.")
    good = _look(cooler, shown, cut_in="15psig", cut_out="5psig")
    verdict = verdict_of(cooler, shown, good, ("", CUT_IN))
    assert verdict.inside
    assert verdict.text.endswith("below the highest. Saving settles the finding.")
    assert good.left == {("", DIFFERENTIAL): "10.0 psi"}


def test_verdict_warns_of_what_would_newly_be_outside(cooler: Desk) -> None:
    shown = form(cooler, system_id(cooler))
    seen = _look(cooler, shown, cut_in="23psig")
    verdict = verdict_of(cooler, shown, seen, ("", CUT_IN))
    assert verdict.text.endswith("Then outside: differential.")


def test_bare_number_asks_for_the_unit_and_hides_the_differential(cooler: Desk) -> None:
    shown = form(cooler, system_id(cooler))
    seen = _look(cooler, shown, cut_in="15", cut_out="5psig")
    assert seen.problems["", CUT_IN] == "Add the unit, like 15psig, 1.03bar or 8.3inHg for vacuum."
    assert seen.left["", DIFFERENTIAL] == "—"


def test_box_setpoint_moves_the_windows(cooler: Desk) -> None:
    shown = form(cooler, system_id(cooler), ("B1", "setpoint"))
    before = look(cooler, shown, []).windows["", CUT_OUT].high
    colder = look(cooler, shown, [Correction("B1", "setpoint", left="30F")]).windows["", CUT_OUT].high
    assert before is not None
    assert colder is not None
    assert colder < before


def test_recorded_differential_follows_a_moved_pair(tmp_path: Path) -> None:
    rows = cooler_rows()
    rows["settings"].append({**rows["settings"][0], "setting": DIFFERENTIAL, "value": "19psi"})
    desk = open_rows(tmp_path, rows)
    shown = form(desk, system_id(desk))
    typed = [Correction("", CUT_IN, left="15psig"), Correction("", CUT_OUT, left="5psig")]
    seen = look(desk, shown, typed)
    wanted = to_save(shown, seen, typed)
    assert wanted == [*typed, Correction("", DIFFERENTIAL, left="10.0psi")]
    _save(desk, *wanted)
    # What was shown before saving is what stands after it.
    assert [w.verdict for w in sheet(desk, system_id(desk)).windows] == [
        seen.windows["", code].verdict for code in (CUT_IN, CUT_OUT, DIFFERENTIAL)
    ]


def test_unrecorded_differential_stays_unrecorded(cooler: Desk) -> None:
    shown = form(cooler, system_id(cooler))
    typed = [Correction("", CUT_IN, left="15psig"), Correction("", CUT_OUT, left="")]
    assert to_save(shown, look(cooler, shown, typed), typed) == typed[:1]


def test_preferred_values_as_typed_come_out_inside(demo: Desk) -> None:
    with demo.engine.connect() as connection:
        ids = [row[0] for row in connection.exec_driver_sql("SELECT id FROM systems ORDER BY id")]
    judged = 0
    for one in ids:
        shown = form(demo, one)
        rows = look(demo, shown, []).windows
        typed = [
            Correction(*key, left=row.preferred_typed)
            for key, row in rows.items()
            if row.preferred_typed and row.state == "known" and not row.difference
        ]
        after = look(demo, shown, typed).windows
        if len(typed) < 2:  # where only one of a pair can be had, the differential is not to be had
            continue
        assert [
            (key, row.verdict)
            for key, row in after.items()
            if row.verdict not in {"inside", "not-applicable"}
        ] == []
        judged += len(typed)
    assert judged > 100


@pytest.mark.parametrize("text", ["2026-11-25", "25 Nov 2026", " 25 November 2026 "])
def test_days_are_read(cooler: Desk, text: str) -> None:
    assert read_day(cooler, text) == TODAY


def test_what_is_no_day_is_said(cooler: Desk) -> None:
    with pytest.raises(
        InputError, match=r"'yesterday' is no day; expected one like 25 Nov 2026 or 2026-11-25"
    ):
        read_day(cooler, "yesterday")


TEXTS = st.text(max_size=80) | st.sampled_from(
    ["[", "[/]", "\\", "\x1b[31m", "15\x00psig", "冷psig", "[@click=app.quit]15psig", "1e400psig", "٣psig"]
)


@settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(text=TEXTS, setting=st.sampled_from([CUT_IN, DIFFERENTIAL, "setpoint", "defrosts_per_day"]))
def test_any_text_is_read_or_refused_with_a_sentence(text: str, setting: str) -> None:
    refusal = "expected: nothing, it was read"
    try:
        read_setting(setting, text)
    except InputError as error:
        refusal = error.message
    assert "expected" in refusal


@pytest.mark.parametrize("by_what", ["deleted", "moved", "replaced"])
def test_nothing_is_written_into_a_file_that_is_not_the_register_any_more(cooler: Desk, by_what: str) -> None:
    path, system = Path(cooler.where), system_id(cooler)
    right = Correction("", CUT_IN, left="15psig")
    act = save(cooler, system, [right], by="J. Pell", on=TODAY, confirmed="gauge").act_id
    if by_what == "deleted":
        path.unlink()
    else:
        path.rename(path.with_name("elsewhere.sqlite"))
    if by_what == "replaced":
        path.write_bytes(b"another file")
    message = "was deleted, moved or replaced while it was open. Nothing was changed"
    with pytest.raises(RegisterMissingError, match=message):
        save(cooler, system, [right], by="J. Pell", on=TODAY, confirmed="gauge")
    with pytest.raises(RegisterMissingError, match=message):
        undo(cooler, act)
    if by_what == "replaced":
        assert path.read_bytes() == b"another file"
    else:
        assert not path.exists()
