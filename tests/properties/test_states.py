"""One refrigerant at one temperature or pressure: answers and the sentences of refusals."""

import math

import pytest

from fleet.errors import OutOfRangeError, UnknownNameError
from fleet.properties import saturation_range, state_at_pressure, state_at_temperature


@pytest.mark.independent
@pytest.mark.parametrize("name", ["R-22", "R-404A", "R-448A", "R-744"])
def test_temperature_and_pressure_forms_agree(name: str) -> None:
    """The pressure form, asked at the temperature form's pressures, returns the temperature."""
    state = state_at_temperature(name, 265.0)
    assert state_at_pressure(name, state.dew_pressure_pa_abs).dew_temperature_k == pytest.approx(265.0)
    assert state_at_pressure(name, state.bubble_pressure_pa_abs).bubble_temperature_k == pytest.approx(265.0)
    assert state.glide_k == pytest.approx(state_at_pressure(name, state.dew_pressure_pa_abs).glide_k)
    assert state.glide_k is not None
    assert (state.glide_k > 0.1) == (name in {"R-404A", "R-448A"})


def test_estimated_refrigerants_say_so() -> None:
    """The label travels with both answers."""
    assert state_at_temperature("R-402A", 260.0).estimated
    assert state_at_pressure("R-409A", 2e5).estimated
    assert not state_at_temperature("R-404A", 260.0).estimated


def test_what_lies_beyond_its_own_curve_is_none() -> None:
    """The density ends before the pressure; the glide at 200 K would need a bubble point below 200 K."""
    assert state_at_temperature("R-134a", 374.0).liquid_density_kg_m3 is None
    assert state_at_temperature("R-448A", 200.0).glide_k is None
    assert state_at_temperature("R-448A", 200.0).liquid_density_kg_m3 is not None


TEMPERATURE_REFUSALS = [
    (
        "R-744",
        308.15,
        "R-744 at 35.0 °C (95.0 °F): no saturation above its critical point, 31.0 °C (87.8 °F). "
        "Valid: −56.6 °C (−69.8 °F) to 31.0 °C (87.8 °F).",
    ),
    (
        "R-744",
        203.15,
        "R-744 at −70.0 °C (−94.0 °F): no liquid below its triple point, −56.6 °C (−69.8 °F); it is dry ice "
        "and gas. Valid: −56.6 °C (−69.8 °F) to 31.0 °C (87.8 °F).",
    ),
    (
        "R-404A",
        400.0,
        "R-404A at 126.9 °C (260.3 °F): the table ends at 70.9 °C (159.5 °F), close below the "
        "critical point. Valid: −73.1 °C (−99.7 °F) to 70.9 °C (159.5 °F).",
    ),
    (
        "r22",
        150.0,
        "R-22 at −123.1 °C (−189.7 °F): the table begins at −73.1 °C (−99.7 °F). "
        "Valid: −73.1 °C (−99.7 °F) to 96.1 °C (205.1 °F).",
    ),
]


@pytest.mark.parametrize(("name", "temperature_k", "sentence"), TEMPERATURE_REFUSALS)
def test_temperature_outside_is_refused_with_the_reason(
    name: str, temperature_k: float, sentence: str
) -> None:
    """The sentence names value, range and reason in both units."""
    with pytest.raises(OutOfRangeError) as caught:
        state_at_temperature(name, temperature_k)
    assert str(caught.value) == sentence
    assert caught.value.as_document()["error"] == {
        "kind": "out-of-range",
        "message": sentence,
        "where": "temperature",
    }


PRESSURE_REFUSALS = [
    (
        "R-744",
        9e6,
        "R-744 at 9,000.0 kPa absolute (1,305.3 psia): no saturation above its critical point, "
        "7,377.3 kPa absolute (1,070.0 psia) at 31.0 °C (87.8 °F). "
        "Valid: 518.0 kPa absolute (75.1 psia) to 7,377.3 kPa absolute (1,070.0 psia).",
    ),
    (
        "R-744",
        1e5,
        "R-744 at 100.0 kPa absolute (14.5 psia): no liquid below its triple point, "
        "518.0 kPa absolute (75.1 psia); it is dry ice and gas. "
        "Valid: 518.0 kPa absolute (75.1 psia) to 7,377.3 kPa absolute (1,070.0 psia).",
    ),
]


@pytest.mark.parametrize(("name", "pressure_pa_abs", "sentence"), PRESSURE_REFUSALS)
def test_pressure_outside_is_refused_with_the_reason(
    name: str, pressure_pa_abs: float, sentence: str
) -> None:
    """The sentence names value, range and reason in both units."""
    with pytest.raises(OutOfRangeError) as caught:
        state_at_pressure(name, pressure_pa_abs)
    assert str(caught.value) == sentence
    assert caught.value.where == "pressure"


def test_what_is_no_number_is_refused() -> None:
    """NaN is neither too high nor too low."""
    with pytest.raises(OutOfRangeError, match=r"R-22 at nan °C.*that is not a number"):
        state_at_temperature("R-22", math.nan)
    with pytest.raises(OutOfRangeError, match=r"R-22 at nan kPa absolute.*that is not a number"):
        state_at_pressure("R-22", math.nan)


def test_unknown_refrigerant_is_refused_with_the_nearest() -> None:
    """Both forms and the range say which names are close."""
    for ask in (lambda: state_at_temperature("R-405A", 260.0), lambda: state_at_pressure("R-405A", 1e5)):
        with pytest.raises(UnknownNameError, match=r"There is no refrigerant 'R-405A'\. Nearest: R-4"):
            ask()
    with pytest.raises(UnknownNameError, match="There is no refrigerant 'water'"):
        saturation_range("water")


def test_range_says_why_it_ends() -> None:
    """Ends of pure fluids are physical, those of blends are the table's."""
    assert (saturation_range("R-744").low_end, saturation_range("R-744").high_end) == (
        "triple point",
        "critical point",
    )
    assert saturation_range("R-22").low_end == "end of the table"
    assert saturation_range("R-448A").high_end == "end of the table"
    assert saturation_range("R-448A").high_k > 350
