"""The sheet of one system: what is recorded, judged, due and past, ready to be shown."""

import csv
from dataclasses import FrozenInstanceError
from pathlib import Path

import pytest

from fleet.desk.opened import Desk
from fleet.desk.sheet import Sheet, SheetFinding, sheet
from fleet.desk.sheet_facts import refrigerant_cautions
from fleet.errors import ChangedMeanwhileError
from fleet.units import UnitSystem
from tests.desk.systems import KEY, cooler_rows, open_rows, rack_rows, system_id

PUBLISHED = Path(__file__).parents[1] / "reference" / "saturation.csv"


@pytest.fixture
def cooler(tmp_path: Path) -> Desk:
    return open_rows(tmp_path, cooler_rows())


def _sheet(desk: Desk, tag: str = "WC-2") -> Sheet:
    return sheet(desk, system_id(desk, tag))


def _about_settings(shown: Sheet) -> list[SheetFinding]:
    return [finding for finding in shown.findings if finding.key[1] != "check_overdue"]


def test_names_and_facts_stand_as_typed(cooler: Desk) -> None:
    shown = _sheet(cooler)
    assert (shown.customer, shown.site, shown.system) == ("Alder [Foods]", "Ridge Street", "WC-2")
    assert shown.headline == (
        "walk-in cooler 36F",
        "R-404A",
        "recycling pump-down",
        "outdoor",
        "0ft",
        "charge not recorded",
    )


def test_what_is_not_recorded_is_said(cooler: Desk) -> None:
    lines = {line.label: line for line in _sheet(cooler).facts}
    assert lines["charge"].value == "not recorded"
    assert lines["charge"].missing
    assert lines["TD"].value == "10F"
    assert not lines["TD"].missing
    assert (lines["setpoint"].part, lines["setpoint"].setting) == ("B1", "setpoint")


def test_the_finding_says_why_and_how_far(cooler: Desk) -> None:
    worst = _sheet(cooler).findings[0]
    assert worst.key == ("", "low_pressure_window", "low_pressure_cut_in")
    assert (worst.severity, worst.severity_words) == (1, "act now")
    assert worst.summary.startswith("41.0 psig, highest ")
    assert "does not restart until the weather warms" in worst.sentence
    labels = [label for label, _ in worst.explained.lines]
    for wanted in ("recorded", "verdict", "highest", "formula", "with", "source", "lowest", "preferred"):
        assert wanted in labels
    assert ("recorded", "41.0 psig, typed 41psig") in worst.explained.lines
    # Each authority is named with its tag in words.
    sources = [text for label, text in worst.explained.lines if label == "source"]
    assert any(text.startswith("J, engineering judgement: margin") for text in sources)
    assert any(text.startswith("CP, common practice, no source: ") for text in sources)


def test_common_practice_pair_is_inside(tmp_path: Path) -> None:
    # Common practice, no source: R-404A at 36 °F, coldest day 0 °F: 15 psig, 5 psig, 10 psi.
    rows = cooler_rows()
    rows["settings"][0]["value"], rows["settings"][1]["value"] = "15psig", "5psig"
    shown = _sheet(open_rows(tmp_path, rows))
    assert [(w.label, w.verdict, w.value) for w in shown.windows] == [
        ("cut-in", "inside", "15.0"),
        ("cut-out", "inside", "5.0"),
        ("differential", "inside", "10.0"),
    ]
    assert _about_settings(shown) == []


@pytest.mark.published
def test_ticks_of_the_axis_stand_at_published_pressures(tmp_path: Path) -> None:
    # published: tests/reference/saturation.csv names the source of each value.
    rows = cooler_rows(refrigerant="R-134a")
    rows["settings"][0]["value"], rows["settings"][1]["value"] = "30psig", "5psig"
    axis = _sheet(open_rows(tmp_path, rows)).axis
    assert axis is not None
    ticks = {label.replace("−", "-"): pressure for pressure, label in axis.saturation}
    compared = 0
    with PUBLISHED.open(encoding="utf-8") as file:
        for row in csv.DictReader(file):
            label = row["temperature"].removesuffix("F")
            if row["refrigerant"] != "R-134a" or label not in ticks or "psig" not in row["pressure"]:
                continue
            assert ticks[label] == pytest.approx(
                float(row["pressure"].removesuffix("psig")), abs=float(row["tolerance"].removesuffix("psi"))
            )
            compared += 1
    assert compared >= 3


@pytest.mark.independent
def test_axis_rises_and_its_reference_lies_between_its_ticks(cooler: Desk) -> None:
    # independent: pressure rises with temperature; design cold 0 °F must stand on the tick of 0.
    axis = _sheet(cooler).axis
    assert axis is not None
    pressures = [pressure for pressure, _ in axis.saturation]
    assert pressures == sorted(pressures)
    ticks = {label: pressure for pressure, label in axis.saturation}
    (value, label), *rest = axis.references
    assert not rest
    assert value == pytest.approx(ticks["0"])
    assert label.startswith("design cold 0 °F, ")


def test_metric_desk_shows_metric(tmp_path: Path) -> None:
    shown = _sheet(open_rows(tmp_path, cooler_rows(), units=UnitSystem.METRIC))
    assert shown.axis is not None
    assert (shown.axis.unit, shown.axis.saturation_unit) == ("bar(g)", "°C dew")
    assert shown.windows[0].value == "2.83"
    assert shown.headline[0] == "walk-in cooler 36F"  # as typed


