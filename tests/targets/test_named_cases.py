"""Cases that the engineering basis names, one by one.

Independent ones are recomputed from CoolProp beside the product's tables; verdicts and severities are
engineering judgement and count as regression.
"""

from dataclasses import replace

import pytest

from fleet.dictionary.words import Severity, Verdict
from fleet.targets.bounds import Bind
from fleet.targets.explain import Explanation, explain
from fleet.targets.judge import Judged
from fleet.targets.lowpressure import LowPressure, low_pressure
from fleet.units import UnitSystem
from tests.targets.building import fleet_of
from tests.targets.reference import PSI, Box, Compressor, Reference, System, air_psia, dew_psia

VERDICTS = [verdict.value for verdict in Verdict]
COOLER = System(cut_in=15.0, cut_out=5.0)
"""R-404A walk-in cooler, recycling pump-down, outdoors at 0 °F, at sea level."""
R404A_0F_PSIG = 32.6
"""Dew pressure at 0 °F: CoolProp's equation gives 47.3 psia."""


def found_of(*systems: System) -> LowPressure:
    return low_pressure(fleet_of(systems))


def said(judged: Judged, row: int = 0) -> tuple[str, str | None]:
    severity = int(judged.severity[row])
    return VERDICTS[judged.verdict[row]], Severity(severity).value_name if severity else None


def explained(system: System, name: str, units: UnitSystem = UnitSystem.US) -> Explanation:
    fleet = fleet_of([system])
    found = low_pressure(fleet)
    return explain(fleet, found, getattr(found, name), 0, units)


# --- where the low side can still get to ----------------------------------------------------------------


@pytest.mark.independent
def test_the_highest_cut_in_is_the_dew_pressure_at_design_cold_less_a_tenth() -> None:
    found = found_of(COOLER)
    assert found.side.reach_pa[0] / PSI == pytest.approx(dew_psia("R-404A", 0.0) - air_psia(0), abs=0.01)
    assert found.side.reach_pa[0] / PSI == pytest.approx(R404A_0F_PSIG, abs=0.05)
    assert found.cut_in.high[0] / PSI == pytest.approx(0.9 * R404A_0F_PSIG, abs=0.05)


@pytest.mark.regression
def test_extreme_cold_alone_is_a_watch_and_the_verdict_stays_inside() -> None:
    milder, colder = replace(COOLER, extreme_cold=-15.0), replace(COOLER, extreme_cold=-25.0)
    found = found_of(milder, colder)
    assert said(found.cut_in, 0) == ("inside", None)
    assert said(found.cut_in, 1) == ("inside", "watch")
    assert found.above_at_extreme.tolist() == [False, True]
    assert explained(colder, "cut_in").reason == (
        "Sound at design cold; on the coldest day in years, −25.0 °F, the low side reaches only 12.7 psig "
        "and cut-in waits for warmer weather."
    )


@pytest.mark.regression
def test_extreme_cold_does_not_soften_what_is_already_urgent() -> None:
    found = found_of(replace(COOLER, cut_in=40.0, cut_out=20.0, extreme_cold=-25.0))
    assert said(found.cut_in) == ("above", "act-now")


@pytest.mark.independent
def test_a_coil_above_the_receiver_costs_half_a_psi_a_foot() -> None:
    found = found_of(replace(COOLER, coil_above_ft=10.0), COOLER)
    # 0.53 psi/ft: saturated liquid at 0 °F is 75.8 lb/ft3 by CoolProp, over 144 in2/ft2
    assert found.side.liquid_column_pa[0] / PSI == pytest.approx(5.3, abs=0.05)
    assert (found.side.reach_pa[1] - found.side.reach_pa[0]) / PSI == pytest.approx(5.3, abs=0.05)
    assert found.side.liquid_column_pa[1] == 0.0


@pytest.mark.regression
def test_above_the_pressure_that_comes_back_is_urgent_and_a_margin_eaten_is_not() -> None:
    found = found_of(replace(COOLER, cut_in=31.0, cut_out=10.0), replace(COOLER, cut_in=34.0, cut_out=10.0))
    assert said(found.cut_in, 0) == ("above", "next-visit")
    assert said(found.cut_in, 1) == ("above", "act-now")
    assert explained(replace(COOLER, cut_in=31.0), "cut_in").reason.startswith("No margin left.")
    assert (
        "does not restart until the weather warms" in explained(replace(COOLER, cut_in=34.0), "cut_in").reason
    )


