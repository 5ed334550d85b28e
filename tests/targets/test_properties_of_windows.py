"""What must hold of any system: windows move the right way, and a fleet is only many systems."""

from collections.abc import Callable
from dataclasses import fields, replace
from random import Random
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fleet.dictionary.words import Verdict
from fleet.targets.columns import FleetColumns
from fleet.targets.judge import Judged
from fleet.targets.lowpressure import LowPressure, low_pressure
from fleet.targets.missing import names
from fleet.targets.pair import smallest_differential_pa
from tests.targets.building import fleet_of, only
from tests.targets.invented import invented, invented_rack
from tests.targets.reference import PSI, System

pytestmark = pytest.mark.independent

SEEDS = st.integers(0, 2**32)
KNOWN = frozenset({Verdict.INSIDE.code, Verdict.BELOW.code, Verdict.ABOVE.code})
PAIR = ("cut_in", "cut_out", "differential")
HAIR_PA = 1e-6 * PSI


def _system(seed: int, **given_values: Any) -> System:
    """An invented system whose windows are known."""
    system = invented(Random(seed))
    fixed = {"control": "fitted", "placement": "outdoor", "start_delay": None, "receiver_place": None}
    cold = 10.0 if system.design_cold is None else system.design_cold
    return replace(system, **{"design_cold": cold, **fixed, **given_values})


def _windows(*systems: System) -> tuple[LowPressure, FleetColumns]:
    fleet = fleet_of(systems)
    return low_pressure(fleet), fleet


def _rises(found: LowPressure, name: str, bound: str) -> bool:
    """Whether the bound of the second system is at or above that of the first."""
    before, after = getattr(getattr(found, name), bound)
    assert not np.isnan([before, after]).any()
    return bool(after >= before - HAIR_PA)


@given(SEEDS, st.floats(0.5, 30))
@settings(max_examples=60, deadline=None)
def test_warmer_weather_never_lowers_the_highest_cut_in(seed: int, warmer: float) -> None:
    cold = _system(seed, strategy="recycling-pump-down")
    assert cold.design_cold is not None
    found, _ = _windows(cold, replace(cold, design_cold=cold.design_cold + warmer))
    assert _rises(found, "cut_in", "high")
    for name, bound in (("cut_in", "low"), ("cut_out", "low"), ("cut_out", "high")):
        before, after = getattr(getattr(found, name), bound)
        assert before == after  # the weather has no say in these


@given(SEEDS, st.floats(500, 9000), st.sampled_from(("recycling-pump-down", "pressure-cycling")))
@settings(max_examples=60, deadline=None)
def test_a_higher_site_never_lowers_a_bound_of_a_vented_control(
    seed: int, higher_ft: float, strategy: str
) -> None:
    low = _system(seed, sensor="vented", elevation_ft=0.0, strategy=strategy)
    found, _ = _windows(low, replace(low, elevation_ft=higher_ft))
    for name in ("cut_in", "cut_out"):
        assert _rises(found, name, "low")
        assert _rises(found, name, "high")


@given(SEEDS, st.floats(500, 9000), st.sampled_from(("sealed", "absolute")))
@settings(max_examples=40, deadline=None)
def test_a_sealed_or_absolute_control_does_not_feel_the_elevation(
    seed: int, higher_ft: float, sensor: str
) -> None:
    low = _system(seed, sensor=sensor, elevation_ft=0.0, strategy="pressure-cycling")
    found, _ = _windows(low, replace(low, elevation_ft=higher_ft))
    assert found.cut_in.low[0] == found.cut_in.low[1]
    assert found.cut_in.high[0] == found.cut_in.high[1]
    assert found.cut_out.high[0] == found.cut_out.high[1]


@given(SEEDS, st.floats(0.5, 15), st.sampled_from(("recycling-pump-down", "pressure-cycling")))
@settings(max_examples=60, deadline=None)
def test_a_warmer_setpoint_never_lowers_a_bound(seed: int, warmer: float, strategy: str) -> None:
    cold = _system(seed, strategy=strategy)
    boxes = tuple(replace(box, setpoint=(box.setpoint or 0.0) + warmer) for box in cold.boxes)
    found, _ = _windows(cold, replace(cold, boxes=boxes))
    for name in ("cut_in", "cut_out"):
        assert _rises(found, name, "high")
        assert _rises(found, name, "low")


@given(SEEDS, st.floats(0.5, 10))
@settings(max_examples=60, deadline=None)
def test_a_larger_td_lowers_cut_out_and_leaves_cut_in(seed: int, larger: float) -> None:
    system = _system(seed, strategy="recycling-pump-down")
    boxes = tuple(replace(box, td=10.0, td_basis="dew") for box in system.boxes)
    wider = tuple(replace(box, td=10.0 + larger) for box in boxes)
    found, _ = _windows(replace(system, boxes=wider), replace(system, boxes=boxes))
    assert found.cut_out.high[0] < found.cut_out.high[1]
    assert found.cut_in.high[0] == found.cut_in.high[1]
    assert found.cut_in.low[0] == found.cut_in.low[1]


