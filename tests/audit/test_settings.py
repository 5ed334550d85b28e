"""Findings about settings: folded where one correction settles two, one line for all that is empty."""

from dataclasses import replace

import numpy as np
import pytest

from fleet.audit.findings import FindingColumns, joined
from fleet.audit.rules import RULE_CODES
from fleet.audit.settings import boxes_apart, fans_cycle, not_recorded, window_findings
from fleet.dictionary.words import Fans, Heater, Severity, Verdict, YesNo
from fleet.targets.columns import FleetColumns
from fleet.targets.lowpressure import low_pressure
from fleet.targets.missing import names
from tests.targets.building import fleet_of
from tests.targets.reference import PSI, Box, Compressor, System

pytestmark = pytest.mark.regression

VERDICTS = [verdict.value for verdict in Verdict]
COOLER = System(cut_in=15.0, cut_out=5.0)
"""R-404A walk-in cooler, recycling pump-down, outdoors at 0 °F: sound."""
Row = tuple[str, str, str, str, str]
"""Rule, part, setting, verdict, severity."""


def rows(findings: FindingColumns) -> list[Row]:
    return [
        (
            RULE_CODES[findings.rule[i]],
            findings.part[i],
            findings.setting[i],
            VERDICTS[findings.verdict[i]],
            Severity(int(findings.severity[i])).value_name,
        )
        for i in range(len(findings))
    ]


def windows_of(fleet: FleetColumns) -> FindingColumns:
    return joined(window_findings(fleet, low_pressure(fleet)))


def found_of(*systems: System) -> FindingColumns:
    return windows_of(fleet_of(systems))


def test_a_sound_system_has_no_finding_at_all() -> None:
    fleet = fleet_of([COOLER])
    found = low_pressure(fleet)
    assert rows(joined([*window_findings(fleet, found), *boxes_apart(fleet, found)])) == []
    assert rows(fans_cycle(fleet, found)) == []
    assert rows(not_recorded(found)) == []


def test_a_cut_in_out_of_its_window_carries_its_numbers() -> None:
    found = found_of(replace(COOLER, cut_in=40.0))
    assert rows(found) == [("low_pressure_window", "", "low_pressure_cut_in", "above", "act-now")]
    assert found.recorded[0] / PSI == pytest.approx(40.0)
    assert found.out_by[0] == found.recorded[0] - found.high[0]
    assert found.out_by_saturation_k[0] > 0
    assert found.far[0] == pytest.approx(-found.out_by_saturation_k[0] / (2 / 1.8))
    assert found.also[0] == ""


def test_the_differential_is_folded_into_the_cut_out_that_settles_it() -> None:
    # Cut-out is above normal running; moved to its preferred value the pair has room again.
    found = found_of(replace(COOLER, design_cold=40.0, cut_in=60.0, cut_out=57.0))
    assert rows(found) == [("low_pressure_window", "", "low_pressure_cut_out", "above", "next-visit")]
    assert found.also.tolist() == ["low_pressure_differential"]


def test_the_differential_is_folded_into_the_cut_in_that_settles_it() -> None:
    found = found_of(replace(COOLER, cut_in=4.0, cut_out=1.0))
    assert rows(found) == [("low_pressure_window", "", "low_pressure_cut_in", "below", "watch")]
    assert found.also.tolist() == ["low_pressure_differential"]


def test_a_differential_too_small_by_itself_stands_alone() -> None:
    found = found_of(replace(COOLER, cut_in=15.0, cut_out=12.0))
    assert rows(found) == [("low_pressure_window", "", "low_pressure_differential", "below", "next-visit")]
    assert found.recorded[0] / PSI == pytest.approx(3.0)


def test_a_crossed_pair_inside_both_windows_is_one_conflict() -> None:
    found = found_of(replace(COOLER, cut_in=15.0, cut_out=18.0))
    assert rows(found) == [
        ("low_pressure_conflict", "", "low_pressure_differential", "conflicting", "next-visit")
    ]


def test_a_stated_differential_that_does_not_fit_stands_beside_a_bad_cut_in() -> None:
    # Correcting the cut-in does not make the three agree.
    found = found_of(replace(COOLER, cut_in=40.0, cut_out=5.0, lp_differential=10.0))
    assert rows(found) == [
        ("low_pressure_window", "", "low_pressure_cut_in", "above", "act-now"),
        ("low_pressure_conflict", "", "low_pressure_differential", "conflicting", "next-visit"),
    ]


def test_extreme_cold_is_a_watch_with_the_verdict_inside() -> None:
    found = found_of(replace(COOLER, extreme_cold=-25.0))
    assert rows(found) == [("low_pressure_window", "", "low_pressure_cut_in", "inside", "watch")]
    assert np.isnan(found.out_by[0])