def test_nothing_known_has_no_axis_and_no_crash(tmp_path: Path) -> None:
    rows = cooler_rows(refrigerant="", strategy="")
    rows["settings"] = []
    shown = _sheet(open_rows(tmp_path, rows))
    assert shown.axis is None or shown.axis.saturation == ()
    assert {window.state for window in shown.windows} <= {"unknown"}
    (finding,) = _about_settings(shown)
    assert finding.name == "Not recorded"
    assert finding.sentence.startswith("Not recorded: refrigerant")


def test_no_control_fitted_has_no_windows(tmp_path: Path) -> None:
    rows = cooler_rows(low_pressure_control="none", strategy="thermostat-cycling")
    rows["settings"] = []
    shown = _sheet(open_rows(tmp_path, rows))
    assert shown.windows == ()
    assert _about_settings(shown) == []


def test_rack_shows_groups_and_compressors(tmp_path: Path) -> None:
    shown = _sheet(open_rows(tmp_path, rack_rows()), "RK-1")
    assert [(w.part, w.setting) for w in shown.windows] == [
        ("group A", "group_suction"),
        ("group B", "group_suction"),
        ("compressor 1", "low_pressure_cut_out"),
        ("compressor 2", "low_pressure_cut_out"),
    ]


def test_history_merges_newest_first(tmp_path: Path) -> None:
    rows = cooler_rows()
    rows["events"] = [
        {
            **KEY,
            "reference": "E-1",
            "part": "compressor 1",
            "kind": "compressor-change",
            "happened_on": "2025-06-01",
            "recorded_by": "J. Pell",
            "note": "seized [at] start",
        }
    ]
    rows["checks"] = [
        {
            **KEY,
            "check_code": "condenser_coil",
            "done_on": "2025-05-01",
            "done_by": "J. Pell",
            "result": "done",
            "found": "fault",
        }
    ]
    rows["settings"].append(
        {**rows["settings"][0], "value": "30psig", "stage": "as-found"},
    )
    history = _sheet(open_rows(tmp_path, rows)).history
    told = [(row.day_words, row.who, row.what) for row in history]
    assert told[:2] == [
        ("1 Jun 2025", "J. Pell", "compressor change, seized [at] start (compressor 1)"),
        ("1 May 2025", "J. Pell", "condenser coil done, fault"),
    ]
    assert ("12 Mar 2025", "R. Osei", "cut-in 30psig → 41psig, gauge") in told
    assert ("12 Mar 2025", "R. Osei", "cut-out set to 22psig, gauge") in told


def test_compressor_lives_and_deaths(tmp_path: Path) -> None:
    rows = cooler_rows()
    first = rows["compressors"][0]
    rows["compressors"] = [
        {**first, "out_of_service": "2023-02-18", "reason_out": "flooded_start"},
        {**first, "serial": "9C0", "in_service": "2023-02-18", "out_of_service": "2024-12-23",
         "reason_out": "upgrade"},
        {**first, "serial": "9F2", "in_service": "2024-12-23"},
    ]  # fmt: skip
    lives = _sheet(open_rows(tmp_path, rows)).lives
    assert [(one.name, one.reason, one.died) for one in lives] == [
        ("7K1", "flooded start", True),
        ("9C0", "upgrade", False),
        ("9F2", "in service", False),
    ]


def test_checks_due_in_order(cooler: Desk) -> None:
    due = _sheet(cooler).due
    assert due
    assert [row.due_by for row in due] == sorted(row.due_by for row in due)
    assert due[0].overdue_days > 0
    assert due[0].state.endswith("days late")
    labels = [label for label, _ in due[0].explained.lines]
    assert labels == ["what", "every", "counted from", "due", "due by", "takes", "source"]


@pytest.mark.parametrize(
    ("name", "words"),
    [
        ("R-744", "dry ice"),
        ("R-290", "flammable (A3)"),
        ("R-454C", "flammable (A2L)"),
        ("R-717", "trained crews only"),
    ],
)
def test_refrigerants_bring_their_own_cautions(name: str, words: str) -> None:
    (caution,) = refrigerant_cautions(name)
    assert words in caution


def test_other_refrigerants_bring_none() -> None:
    assert refrigerant_cautions("R-404A") == ()
    assert refrigerant_cautions(None) == ()


def test_system_that_is_gone_is_said(cooler: Desk) -> None:
    with pytest.raises(ChangedMeanwhileError, match="no longer in the register"):
        sheet(cooler, 4711)


def test_sheet_is_frozen(cooler: Desk) -> None:
    with pytest.raises(FrozenInstanceError):
        _sheet(cooler).site = "elsewhere"  # type: ignore[misc]


def test_every_system_of_the_demo_has_a_sheet(demo: Desk) -> None:
    with demo.engine.connect() as connection:
        ids = [row[0] for row in connection.exec_driver_sql("SELECT id FROM systems")]
        open_now = connection.exec_driver_sql(
            f"SELECT count(*) FROM findings WHERE from_day <= {demo.today_day} "
            f"AND (until_day IS NULL OR until_day > {demo.today_day})"
        ).scalar()
    sheets = [sheet(demo, one) for one in ids]
    assert sum(len(one.findings) for one in sheets) == open_now
    assert all(finding.sentence for one in sheets for finding in one.findings)
    assert all(text for one in sheets for w in one.windows for _, text in w.explained.lines)