@pytest.mark.independent
def test_a_held_receiver_lets_the_box_limit() -> None:
    found = found_of(replace(COOLER, receiver_hold=70.0), replace(COOLER, receiver_hold=20.0))
    call = dew_psia("R-404A", 38.0) - air_psia(0)
    held = dew_psia("R-404A", 20.0) - air_psia(0)
    assert found.cut_in.high[0] / PSI == pytest.approx(0.9 * call, abs=0.02)
    assert found.cut_in.high[1] / PSI == pytest.approx(0.9 * held, abs=0.02)
    assert found.cut_in.high_code.tolist() == [Bind.RESTART_BOX, Bind.RESTART_HELD]


@pytest.mark.independent
def test_a_delay_that_the_call_starts_counts_the_pressure_at_the_stop() -> None:
    found = found_of(replace(COOLER, start_delay="call"), replace(COOLER, start_delay="compressor"))
    stop = dew_psia("R-404A", 36.0) - air_psia(0)
    assert found.cut_in.high[0] / PSI == pytest.approx(0.9 * stop, abs=0.02)
    assert found.cut_in.high[1] / PSI == pytest.approx(0.9 * R404A_0F_PSIG, abs=0.05)


@pytest.mark.independent
@pytest.mark.parametrize("strategy", ["recycling-pump-down", "pressure-cycling"])
def test_without_a_design_temperature_cut_in_is_not_known(strategy: str) -> None:
    found = found_of(replace(COOLER, strategy=strategy, design_cold=None))
    assert said(found.cut_in) == ("not-known", "note")


@pytest.mark.independent
def test_a_call_delay_does_not_tell_how_cold_a_pressure_cycled_system_gets() -> None:
    # The delay makes a restart at a call independent of cut-in; pressure cycling has no call.
    found = found_of(replace(COOLER, strategy="pressure-cycling", start_delay="call", design_cold=None))
    assert said(found.cut_in) == ("not-known", "note")


@pytest.mark.independent
def test_a_heated_room_without_a_temperature_does_not_limit_and_the_reason_says_so() -> None:
    system = replace(COOLER, placement="indoor-heated", design_cold=None)
    found = found_of(system)
    assert found.cut_in.high[0] / PSI == pytest.approx(
        0.9 * (dew_psia("R-404A", 38.0) - air_psia(0)), abs=0.02
    )
    assert any("the room does not limit" in words for words in explained(system, "cut_in").assumed)
    unheated = found_of(replace(system, placement="indoor-unheated"))
    assert said(unheated.cut_in) == ("not-known", "note")


# --- several boxes --------------------------------------------------------------------------------------

TWO_BOXES = replace(
    COOLER,
    receiver_hold=70.0,
    boxes=(
        Box(tag="Dairy", setpoint=38.0),
        Box(tag="Meat", setpoint=32.0),
        Box(tag="Produce", setpoint=40.0),
    ),
)


@pytest.mark.independent
def test_of_several_boxes_the_coldest_sets_both_bounds() -> None:
    found = found_of(TWO_BOXES, replace(TWO_BOXES, boxes=(TWO_BOXES.boxes[1],)))
    assert found.cut_in.high[0] == found.cut_in.high[1]
    assert found.cut_out.high[0] == found.cut_out.high[1]
    expected = 0.9 * (dew_psia("R-404A", 34.0) - air_psia(0))
    assert found.cut_in.high[0] / PSI == pytest.approx(expected, abs=0.02)


@pytest.mark.independent
@pytest.mark.parametrize("name", ["cut_in", "cut_out"])
def test_the_sentence_names_the_box_that_sets_the_bound(name: str) -> None:
    sentence = explained(TWO_BOXES, name).high_reason
    assert "Meat" in sentence
    assert "Dairy" not in sentence


# --- sensors and elevation ------------------------------------------------------------------------------


@pytest.mark.independent
def test_at_five_thousand_feet_each_target_rises_by_two_and_a_half_psi() -> None:
    found = found_of(COOLER, replace(COOLER, elevation_ft=5000.0))
    shift = (found.cut_out.high[1] - found.cut_out.high[0]) / PSI
    assert shift == pytest.approx(2.5, abs=0.05)
    assert shift == pytest.approx(air_psia(0) - air_psia(5000), abs=0.01)
    assert (found.side.reach_pa[1] - found.side.reach_pa[0]) / PSI == pytest.approx(shift, abs=1e-6)