def test_what_is_not_known_is_named_once_by_the_empty_cell() -> None:
    fleet = fleet_of([replace(COOLER, design_cold=None)])
    found = low_pressure(fleet)
    assert rows(joined(window_findings(fleet, found))) == []
    empty = not_recorded(found)
    assert rows(empty) == [("not_recorded", "", "", "not-recorded", "watch")]
    assert names(int(empty.missing[0])) == ["design_cold"]


@pytest.mark.parametrize(
    ("changed", "cells", "severity"),
    [
        ({"cut_in": None}, ["low_pressure_cut_in"], "next-visit"),
        ({"cut_in": None, "cut_out": None}, ["low_pressure_cut_in", "low_pressure_cut_out"], "next-visit"),
        ({"boxes": (Box(setpoint=None),)}, ["setpoint"], "next-visit"),
        ({"boxes": (Box(differential=None),)}, ["differential"], "next-visit"),
        ({"boxes": (Box(td=None),), "line_loss": None}, [], ""),
        ({"placement": None}, ["placement"], "watch"),
        ({"placement": "indoor-unheated"}, ["room_low"], "watch"),
        ({"placement": "indoor-heated", "design_cold": None}, [], ""),
        (
            {"placement": "indoor-heated", "design_cold": None, "receiver_place": "outdoor"},
            ["design_cold"],
            "watch",
        ),
        ({"design_cold": None, "cut_out": None}, ["design_cold", "low_pressure_cut_out"], "next-visit"),
        ({"design_cold": None, "receiver_hold": 70.0}, [], ""),
        ({"design_cold": None, "start_delay": "call"}, [], ""),
    ],
)
def test_one_finding_names_every_empty_cell_of_a_system(
    changed: dict[str, object], cells: list[str], severity: str
) -> None:
    empty = not_recorded(low_pressure(fleet_of([replace(COOLER, **changed)])))  # type: ignore[arg-type]
    if not cells:
        assert rows(empty) == []
        return
    assert rows(empty) == [("not_recorded", "", "", "not-recorded", severity)]
    assert names(int(empty.missing[0])) == cells


def test_an_empty_cell_of_one_box_of_many_is_named_for_the_system() -> None:
    boxes = (Box(tag="B1"), Box(tag="B2", differential=None), Box(tag="B3", differential=None))
    empty = not_recorded(low_pressure(fleet_of([COOLER, replace(COOLER, boxes=boxes)])))
    assert empty.system.tolist() == [1]
    assert names(int(empty.missing[0])) == ["differential"]


def test_a_system_without_low_pressure_control_lacks_nothing_of_it() -> None:
    bare = replace(COOLER, control="none", cut_in=None, cut_out=None, placement=None, design_cold=None)
    assert rows(not_recorded(low_pressure(fleet_of([bare])))) == []
    assert rows(found_of(bare)) == []


# --- boxes apart, fans ----------------------------------------------------------------------------------


def _apart(cold: Box, warm: Box) -> FindingColumns:
    fleet = fleet_of([COOLER, replace(COOLER, boxes=(cold, warm))])
    return joined(boxes_apart(fleet, low_pressure(fleet)))


@pytest.mark.parametrize(("warmer", "count"), [(45.9, 0), (46.0, 0), (46.1, 1)])
def test_boxes_over_ten_degrees_apart_are_a_finding(warmer: float, count: int) -> None:
    found = _apart(Box(tag="B1", setpoint=36.0), Box(tag="B2", setpoint=warmer))
    assert len(found) == count
    if count:
        assert rows(found) == [("boxes_apart", "", "", "above", "next-visit")]
        assert found.system.tolist() == [1]
        assert found.recorded[0] == pytest.approx(10.1 / 1.8)
        assert found.out_by[0] == pytest.approx(0.1 / 1.8)


def test_it_is_suction_that_lies_apart_not_setpoints() -> None:
    assert len(_apart(Box(setpoint=36.0, td=8.0), Box(setpoint=50.0, td=20.0))) == 0
    assert len(_apart(Box(setpoint=36.0, td=20.0), Box(setpoint=40.0, td=8.0))) == 1


def test_a_regulator_on_the_warmer_one_settles_it_and_on_the_colder_does_not() -> None:
    cold, warm = Box(setpoint=34.0), Box(setpoint=50.0)
    assert len(_apart(cold, replace(warm, regulator="evaporator"))) == 0
    assert len(_apart(replace(cold, regulator="evaporator"), warm)) == 1
    assert len(_apart(cold, replace(warm, regulator="none"))) == 1


