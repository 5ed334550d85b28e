"""Cases that the engineering basis names: empty windows, pressure cycling, pairs, racks.

Independent ones are recomputed from CoolProp beside the product's tables; verdicts and severities are
engineering judgement and count as regression.
"""

from dataclasses import replace

import pytest

from fleet.targets.bounds import Bind
from tests.targets.asking import COOLER, explained, found_of, said
from tests.targets.reference import PSI, Box, Compressor, Reference, System, air_psia, dew_psia

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