@pytest.mark.independent
def test_sealed_and_absolute_sensors_are_not_shifted() -> None:
    sealed, high = replace(COOLER, sensor="sealed"), {"elevation_ft": 5000.0}
    absolute = replace(COOLER, sensor="absolute")
    found = found_of(COOLER, sealed, replace(sealed, **high), absolute, replace(absolute, **high))
    top = found.cut_out.high / PSI
    assert top[1] == pytest.approx(top[0], abs=1e-9)
    assert top[2] == top[1]
    assert top[3] == pytest.approx(top[0] + 101325 / PSI, abs=1e-6)
    assert top[4] == top[3]
    # Air is drawn in below local air, which the sealed scale shows as a vacuum.
    assert found.cut_out.low[2] / PSI == pytest.approx(air_psia(5000) - air_psia(0), abs=0.01)
    assert found.cut_out.low[4] / PSI == pytest.approx(air_psia(5000), abs=0.01)


# --- how low a cut-out may stand ------------------------------------------------------------------------


@pytest.mark.independent
def test_a_recorded_lowest_suction_is_absolute_and_read_at_the_site() -> None:
    bears_20_psia = (Compressor("semi-hermetic", 20.0),)
    low = replace(COOLER, compressors=bears_20_psia)
    found = found_of(low, replace(low, elevation_ft=5000.0))
    # 20 psia less 14.696 psi of air; less 12.228 psi at 5,000 ft (U.S. Standard Atmosphere, 1976)
    assert (found.cut_out.low / PSI).tolist() == pytest.approx([5.304, 7.772], abs=0.01)
    assert found.cut_out.low_code.tolist() == [Bind.MAKER_LOWEST, Bind.MAKER_LOWEST]


@pytest.mark.independent
@pytest.mark.parametrize(("refrigerant", "psig"), [("R-404A", 16.0), ("R-448A", 9.5), ("R-22", 10.0)])
@pytest.mark.parametrize("strategy", ["recycling-pump-down", "pressure-cycling", "thermostat-cycling"])
def test_a_medium_temperature_scroll_is_kept_above_minus_twenty(
    refrigerant: str, psig: float, strategy: str
) -> None:
    scroll = replace(COOLER, refrigerant=refrigerant, strategy=strategy, compressors=(Compressor("scroll"),))
    found = found_of(scroll)
    assert found.floor.lowest_pa[0] / PSI == pytest.approx(psig, abs=0.35)
    assert found.floor.lowest_pa[0] / PSI == pytest.approx(
        dew_psia(refrigerant, -20.0) - air_psia(0), abs=0.02
    )


@pytest.mark.regression
def test_a_scroll_of_a_freezer_or_with_a_recorded_lowest_has_no_default() -> None:
    freezer = (Box(kind="walk-in-freezer", setpoint=-5.0),)
    scroll = replace(COOLER, compressors=(Compressor("scroll"),), boxes=freezer)
    recorded = replace(COOLER, compressors=(Compressor("scroll", 16.0),))
    unrecorded = replace(COOLER, compressors=(Compressor(None),))
    found = found_of(scroll, recorded, unrecorded)
    assert found.floor.lowest_code.tolist() == [Bind.NO_VACUUM, Bind.MAKER_LOWEST, Bind.NO_VACUUM]
    assert found.floor.lowest_pa[2] == 0.0
    assert any("kind is not recorded" in words for words in explained(unrecorded, "cut_out").assumed)


@pytest.mark.regression
def test_carbon_dioxide_stays_above_75_psig() -> None:
    found = found_of(replace(COOLER, refrigerant="R-744", cut_in=250.0, cut_out=70.0))
    assert found.cut_out.low[0] / PSI == pytest.approx(75.0, abs=0.01)
    assert said(found.cut_out) == ("below", "act-now")


@pytest.mark.independent
def test_the_floor_of_carbon_dioxide_lies_above_its_triple_point() -> None:
    from CoolProp.CoolProp import PropsSI

    triple_pa = PropsSI("CO2", "ptriple")
    assert triple_pa / PSI - air_psia(0) == pytest.approx(60.4, abs=0.1)
    found = found_of(*(replace(COOLER, refrigerant="R-744", elevation_ft=z) for z in (0.0, 8000.0)))
    assert all(found.cut_out.low + found.side.sensed_air_pa > triple_pa + 14 * PSI)


