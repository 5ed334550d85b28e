"""What people type and what they read back."""

import math
import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fleet.errors import QuantityError
from fleet.units import (
    _UNITS,
    Dimension,
    Quantity,
    UnitSystem,
    figure,
    parse,
    plain,
    show,
    unit_shown,
)

D = Dimension


# --- conversions ----------------------------------------------------------------------------------------


@pytest.mark.published
@pytest.mark.parametrize(
    ("text", "dimension", "value_si"),
    [
        # published: NIST Special Publication 811 (2008), Appendix B.8 and B.9, from memory
        ("1psi", D.PRESSURE_DIFFERENCE, 6894.757),
        ("1bar", D.PRESSURE_DIFFERENCE, 1e5),
        ("1inHg", D.PRESSURE, -3386.389),
        ("1lb", D.MASS, 0.45359237),
        ("1oz", D.MASS, 0.02834952),
        ("1ft", D.LENGTH, 0.3048),
        ("1in", D.LENGTH, 0.0254),
        ("1ft2", D.AREA, 0.09290304),
        ("1ft3", D.VOLUME, 0.02831685),
        ("1L", D.VOLUME, 1e-3),
        ("32F", D.TEMPERATURE, 273.15),
        ("212F", D.TEMPERATURE, 373.15),
        ("-40C", D.TEMPERATURE, 233.15),
        ("-459.67F", D.TEMPERATURE, 0.0),
        ("1h", D.TIME, 3600.0),
        ("1d", D.TIME, 86400.0),
    ],
)
def test_one_of_each_in_si(text: str, dimension: Dimension, value_si: float) -> None:
    assert parse(text, dimension).value_si == pytest.approx(value_si, rel=2e-7, abs=1e-9)


@pytest.mark.independent
@pytest.mark.parametrize(("text", "kelvin"), [("18F", 10.0), ("10C", 10.0), ("10K", 10.0), ("-9°F", -5.0)])
def test_a_difference_of_temperature_has_no_offset(text: str, kelvin: float) -> None:
    found = parse(text, D.TEMPERATURE_DIFFERENCE)
    assert found.value_si == pytest.approx(kelvin)
    assert found.dimension is D.TEMPERATURE_DIFFERENCE


@pytest.mark.independent
@pytest.mark.parametrize("spelling", ["10psi", "10 psi", "10PSI", " 10psi ", "+10 psi", "10.0psi"])
def test_spellings_of_one_pressure(spelling: str) -> None:
    assert parse(spelling, D.PRESSURE).value_si == pytest.approx(68947.57293)
    assert parse(spelling, D.PRESSURE).text == spelling.strip()


@pytest.mark.independent
@pytest.mark.parametrize(
    ("text", "pascal"),
    [
        ("15psig", 103421.36),
        ("15psi(g)", 103421.36),
        ("1.03bar", 103000.0),
        ("1.03barg", 103000.0),
        ("103kPa(g)", 103000.0),
        ("0.103MPa", 103000.0),
        ("-2psig", -13789.51),
        ("−2psig", -13789.51),  # the minus of print
        ("8.3inHg", -28107.03),
        ("8.3 inHg vac", -28107.03),
        ('8.3"Hg', -28107.03),
    ],
)
def test_gauge_pressures_and_vacuum(text: str, pascal: float) -> None:
    found = parse(text, D.PRESSURE)
    assert found.value_si == pytest.approx(pascal, abs=0.5)
    assert found.dimension is D.PRESSURE


@pytest.mark.independent
def test_an_absolute_pressure_comes_back_as_absolute_where_gauge_was_asked() -> None:
    found = parse("29.7psia", D.PRESSURE)
    assert found.dimension is D.PRESSURE_ABSOLUTE
    assert found.value_si == pytest.approx(204774.3, abs=0.1)


@pytest.mark.independent
def test_one_spelling_means_what_is_asked_for() -> None:
    assert parse("10psi", D.PRESSURE).dimension is D.PRESSURE
    assert parse("10psi", D.PRESSURE_DIFFERENCE).dimension is D.PRESSURE_DIFFERENCE
    assert parse("80F", D.TEMPERATURE, D.PRESSURE).dimension is D.TEMPERATURE
    assert parse("180psig", D.TEMPERATURE, D.PRESSURE).dimension is D.PRESSURE