@given(SEEDS, st.floats(0.5, 40))
@settings(max_examples=40, deadline=None)
def test_a_coil_higher_above_the_receiver_lowers_cut_in(seed: int, higher_ft: float) -> None:
    level = _system(seed, strategy="one-time-pump-down", coil_above_ft=None, receiver_hold=None)
    found, _ = _windows(replace(level, coil_above_ft=higher_ft), replace(level, coil_above_ft=-higher_ft))
    below, _ = _windows(level)
    assert found.cut_in.high[0] < found.cut_in.high[1]
    assert found.cut_in.high[1] == below.cut_in.high[0]  # a coil below the receiver gains nothing


@given(SEEDS)
@settings(max_examples=150, deadline=None)
def test_no_window_is_shown_reversed(seed: int) -> None:
    found, _ = _windows(invented(Random(seed)))
    for name in PAIR:
        judged = getattr(found, name)
        if int(judged.verdict[0]) in KNOWN | {Verdict.NOT_RECORDED.code}:
            assert judged.low[0] <= judged.high[0]


@given(
    SEEDS,
    st.sampled_from(("cut_in", "cut_out")),
    st.sampled_from(("low", "high")),
    st.floats(0, 0.0999),
)
@settings(max_examples=100, deadline=None)
def test_bounds_are_inclusive_and_a_tenth_of_a_psi_is_forgiven(
    seed: int, setting: str, bound: str, past_psi: float
) -> None:
    system = _system(seed)
    at = float(getattr(getattr(_windows(system)[0], setting), bound)[0]) / PSI
    if not np.isfinite(at):
        return
    outwards = -1.0 if bound == "low" else 1.0
    forgiven = replace(system, lp_differential=None, **{setting: at + outwards * past_psi})
    beyond = replace(forgiven, **{setting: at + outwards * 0.11})
    judged = getattr(_windows(forgiven, beyond)[0], setting)
    if judged.verdict[0] == Verdict.NO_WINDOW.code:
        return
    assert judged.verdict[0] == Verdict.INSIDE.code
    assert judged.verdict[1] == (Verdict.BELOW if bound == "low" else Verdict.ABOVE).code
    assert judged.out_by[1] / PSI == pytest.approx(outwards * 0.11, abs=1e-6)
    assert judged.out_by_saturation_k[1] * outwards > 0


def _any_pair_fits(found: LowPressure) -> bool:
    """Whether at least the highest cut-in and the lowest cut-out are a smallest differential apart."""
    highest = found.cut_in.high
    least = smallest_differential_pa(highest, found.side.sensed_air_pa, found.case)
    return bool(highest[0] - least[0] >= found.cut_out.low[0])


@given(SEEDS)
@settings(max_examples=200, deadline=None)
def test_the_preferred_three_lie_inside_their_windows_and_fit_each_other(seed: int) -> None:
    system = replace(invented(Random(seed)), cut_in=None, cut_out=None, lp_differential=None)
    found, _ = _windows(system)
    cut_in, cut_out = found.cut_in, found.cut_out
    if cut_in.verdict[0] != Verdict.NOT_RECORDED.code or cut_out.verdict[0] != Verdict.NOT_RECORDED.code:
        return  # there is no window of one of them
    if not _any_pair_fits(found):
        return
    for judged in (cut_in, cut_out, found.differential):
        assert judged.low[0] - HAIR_PA <= judged.preferred[0] <= judged.high[0] + HAIR_PA
    apart = cut_in.preferred[0] - cut_out.preferred[0]
    assert found.differential.preferred[0] == pytest.approx(apart, abs=HAIR_PA)
    least = smallest_differential_pa(cut_in.preferred, found.side.sensed_air_pa, found.case)
    assert apart >= least[0] - HAIR_PA


@given(SEEDS)
@settings(max_examples=60, deadline=None)
def test_the_preferred_three_when_set_are_no_finding(seed: int) -> None:
    system = replace(invented(Random(seed)), cut_in=None, cut_out=None, lp_differential=None)
    found, _ = _windows(system)
    wanted = [float(getattr(found, name).preferred[0]) / PSI for name in PAIR]
    if np.isnan(wanted).any() or not _any_pair_fits(found):
        return
    done = replace(system, cut_in=wanted[0], cut_out=wanted[1], lp_differential=wanted[2], extreme_cold=None)
    again, _ = _windows(done)
    assert [int(getattr(again, name).verdict[0]) for name in PAIR] == [Verdict.INSIDE.code] * 3
    assert [int(getattr(again, name).severity[0]) for name in PAIR] == [0, 0, 0]


def _bytes(judged: Judged, rows: np.ndarray) -> dict[str, bytes]:
    arrays = {f.name: getattr(judged, f.name) for f in fields(Judged) if f.name not in {"setting", "owner"}}
    return {name: np.ascontiguousarray(array[rows]).tobytes() for name, array in arrays.items()}