@pytest.mark.regression
@pytest.mark.parametrize(
    ("refrigerant", "severity"),
    [
        ("R-404A", "next-visit"),
        ("R-134a", "next-visit"),
        ("R-290", "act-now"),
        ("R-454C", "act-now"),
        ("R-455A", "act-now"),
        ("R-1234yf", "act-now"),
    ],
)
def test_a_cut_out_in_vacuum_is_urgent_where_air_can_burn_with_it(refrigerant: str, severity: str) -> None:
    found = found_of(replace(COOLER, refrigerant=refrigerant, cut_in=10.0, cut_out=-2.0))
    assert said(found.cut_out) == ("below", severity)


@pytest.mark.regression
def test_below_the_habit_for_scrolls_is_a_watch_and_a_vacuum_is_not() -> None:
    scroll = replace(COOLER, compressors=(Compressor("scroll"),))
    propane = replace(scroll, refrigerant="R-290")
    found = found_of(scroll, replace(scroll, cut_out=-2.0), propane, replace(propane, cut_out=-2.0))
    assert [said(found.cut_out, row)[1] for row in range(4)] == ["watch", "next-visit", "watch", "act-now"]
    assert {said(found.cut_out, row)[0] for row in range(4)} == {"below"}


@pytest.mark.independent
@pytest.mark.parametrize(
    ("setpoint", "td", "strategy", "below_f"),
    [
        (36.0, 10.0, "recycling-pump-down", 10.0),  # SST 24
        (7.0, 10.0, "recycling-pump-down", 7.5),  # SST -5: straight between 10 and 5
        (-8.0, 10.0, "one-time-pump-down", 5.0),  # SST -20
        (36.0, 10.0, "thermostat-cycling", 15.0),
        (2.0, 10.0, "thermostat-cycling", 10.0),  # SST -10: straight between 15 and 5
        (-20.0, 10.0, "thermostat-cycling", 5.0),  # SST -32
    ],
)
def test_the_highest_cut_out_lies_this_far_below_running_suction(
    setpoint: float, td: float, strategy: str, below_f: float
) -> None:
    system = replace(COOLER, strategy=strategy, boxes=(Box(setpoint=setpoint, td=td),))
    expected = dew_psia("R-404A", setpoint - td - 2.0 - below_f) - air_psia(0)
    assert found_of(system).cut_out.high[0] / PSI == pytest.approx(expected, abs=0.01)


# --- empty windows in the cold end ----------------------------------------------------------------------


def _cold(refrigerant: str, design_cold: float) -> System:
    return replace(COOLER, refrigerant=refrigerant, design_cold=design_cold, cut_in=8.0, cut_out=2.0)


@pytest.mark.independent
@pytest.mark.parametrize(("design_cold", "psig"), [(10.0, 8.9), (0.0, 3.5), (-7.5, 0.0)])
def test_the_highest_cut_in_of_r134a_in_the_cold(design_cold: float, psig: float) -> None:
    system = _cold("R-134a", design_cold)
    assert found_of(system).cut_in.high[0] / PSI == pytest.approx(psig, abs=0.06)
    assert Reference(system).ci_max() == pytest.approx(psig, abs=0.06)


@pytest.mark.independent
@pytest.mark.parametrize(("refrigerant", "below_f"), [("R-134a", 3.0), ("R-513A", -2.6), ("R-450A", 8.9)])
def test_low_pressure_refrigerants_have_no_window_below(refrigerant: str, below_f: float) -> None:
    found = found_of(_cold(refrigerant, below_f - 0.3), _cold(refrigerant, below_f + 0.3))
    assert said(found.cut_in, 0)[0] == "no-window"
    assert said(found.cut_in, 1)[0] != "no-window"
    for side, empty in ((-0.3, True), (0.3, False)):
        highest = Reference(_cold(refrigerant, below_f + side)).ci_max()
        assert highest is not None
        assert (highest - 5.0 < 0.0) is empty


@pytest.mark.regression
def test_the_ways_out_fit_the_window_that_is_empty_and_what_binds_it() -> None:
    indoors = replace(_cold("R-134a", 0.0), placement="indoor-heated", room_low=None)
    freezer = replace(indoors, boxes=(replace(indoors.boxes[0], kind="walk-in-freezer", setpoint=-10.0),))
    ways = explained(freezer, "cut_out").ways_out
    assert ways == ("a higher suction: a smaller TD, or less line loss",)
    by_box = explained(freezer, "cut_in").ways_out
    assert not any("receiver" in way or "indoors" in way for way in by_box)