@pytest.mark.independent
def test_thousands_are_grouped_in_threes_or_refused() -> None:
    assert parse("5,000ft", D.LENGTH).value_si == pytest.approx(1524.0)
    with pytest.raises(QuantityError, match="is not a quantity"):
        parse("5,00ft", D.LENGTH)


@pytest.mark.independent
@pytest.mark.parametrize("spelling", _UNITS)
def test_every_unit_is_read_and_shown_in_both_systems(spelling: str) -> None:
    for unit in _UNITS[spelling]:
        found = parse(f"7 {spelling}", unit.dimension)
        assert found.value_si == pytest.approx(unit.to_si(7.0))
        assert unit.from_si(found.value_si) == pytest.approx(7.0)
        for system in UnitSystem:
            number, symbol = figure(found.value_si, unit.dimension, system)
            assert re.fullmatch(r"−?[\d,]+(\.\d+)?", number)
            assert symbol
            again = parse(f"{number}{symbol}".replace("²", "2").replace("³", "3"), unit.dimension)
            shown = unit_shown(unit.dimension, system)
            assert again.value_si == pytest.approx(
                found.value_si, abs=abs(shown.scale) * 10.0**-shown.decimals
            )


# --- refusals -------------------------------------------------------------------------------------------


@pytest.mark.regression
@pytest.mark.parametrize(
    ("text", "dimensions", "message"),
    [
        ("38", (D.TEMPERATURE,), "'38' has no unit; expected a temperature like 36F or 2.2C."),
        ("cold", (D.TEMPERATURE,), "'cold' is not a quantity; expected a temperature like 36F or 2.2C."),
        ("", (D.MASS,), "'' is not a quantity; expected a mass like 12lb or 5.4kg."),
        ("-", (D.MASS,), "'-' is not a quantity; expected a mass like 12lb or 5.4kg."),
        (
            "psi",
            (D.PRESSURE_DIFFERENCE,),
            "'psi' is not a quantity; expected a pressure difference like 10psi or 0.7bar.",
        ),
        ("1e3Pa", (D.TIME,), "'1e3Pa': the unit 'e3Pa' is not known; expected a time like 3min, 90s or 2h."),
        (
            "3furlong",
            (D.LENGTH,),
            "'3furlong': the unit 'furlong' is not known; expected a length like 5000ft or 1524m.",
        ),
        ("3ft", (D.MASS,), "'3ft' is a length; expected a mass like 12lb or 5.4kg."),
        (
            "3lb",
            (D.TEMPERATURE, D.PRESSURE),
            "'3lb' is a mass; expected a temperature like 36F or 2.2C or a gauge pressure like 15psig, "
            "1.03bar or 8.3inHg for vacuum.",
        ),
        (
            "29.7psia",
            (D.PRESSURE_DIFFERENCE,),
            "'29.7psia' is an absolute pressure; expected a pressure difference like 10psi or 0.7bar.",
        ),
        ("-5inHg", (D.PRESSURE,), "'-5inHg': vacuum is written without a sign, like 8.3inHg."),
        (
            "-460F",
            (D.TEMPERATURE,),
            "'-460F' is below absolute zero (−459.67 °F, −273.15 °C); a temperature like 36F or 2.2C is "
            "expected.",
        ),
        (
            "-15psig",
            (D.PRESSURE,),
            "'-15psig' is below a full vacuum (−14.7 psig, 29.9 inHg); a gauge pressure like 15psig, 1.03bar "
            "or 8.3inHg for vacuum is expected.",
        ),
        (
            "31inHg",
            (D.PRESSURE,),
            "'31inHg' is below a full vacuum (−14.7 psig, 29.9 inHg); a gauge pressure like 15psig, 1.03bar "
            "or 8.3inHg for vacuum is expected.",
        ),
        ("-1lb", (D.MASS,), "'-1lb' is less than nothing; a mass like 12lb or 5.4kg is expected."),
        ("-1min", (D.TIME,), "'-1min' is less than no time; a time like 3min, 90s or 2h is expected."),
    ],
)
def test_what_is_refused_says_what_would_be_accepted(
    text: str, dimensions: tuple[Dimension, ...], message: str
) -> None:
    with pytest.raises(QuantityError) as raised:
        parse(text, *dimensions)
    assert raised.value.message == message
    assert raised.value.kind == "quantity"


