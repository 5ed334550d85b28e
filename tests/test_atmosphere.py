"""The air around a pressure control."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from fleet.atmosphere import air_pressure_pa, as_read_pa, check_elevation, sensed_air_pa
from fleet.errors import OutOfRangeError
from fleet.units import PSI_PA, Dimension, parse

STANDARD_ATMOSPHERE = [
    # published: U.S. Standard Atmosphere, 1976, Table I (geometric altitude), from memory
    (0, 101325.0),
    (500, 95461.0),
    (1000, 89876.0),
    (1500, 84559.0),
    (2000, 79501.0),
    (2500, 74691.0),
    (3000, 70121.0),
    (4000, 61660.0),
    (5000, 54048.0),
    (6000, 47217.0),
]


@pytest.mark.published
@pytest.mark.parametrize(("elevation_m", "pascal"), STANDARD_ATMOSPHERE)
def test_the_standard_atmosphere(elevation_m: float, pascal: float) -> None:
    # The formula takes geometric for geopotential altitude: 0.08 % at 6,000 m.
    assert air_pressure_pa(elevation_m) == pytest.approx(pascal, rel=1e-3)
    if elevation_m <= 2000:
        assert air_pressure_pa(elevation_m) == pytest.approx(pascal, rel=3e-4)


@pytest.mark.independent
def test_the_standard_atmosphere_from_its_defining_constants() -> None:
    # p = p0 (T/T0)^(g M / (R L)): T0 288.15 K, L 6.5 K/km, g 9.80665, M 28.9644 g/mol, R 8.31432 J/mol/K
    exponent = 9.80665 * 28.9644e-3 / (8.31432 * 6.5e-3)
    for z in (-500.0, 300.0, 1524.0, 3500.0):
        expected = 101325.0 * ((288.15 - 6.5e-3 * z) / 288.15) ** exponent
        assert air_pressure_pa(z) == pytest.approx(expected, rel=2e-5)


@pytest.mark.independent
def test_denver_reads_two_and_a_half_psi_more() -> None:
    lost = (air_pressure_pa(0.0) - air_pressure_pa(1524.0)) / PSI_PA
    assert lost == pytest.approx(2.47, abs=0.02)


@pytest.mark.independent
@given(st.floats(-500, 6000), st.floats(1, 500))
def test_air_thins_with_height(elevation_m: float, higher_m: float) -> None:
    assert air_pressure_pa(elevation_m + higher_m) < air_pressure_pa(elevation_m)


@pytest.mark.independent
def test_columns_and_numbers_agree() -> None:
    heights = np.array([-500.0, 0.0, 1524.0, 6000.0, np.nan])
    found = air_pressure_pa(heights)
    assert found[:4].tolist() == pytest.approx([air_pressure_pa(float(z)) for z in heights[:4]], rel=1e-14)
    assert np.isnan(found[4])


@pytest.mark.regression
@pytest.mark.parametrize(
    ("elevation_m", "words"), [(-501.0, "-501 m (-1,644 ft)"), (8848.0, "8,848 m (29,029 ft)")]
)
def test_where_nobody_keeps_a_cooler(elevation_m: float, words: str) -> None:
    with pytest.raises(OutOfRangeError) as raised:
        check_elevation(elevation_m)
    assert raised.value.message == (
        f"An elevation of {words} is outside −500 m to 6,000 m (−1,640 ft to 19,685 ft)."
    )


@pytest.mark.regression
@pytest.mark.parametrize("elevation_m", [-500.0, 0.0, 6000.0])
def test_where_somebody_does(elevation_m: float) -> None:
    check_elevation(elevation_m)


@pytest.mark.independent
def test_what_each_kind_of_sensor_subtracts() -> None:
    assert sensed_air_pa("vented", 1524.0) == air_pressure_pa(1524.0)
    assert sensed_air_pa(None, 1524.0) == air_pressure_pa(1524.0)
    assert sensed_air_pa("sealed", 1524.0) == 101325.0
    assert sensed_air_pa("absolute", 1524.0) == 0.0


@pytest.mark.independent
@pytest.mark.parametrize(
    ("typed", "sensor", "psi"),
    [
        ("15psig", "vented", 15.0),
        ("15psig", None, 15.0),
        ("15psig", "sealed", 15.0),
        ("15psig", "absolute", 15.0 + 12.228),  # local air at 5,000 ft
        ("29.7psia", "vented", 29.7 - 12.228),
        ("29.7psia", "sealed", 29.7 - 14.696),
        ("29.7psia", "absolute", 29.7),
    ],
)
def test_a_typed_pressure_as_the_control_shows_it(typed: str, sensor: str | None, psi: float) -> None:
    found = as_read_pa(parse(typed, Dimension.PRESSURE), sensor, 1524.0) / PSI_PA
    assert found == pytest.approx(psi, abs=0.002)