@pytest.mark.regression
def test_an_empty_window_offers_ways_out_and_is_urgent_where_it_never_restarts() -> None:
    found = found_of(_cold("R-134a", 0.0), replace(_cold("R-134a", 0.0), cut_in=5.0, cut_out=0.0))
    assert said(found.cut_in, 0) == ("no-window", "act-now")  # 8 psig, and only 6.5 psig comes back
    assert said(found.cut_in, 1) == ("no-window", "next-visit")
    words = explained(_cold("R-134a", 0.0), "cut_in")
    assert words.reason.startswith("There is no window. At most 3.5 psig comes back with the margin kept")
    ways = " ".join(words.ways_out)
    for way in (
        "one-time pump-down",
        "a start delay that the call starts",
        "receiver kept warm",
        "moved indoors",
    ):
        assert way in ways


# --- pressure cycling -----------------------------------------------------------------------------------

CYCLING = System(
    refrigerant="R-134a",
    strategy="pressure-cycling",
    placement="indoor-heated",
    cut_in=33.0,
    cut_out=15.0,
    line_loss=0.0,
    boxes=(Box(kind="reach-in-cooler", setpoint=34.0, differential=3.0, td=20.0),),
)


@pytest.mark.independent
@pytest.mark.parametrize("method", ["electric", "hot-gas"])
def test_heated_defrost_lifts_the_frost_limit(method: str) -> None:
    # The box calls at 37 °F: 3 °F below is 34, but the coil clears itself only at 35.
    heated = replace(CYCLING, boxes=(replace(CYCLING.boxes[0], defrost_method=method),))
    unrecorded = replace(CYCLING, boxes=(replace(CYCLING.boxes[0], defrost_method=None),))
    found = found_of(CYCLING, heated, unrecorded)
    at_34, at_35 = (dew_psia("R-134a", t) - air_psia(0) for t in (34.0, 35.0))
    assert (found.cut_in.low / PSI).tolist() == pytest.approx([at_35, at_34, at_35], abs=0.01)
    assert found.cut_in.low_code.tolist() == [Bind.COIL_CLEARS, Bind.BOX_CALLS_LOW, Bind.COIL_CLEARS]


@pytest.mark.independent
def test_a_cold_box_leaves_room_above_the_frost_limit() -> None:
    cold = replace(CYCLING, boxes=(replace(CYCLING.boxes[0], setpoint=28.0),))
    found = found_of(cold)
    assert found.cut_in.high[0] / PSI == pytest.approx(dew_psia("R-134a", 38.0) - air_psia(0) + 1.0, abs=0.01)
    assert found.cut_in.high_code[0] == Bind.COIL_CLEARS_TOP


@pytest.mark.independent
def test_a_gliding_blend_may_start_at_its_bubble_pressure() -> None:
    from tests.targets.reference import bubble_psia, glide_f

    blend = replace(CYCLING, refrigerant="R-448A")
    assert glide_f("R-448A", 37.0) > 3.0
    found = found_of(blend)
    assert found.cut_in.high[0] / PSI == pytest.approx(bubble_psia("R-448A", 37.0) - air_psia(0), abs=0.02)


@pytest.mark.regression
def test_pressure_cycling_in_a_place_colder_than_its_box_has_no_window() -> None:
    outdoors = replace(CYCLING, placement="outdoor", design_cold=20.0)
    found = found_of(outdoors, replace(outdoors, receiver_hold=60.0))
    assert said(found.cut_in, 0) == ("no-window", "act-now")
    assert said(found.cut_in, 1) == ("inside", None)
    words = explained(outdoors, "cut_in")
    assert "the box warms" in words.conflict
    assert words.ways_out[0] == "a thermostat with pump-down"


# --- pairs, differentials, controls ---------------------------------------------------------------------


@pytest.mark.regression
@pytest.mark.parametrize(
    ("cut_in", "cut_out", "stated"),
    [(15.0, 15.0, None), (12.0, 18.0, None), (15.0, 5.0, 8.0), (15.0, 5.0, 12.0)],
)
def test_a_pair_that_cannot_be_is_one_conflict(cut_in: float, cut_out: float, stated: float | None) -> None:
    found = found_of(replace(COOLER, cut_in=cut_in, cut_out=cut_out, lp_differential=stated))
    assert said(found.differential) == ("conflicting", "next-visit")
    assert [said(judged)[0] for judged in found.judged[:3]].count("conflicting") == 1


@pytest.mark.independent
def test_a_contradiction_needs_no_knowledge_of_the_box() -> None:
    unknown = replace(COOLER, cut_in=12.0, cut_out=18.0, boxes=(Box(setpoint=None),))
    assert said(found_of(unknown).differential) == ("conflicting", "next-visit")