def _assert_alone_as_in(fleet: FleetColumns, found: LowPressure, system: int) -> None:
    alone = low_pressure(only(fleet, system))
    for many, one in zip(found.judged, alone.judged, strict=True):
        assert _bytes(many, np.flatnonzero(many.owner == system)) == _bytes(one, np.arange(len(one.owner)))
    assert found.missing[system] == alone.missing[0]
    assert found.above_at_extreme[system] == alone.above_at_extreme[0]


def test_a_system_alone_and_in_a_fleet_is_bit_identical() -> None:
    random = Random(99)
    systems = [invented(random) if random.random() < 0.8 else invented_rack(random) for _ in range(211)]
    fleet = fleet_of(systems)
    found = low_pressure(fleet)
    for system in range(len(systems)):
        _assert_alone_as_in(fleet, found, system)


@pytest.mark.deep
def test_two_thousand_systems_alone_and_in_a_fleet_are_bit_identical() -> None:
    random = Random(100)
    systems = [invented(random) if random.random() < 0.8 else invented_rack(random) for _ in range(2003)]
    fleet = fleet_of(systems)
    found = low_pressure(fleet)
    for system in range(len(systems)):
        _assert_alone_as_in(fleet, found, system)


@given(SEEDS, st.randoms(use_true_random=False))
@settings(max_examples=60, deadline=None)
def test_the_order_of_boxes_and_compressors_does_not_matter(seed: int, shuffling: Random) -> None:
    random = Random(seed)
    system = invented_rack(random) if seed % 3 == 0 else invented(random)
    boxes, compressors = list(system.boxes), list(system.compressors)
    shuffling.shuffle(boxes)
    shuffling.shuffle(compressors)
    turned = replace(system, boxes=tuple(boxes), compressors=tuple(compressors))
    found, _ = _windows(system)
    again, _ = _windows(turned)
    # The last is a row per compressor, and follows their order.
    for one, other in zip(found.judged[:-1], again.judged[:-1], strict=True):
        assert _bytes(one, np.arange(len(one.owner))) == _bytes(other, np.arange(len(other.owner)))


EMPTIED: dict[str, Callable[[FleetColumns], None]] = {
    "refrigerant": lambda fleet: fleet.systems.refrigerant.fill(-1),
    "strategy": lambda fleet: fleet.systems.strategy.fill(-1),
    "elevation": lambda fleet: fleet.systems.elevation_m.fill(np.nan),
    "kind": lambda fleet: fleet.boxes.kind.fill(-1),
    "setpoint": lambda fleet: fleet.boxes.setpoint_k.fill(np.nan),
}


@pytest.mark.parametrize("cell", EMPTIED)
def test_an_empty_fact_makes_every_window_not_known_and_names_itself(cell: str) -> None:
    random = Random(3)
    sound = {"control": "fitted", "cut_in": 15.0, "cut_out": 5.0, "lp_differential": None}
    fleet = fleet_of([replace(invented(random), **sound) for _ in range(60)])
    EMPTIED[cell](fleet)
    found = low_pressure(fleet)
    for name in PAIR:
        judged = getattr(found, name)
        assert set(judged.verdict.tolist()) == {Verdict.NOT_KNOWN.code}
        assert set(judged.severity.tolist()) == {4}
        assert np.isnan(judged.preferred).all()
    assert all(cell in names(int(mask)) for mask in found.missing)


@given(SEEDS)
@settings(max_examples=60, deadline=None)
def test_empty_cells_never_fire_a_fault_rule(seed: int) -> None:
    random = Random(seed)
    systems = [invented(random) if random.random() < 0.7 else invented_rack(random) for _ in range(10)]
    fleet = fleet_of(systems)
    chosen = np.random.default_rng(seed)
    for columns in (fleet.systems, fleet.boxes, fleet.groups, fleet.compressors):
        for field in fields(columns):
            array = getattr(columns, field.name)
            if field.name in {"system_id", "system", "box_id", "position", "group"}:
                continue
            emptied = chosen.random(len(array)) < 0.3
            array[emptied] = np.nan if array.dtype.kind == "f" else -1
    found = low_pressure(fleet)
    faults = {Verdict.BELOW.code, Verdict.ABOVE.code, Verdict.CONFLICTING.code}
    for judged in found.judged:
        at_fault = np.isin(judged.verdict, list(faults))
        assert not np.isnan(judged.recorded[at_fault]).any()
        unset = np.isnan(judged.recorded) & (judged.verdict != Verdict.NO_WINDOW.code)
        assert set(judged.severity[unset].tolist()) <= {0, 4}
        empty = judged.verdict == Verdict.NO_WINDOW.code
        assert not np.isnan(judged.low[empty] + judged.high[empty]).any()
    assert not (found.cut_in.severity[np.isnan(found.cut_in.recorded)] == 1).any() or _only_too_cold(found)


def _only_too_cold(found: LowPressure) -> bool:
    """An act-now without a recorded cut-in is allowed only where no cut-in could help."""
    urgent = np.isnan(found.cut_in.recorded) & (found.cut_in.severity == 1)
    return bool(
        (found.case.pressure_cycling[urgent] & (found.side.soak_k < found.running.call_k)[urgent]).all()
    )