@pytest.mark.independent
@given(st.text(max_size=20))
def test_any_text_is_read_or_refused_with_a_sentence(text: str) -> None:
    for dimension in Dimension:
        found, refusal = _tried(text, dimension)
        if found is not None:
            assert math.isfinite(found.value_si)
        else:
            assert repr(text.strip()) in refusal
            assert dimension.example in refusal or "vacuum is written" in refusal


def _tried(text: str, dimension: Dimension) -> tuple[Quantity | None, str]:
    try:
        return parse(text, dimension), ""
    except QuantityError as error:
        return None, error.message


# --- back to the reader ---------------------------------------------------------------------------------


@pytest.mark.independent
@given(
    st.decimals(min_value=0, max_value=400, places=2, allow_nan=False),
    st.sampled_from([(spelling, u) for spelling, units in _UNITS.items() for u in units]),
    st.sampled_from(["", " ", "  "]),
)
def test_what_was_typed_comes_back_exactly(number: object, unit: tuple[str, object], gap: str) -> None:
    spelling, kind = unit
    dimension = kind.dimension  # type: ignore[attr-defined]
    typed = f"{number}{gap}{spelling}"
    found, refusal = _tried(f"  {typed} ", dimension)
    if found is None:
        assert "below a full vacuum" in refusal
    else:
        assert found == Quantity(found.value_si, dimension, typed)


@pytest.mark.independent
@given(st.floats(-90_000, 4e6), st.sampled_from(UnitSystem))
def test_a_shown_pressure_reads_back_within_its_last_figure(pascal: float, system: UnitSystem) -> None:
    text = show(pascal, D.PRESSURE, system)
    found = parse(text, D.PRESSURE)
    last = {"psig": 0.05 * 6894.757, "inHg": 0.05 * 3386.389, "bar(g)": 0.005 * 1e5}[text.split()[1]]
    assert found.value_si == pytest.approx(pascal, abs=last * 1.001)


@pytest.mark.independent
@given(st.floats(150, 400), st.sampled_from(UnitSystem))
def test_a_shown_temperature_reads_back_within_its_last_figure(kelvin: float, system: UnitSystem) -> None:
    found = parse(show(kelvin, D.TEMPERATURE, system), D.TEMPERATURE)
    assert found.value_si == pytest.approx(kelvin, abs=0.0501)


@pytest.mark.regression
@pytest.mark.parametrize(
    ("value_si", "dimension", "us", "metric"),
    [
        (-28108.0, D.PRESSURE, "8.3 inHg vacuum", "−0.28 bar(g)"),
        (0.0, D.PRESSURE, "0.0 psig", "0.00 bar(g)"),
        (-100.0, D.PRESSURE, "0.0 psig", "0.00 bar(g)"),
        (-68947.573, D.PRESSURE_DIFFERENCE, "−10.0 psi", "−0.69 bar"),
        (255.372222, D.TEMPERATURE, "0.0 °F", "−17.8 °C"),
        (5.0, D.TEMPERATURE_DIFFERENCE, "9.0 °F", "5.0 K"),
        (1524.0, D.LENGTH, "5,000 ft", "1,524 m"),
        (204774.3, D.PRESSURE_ABSOLUTE, "29.7 psia", "2.05 bar(a)"),
        (180.0, D.TIME, "3.0 min", "3.0 min"),
    ],
)
def test_numbers_as_people_read_them(value_si: float, dimension: Dimension, us: str, metric: str) -> None:
    assert show(value_si, dimension, UnitSystem.US) == us
    assert show(value_si, dimension, UnitSystem.METRIC) == metric


@pytest.mark.regression
def test_plain_numbers_keep_vacuum_negative_and_nothing_as_none() -> None:
    assert plain(-28108.0, D.PRESSURE, UnitSystem.US) == -4.0767
    assert plain(None, D.PRESSURE, UnitSystem.US) is None
    assert plain(math.nan, D.MASS, UnitSystem.METRIC) is None


@pytest.mark.independent
def test_every_dimension_has_a_unit_in_both_systems_a_suffix_and_an_example() -> None:
    suffixes = {}
    for dimension in Dimension:
        for system in UnitSystem:
            assert unit_shown(dimension, system).dimension is dimension
        suffixes[dimension] = dimension.suffix
        first = dimension.example.replace(",", " ").split()[0]
        assert parse(first, dimension).dimension is dimension
    shared = {D.TEMPERATURE, D.TEMPERATURE_DIFFERENCE}
    alone = [suffix for dimension, suffix in suffixes.items() if dimension not in shared]
    assert len(alone) == len(set(alone))