@pytest.mark.independent
def test_an_unrecorded_differential_is_what_lies_between_the_pair() -> None:
    found = found_of(COOLER, replace(COOLER, cut_out=11.0), replace(COOLER, lp_differential=10.05))
    assert (found.differential.recorded / PSI).tolist() == pytest.approx([10.0, 4.0, 10.05])
    assert [said(found.differential, row) for row in range(3)] == [
        ("inside", None),
        ("below", "next-visit"),
        ("inside", None),
    ]


@pytest.mark.independent
@pytest.mark.parametrize(
    ("refrigerant", "strategy", "cut_in", "psi"),
    [
        ("R-404A", "recycling-pump-down", 2.0, 5.0),  # 25 % of 16.7 is less than 5
        ("R-404A", "recycling-pump-down", 15.0, 7.424),  # 25 % of 29.696
        ("R-404A", "pressure-cycling", 70.0, 10.0),  # 25 % of 84.7 is more than 10
        ("R-404A", "one-time-pump-down", 15.0, 2.0),
        ("R-404A", "thermostat-cycling", 15.0, 2.0),
        ("R-744", "recycling-pump-down", 200.0, 53.674),  # 25 % of 214.696, no cap
    ],
)
def test_the_smallest_differential(refrigerant: str, strategy: str, cut_in: float, psi: float) -> None:
    system = replace(COOLER, refrigerant=refrigerant, strategy=strategy, cut_in=cut_in, receiver_hold=70.0)
    assert found_of(system).differential.low[0] / PSI == pytest.approx(psi, abs=0.001)


@pytest.mark.regression
def test_without_a_low_pressure_control_nothing_applies_and_nothing_is_missing() -> None:
    found = found_of(replace(COOLER, control="none", cut_in=None, cut_out=None))
    assert [said(judged) for judged in found.judged[:3]] == [("not-applicable", None)] * 3
    assert found.missing[0] == 0


@pytest.mark.independent
@pytest.mark.parametrize(
    ("scale", "stops_f"), [("stops-at", 36.0), (None, 36.0), ("starts-at", 34.0), ("centred", 35.0)]
)
def test_a_thermostat_is_read_by_its_scale(scale: str | None, stops_f: float) -> None:
    box = Box(setpoint=36.0, differential=2.0, thermostat_scale=scale)
    found = found_of(replace(COOLER, boxes=(box,)))
    assert found.running.stop_k[0] == pytest.approx((stops_f + 459.67) / 1.8)
    assert found.running.call_k[0] == pytest.approx((stops_f + 2.0 + 459.67) / 1.8)


@pytest.mark.independent
def test_an_unrecorded_thermostat_differential_is_four_and_said_so() -> None:
    system = replace(COOLER, boxes=(Box(differential=None),))
    found = found_of(system)
    assert (found.running.call_k - found.running.stop_k)[0] == pytest.approx(4 / 1.8)
    assert "The thermostat's differential is taken as 4 °F. (J)" in explained(system, "cut_in").assumed


# --- racks ----------------------------------------------------------------------------------------------

RACK = System(
    strategy="remote-rack",
    boxes=(
        Box(tag="Case", kind="display-case-medium", setpoint=30.0, td=10.0, suction_group="A"),
        Box(tag="Room", setpoint=20.0, td=10.0, suction_group="A", regulator="evaporator"),
    ),
    compressors=(Compressor("semi-hermetic", None, 5.0),),
    group_suction={"A": 44.0},
)


@pytest.mark.independent
def test_a_group_follows_its_coldest_box_without_a_regulator() -> None:
    found = found_of(RACK)
    low, high = (dew_psia("R-404A", 18.0 + d) - air_psia(0) for d in (-5.0, 5.0))
    assert found.group_suction.low[0] / PSI == pytest.approx(low, abs=0.01)
    assert found.group_suction.high[0] / PSI == pytest.approx(high, abs=0.01)
    free = replace(RACK, boxes=(RACK.boxes[0], replace(RACK.boxes[1], regulator="none")))
    lower = dew_psia("R-404A", 8.0 - 5.0) - air_psia(0)
    assert found_of(free).group_suction.low[0] / PSI == pytest.approx(lower, abs=0.01)


@pytest.mark.independent
def test_a_rack_compressor_has_its_own_cut_out() -> None:
    found = found_of(RACK)
    expected = dew_psia("R-404A", 18.0 - 15.0) - air_psia(0)
    assert found.rack_cut_out.high[0] / PSI == pytest.approx(expected, abs=0.01)
    assert said(found.rack_cut_out) == ("inside", None)