def test_an_unknown_box_is_no_finding() -> None:
    assert len(_apart(Box(setpoint=None), Box(setpoint=60.0))) == 0


def test_boxes_of_one_group_are_compared_with_each_other_only() -> None:
    rack = System(
        strategy="remote-rack",
        boxes=(
            Box(tag="B1", setpoint=36.0, suction_group="A"),
            Box(tag="B2", setpoint=50.0, suction_group="A"),
            Box(tag="B3", kind="walk-in-freezer", setpoint=-10.0, suction_group="B"),
        ),
        compressors=(Compressor(cut_out=5.0),),
        group_suction={"A": 50.0, "B": 10.0},
    )
    fleet = fleet_of([COOLER, rack])
    assert rows(joined(boxes_apart(fleet, low_pressure(fleet)))) == [
        ("boxes_apart", "group A", "", "above", "next-visit")
    ]


@pytest.mark.parametrize(("strategy", "count"), [("pressure-cycling", 1), ("recycling-pump-down", 0)])
def test_fans_that_stop_with_the_compressor(strategy: str, count: int) -> None:
    boxes = (Box(tag="B1"), Box(tag="B2"))
    fleet = fleet_of([COOLER, replace(COOLER, strategy=strategy, boxes=boxes)])
    fleet.boxes.fans[:] = [Fans.WITH_COMPRESSOR.code, Fans.ALWAYS.code, Fans.WITH_COMPRESSOR.code]
    found = fans_cycle(fleet, low_pressure(fleet))
    assert rows(found) == [("fans_cycle", "B2", "fans", "conflicting", "next-visit")] * count
    assert found.system.tolist() == [1] * count


# --- held receivers -------------------------------------------------------------------------------------

CONTRADICTED = [
    ({"receiver_heater": Heater.FAILED.code}, True),
    ({"receiver_heater": Heater.OFF.code}, True),
    ({"receiver_heater": Heater.NONE.code, "receiver_insulated": YesNo.NO.code}, True),
    ({"check_valve": YesNo.NO.code}, True),
    ({}, False),
    ({"receiver_heater": Heater.WORKING.code, "check_valve": YesNo.YES.code}, False),
    ({"receiver_heater": Heater.NONE.code, "receiver_insulated": YesNo.YES.code}, False),
    ({"receiver_heater": Heater.FAILED.code, "receiver_insulated": YesNo.YES.code}, False),
]


@pytest.mark.parametrize(("fittings", "contradicted"), CONTRADICTED)
def test_a_held_receiver_whose_fittings_cannot_hold_it_is_not_trusted(
    fittings: dict[str, int], contradicted: bool
) -> None:
    fleet = fleet_of([replace(COOLER, receiver_hold=70.0)])
    for name, code in fittings.items():
        getattr(fleet.systems, name)[0] = code
    found = low_pressure(fleet)
    expected = ("low_pressure_conflict", "", "receiver_hold", "conflicting", "next-visit")
    assert (expected in rows(windows_of(fleet))) is contradicted
    unheld = low_pressure(fleet_of([COOLER]))
    assert bool(found.cut_in.high[0] == unheld.cut_in.high[0]) is contradicted


def test_failed_fittings_without_a_recorded_hold_contradict_nothing() -> None:
    fleet = fleet_of([COOLER])
    fleet.systems.receiver_heater[0] = Heater.FAILED.code
    assert rows(windows_of(fleet)) == []


# --- racks ----------------------------------------------------------------------------------------------


def test_groups_and_compressors_of_a_rack_are_named() -> None:
    rack = System(
        strategy="remote-rack",
        boxes=(Box(setpoint=30.0, suction_group="A"), Box(setpoint=32.0, suction_group="B")),
        compressors=(Compressor(cut_out=5.0), Compressor(cut_out=70.0)),
        group_suction={"A": 48.0, "B": 20.0},
    )
    assert rows(found_of(COOLER, rack)) == [
        ("low_pressure_window", "group B", "group_suction", "below", "next-visit"),
        ("low_pressure_window", "compressor 2", "low_pressure_cut_out", "above", "next-visit"),
    ]


def test_an_empty_group_suction_is_named_by_its_system() -> None:
    rack = System(strategy="remote-rack", boxes=(Box(suction_group="A"),), compressors=(Compressor(),))
    empty = not_recorded(low_pressure(fleet_of([rack])))
    assert rows(empty) == [("not_recorded", "", "", "not-recorded", "next-visit")]
    assert names(int(empty.missing[0])) == ["group_suction", "compressor_cut_out"]
