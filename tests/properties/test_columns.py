"""Column look-ups: inverse, order, ranges, unknowns, and the same bits alone and in a fleet."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from fleet.properties import (
    REFRIGERANTS,
    UNKNOWN,
    bubble_pressure_pa_abs,
    bubble_temperature_k,
    dew_pressure_pa_abs,
    dew_temperature_k,
    glide_k,
    liquid_density_kg_m3,
    refrigerant_index,
)
from fleet.properties.tables import tables

INDICES = st.integers(0, len(REFRIGERANTS) - 1)
SHARES = st.floats(0.0, 1.0)
BOTH_WAYS = (
    (dew_pressure_pa_abs, dew_temperature_k, lambda: tables().dew),
    (bubble_pressure_pa_abs, bubble_temperature_k, lambda: tables().bubble),
)
BY_TEMPERATURE = (dew_pressure_pa_abs, bubble_pressure_pa_abs, liquid_density_kg_m3, glide_k)
BY_PRESSURE = (dew_temperature_k, bubble_temperature_k)


@pytest.mark.independent
@pytest.mark.parametrize(("pressure", "temperature", "table"), BOTH_WAYS)
@given(index=INDICES, share=SHARES)
def test_inverse_of_the_inverse_is_the_value(pressure, temperature, table, index, share) -> None:  # type: ignore[no-untyped-def]
    """Pressure and temperature come back to 1e-12, to the very ends of the range."""
    segments, rows = table().segments, np.array([index])
    low_k, high_k = segments.low_k[index], segments.high_k[index]
    there = np.array([min(low_k + share * (high_k - low_k), high_k)])
    pressure_there = pressure(rows, there)
    back = temperature(rows, pressure_there)
    assert back == pytest.approx(there, rel=1e-12)
    assert pressure(rows, back) == pytest.approx(pressure_there, rel=1e-11)


@pytest.mark.independent
@pytest.mark.parametrize("index", range(len(REFRIGERANTS)), ids=[item.name for item in REFRIGERANTS])
def test_bubble_is_never_below_dew_and_both_rise(index: int) -> None:
    """Over the whole range, nodes and between them; liquid density falls."""
    temperatures = np.arange(195.0, 420.0, 0.1)
    rows = np.full(temperatures.shape, index)
    dew, bubble = dew_pressure_pa_abs(rows, temperatures), bubble_pressure_pa_abs(rows, temperatures)
    density = liquid_density_kg_m3(rows, temperatures)
    both = ~(np.isnan(dew) | np.isnan(bubble))
    assert both.sum() > 800
    assert np.all(bubble[both] >= dew[both])
    for values, sign in ((dew, 1), (bubble, 1), (density, -1)):
        assert np.all(sign * np.diff(values[~np.isnan(values)]) > 0)


@pytest.mark.independent
@pytest.mark.parametrize("index", range(len(REFRIGERANTS)), ids=[item.name for item in REFRIGERANTS])
def test_glide_is_nothing_for_a_pure_fluid_and_something_for_a_blend(index: int) -> None:
    """Never negative; R-404A's below 1 K; a pure fluid's is nil."""
    temperatures = np.arange(240.0, 300.0, 1.0)
    glide = glide_k(np.full(temperatures.shape, index), temperatures)
    item = REFRIGERANTS[index]
    if item.kind == "pure":
        assert np.abs(glide).max() < 1e-9
    else:
        assert glide.min() >= 0 and glide.max() < 15  # noqa: PT018


@pytest.mark.parametrize("look_up", [*BY_TEMPERATURE, *BY_PRESSURE])
def test_a_row_without_an_answer_is_nan_and_stops_nothing(look_up) -> None:  # type: ignore[no-untyped-def]
    """Unknown refrigerant, position outside the list, NaN, infinity and nonsense: NaN, and no warning."""
    r22 = refrigerant_index("R-22")
    sound = 280.0 if look_up in BY_TEMPERATURE else 5e5
    rows = np.array([UNKNOWN, -7, len(REFRIGERANTS), 32000, r22, r22, r22, r22, r22, r22], dtype=np.int16)
    values = np.array([sound] * 4 + [np.nan, np.inf, -np.inf, 0.0, -5.0, sound])
    answer = look_up(rows, values)
    assert np.isnan(answer[:-1]).all()
    assert np.isfinite(answer[-1])


@pytest.mark.parametrize(("pressure", "temperature", "table"), BOTH_WAYS)
def test_ranges_are_honoured_to_the_edge(pressure, temperature, table) -> None:  # type: ignore[no-untyped-def]
    """Answers at both ends of every curve, none a millikelvin beyond."""
    segments = table().segments
    rows = np.arange(len(REFRIGERANTS))
    for edge, outward in ((segments.low_k, -1e-3), (segments.high_k, 1e-3)):
        at_edge = pressure(rows, edge)
        assert np.isfinite(at_edge).all()
        assert np.isfinite(temperature(rows, at_edge)).all()
        assert np.isnan(pressure(rows, edge + outward)).all()
        assert np.isnan(temperature(rows, at_edge * (1 + outward))).all()


def test_pure_fluids_reach_their_critical_point_and_blends_come_close() -> None:
    """R-744 and R-134a: ends of the equations as published, from memory; all else beyond 70 °C."""
    high_k = tables().dew.segments.high_k
    assert high_k[refrigerant_index("R-744")] == pytest.approx(304.1282, abs=1e-3)
    assert high_k[refrigerant_index("R-134a")] == pytest.approx(374.21, abs=1e-2)
    assert np.delete(high_k, refrigerant_index("R-744")).min() > 343.15
    low_k = tables().dew.segments.low_k
    assert low_k[refrigerant_index("R-744")] == pytest.approx(216.592, abs=1e-3)
    assert set(np.delete(low_k, refrigerant_index("R-744"))) == {200.0}


@pytest.mark.independent
@pytest.mark.parametrize("look_up", [*BY_TEMPERATURE, *BY_PRESSURE])
def test_alone_and_in_a_fleet_come_out_bit_identical(look_up) -> None:  # type: ignore[no-untyped-def]
    """Each row by itself, in odd blocks, and strided equals the whole column bit for bit."""
    random = np.random.default_rng(20_07)
    rows = random.integers(-1, len(REFRIGERANTS), 999).astype(np.int16)
    values = random.uniform(190, 390, 999) if look_up in BY_TEMPERATURE else random.uniform(1e4, 5e6, 999)
    whole = look_up(rows, values)
    alone = np.concatenate([look_up(rows[i : i + 1], values[i : i + 1]) for i in range(999)])
    blocks = np.concatenate([look_up(rows[i : i + 37], values[i : i + 37]) for i in range(0, 999, 37)])
    assert whole.tobytes() == alone.tobytes() == blocks.tobytes()
    assert whole[::3].tobytes() == look_up(rows[::3], values[::3]).tobytes()


@pytest.mark.parametrize("look_up", BY_TEMPERATURE)
def test_shapes_broadcast(look_up) -> None:  # type: ignore[no-untyped-def]
    """A column of refrigerants against a row of temperatures gives a grid."""
    grid = look_up(np.arange(4)[:, None], np.array([250.0, 260.0, 270.0]))
    assert grid.shape == (4, 3)
    assert grid[2, 1] == look_up(np.array([2]), np.array([260.0]))[0]
    assert np.shape(look_up(np.array(3), np.array(260.0))) == ()
