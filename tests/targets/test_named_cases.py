"""Cases that the engineering basis names, one by one.

Independent ones are recomputed from CoolProp beside the product's tables; verdicts and severities are
engineering judgement and count as regression.
"""

from dataclasses import replace

import pytest

from fleet.targets.bounds import Bind
from tests.targets.asking import COOLER, R404A_0F_PSIG, explained, found_of, said
from tests.targets.reference import PSI, Box, Compressor, air_psia, dew_psia

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
