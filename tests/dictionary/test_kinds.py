"""What each kind of cell accepts, and what it says when it does not."""

from datetime import date, datetime

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fleet.dictionary import FILE_BY_NAME
from fleet.dictionary.kinds import (
    BoxTag,
    Choice,
    Choices,
    Day,
    Kind,
    Measure,
    Moment,
    Number,
    Pattern,
    Reference,
    Refrigerant,
    TagText,
    Text,
    YesOrNo,
)
from fleet.errors import InputError, QuantityError, UnknownNameError
from fleet.units import Dimension

WEATHER = Measure((Dimension.TEMPERATURE,), 173.15, 393.15, "from −100 °C to 120 °C (−148 °F to 248 °F)")


def column(file: str, name: str) -> Kind:
    found = FILE_BY_NAME[file].column(name)
    assert found is not None
    return found.kind


@pytest.mark.independent
@pytest.mark.parametrize(
    ("kind", "text", "value"),
    [
        (Text(), "[bold]not markup[/]", "[bold]not markup[/]"),
        (TagText(), "WC-2", "WC-2"),
        (BoxTag(), "compressor", "compressor"),
        (BoxTag(), "grouped", "grouped"),
        (Refrigerant(), "r404a", "R-404A"),
        (Refrigerant(), "R 1234ze", "R-1234ze(E)"),
        (Number(0, 24), "17.5", 17.5),
        (Number(-90, 90), "−44.95", -44.95),
        (Number(0, 24, unit="h"), "17.5 h", 17.5),
        (Number(1, 3, whole=True), "3", 3),
        (Choice(("open", "closed")), "open", "open"),
        (Choices(("a", "b")), " b ; a;", ("b", "a")),
        (Choices(), "no:foam", ("no:foam",)),
        (YesOrNo(), "YES", True),
        (YesOrNo(), "no", False),
        (Day(), "2026-02-28", date(2026, 2, 28)),
        (Moment(), "2026-11-25T14:30", datetime(2026, 11, 25, 14, 30)),
        (Pattern("a+", "many a"), "aaa", "aaa"),
        (Reference("person"), "R. Osei", "R. Osei"),
    ],
)
def test_what_is_accepted(kind: Kind, text: str, value: object) -> None:
    assert kind.read(text) == value


@pytest.mark.regression
@pytest.mark.parametrize(
    ("kind", "text", "message"),
    [
        (Text(), "a\x00b", "a NUL character cannot be kept; expected plain text"),
        (Text(3), "four", "4 characters; expected text of up to 3 characters"),
        (
            BoxTag(),
            "Compressor 1",
            "a box's tag may not begin with 'compressor ' or 'group '; expected another tag",
        ),
        (
            BoxTag(),
            "group A",
            "a box's tag may not begin with 'compressor ' or 'group '; expected another tag",
        ),
        (Number(0, 24), "25", "expected a number from 0 to 24"),
        (Number(0, 24), "nan", "expected a number from 0 to 24"),
        (Number(0, 24), "inf", "expected a number from 0 to 24"),
        (Number(0, 24, unit="h"), "many h", "expected a number from 0 to 24 h"),
        (Number(1, 3, whole=True), "2.5", "expected a whole number from 1 to 3"),
        (Choice(("open", "closed")), "opne", "expected one of open, closed; nearest: open"),
        (Choice(("open", "closed")), "Open ", "expected one of open, closed; nearest: open"),
        (Choice(("open", "closed")), "xyz", "expected one of open, closed"),
        (Choices(("a", "b")), "a;c", "'c' is not in the list; expected any of a, b, with ; between"),
        (YesOrNo(), "1", "expected yes or no"),
        (Day(), "25.11.2026", "expected a date like 2026-11-25"),
        (Day(), "2026-02-30", "expected a date like 2026-11-25"),
        (Day(), "1726-02-03", "expected a date like 2026-11-25, between 1900 and 2200"),
        (Moment(), "noon", "expected a date and time like 2026-11-25T14:30"),
        (
            Moment(),
            "2026-11-25T14:30+01:00",
            "expected a date and time like 2026-11-25T14:30, local to the site, without a zone",
        ),
        (Pattern("a+", "many a"), "b", "expected many a"),
    ],
)
def test_what_is_refused_says_what_would_be_accepted(kind: Kind, text: str, message: str) -> None:
    with pytest.raises(InputError) as raised:
        kind.read(text)
    assert raised.value.message == message


@pytest.mark.regression
def test_an_unknown_refrigerant_names_the_nearest() -> None:
    with pytest.raises(UnknownNameError) as raised:
        Refrigerant().read("R-404")
    assert raised.value.message.startswith("There is no refrigerant 'R-404'. Nearest: R-404A, ")
    assert raised.value.near[0] == "R-404A"


@pytest.mark.regression
def test_a_measure_out_of_bounds_says_them() -> None:
    with pytest.raises(QuantityError) as raised:
        WEATHER.read("200C")
    assert raised.value.message == (
        "expected a temperature like 36F or 2.2C, from −100 °C to 120 °C (−148 °F to 248 °F)"
    )
    assert WEATHER.read("-40F").value_si == pytest.approx(233.15)


@pytest.mark.regression
@pytest.mark.parametrize("text", ["closed", "07:00-15:00", "07:00-11:30;13:00-24:00"])
def test_opening_hours(text: str) -> None:
    assert column("sites", "access_mon").read(text) == text


@pytest.mark.regression
@pytest.mark.parametrize("text", ["7-15", "07:00-15:60", "25:00-26:00", "07:00", "07:00-24:30", "open"])
def test_hours_that_no_clock_shows(text: str) -> None:
    with pytest.raises(InputError) as raised:
        column("sites", "access_mon").read(text)
    assert raised.value.message == "expected hours like 07:00-15:00, or closed"


@pytest.mark.regression
@pytest.mark.parametrize("text", ["2026-12-25", "2026-12-25/2027-01-02", "2026-05-01;2026-12-24/2027-01-01"])
def test_closed_days(text: str) -> None:
    assert column("sites", "closed").read(text) == text


@pytest.mark.regression
@pytest.mark.parametrize("text", ["christmas", "2026-13-45", "2026-12-25 to 2026-12-27"])
def test_closed_days_that_no_calendar_has(text: str) -> None:
    with pytest.raises(InputError) as raised:
        column("sites", "closed").read(text)
    assert raised.value.message == "expected dates or ranges like 2026-12-25;2027-01-01/2027-01-03"


@pytest.mark.independent
def test_what_cannot_exist_is_refused_and_what_is_merely_wrong_is_kept() -> None:
    with pytest.raises(QuantityError, match="below absolute zero"):
        column("boxes", "setpoint").read("-500F")
    with pytest.raises(QuantityError, match="below a full vacuum"):
        column("systems", "low_pressure_cut_in").read("-20psig")
    assert column("systems", "low_pressure_cut_out").read("60psig").text == "60psig"  # type: ignore[union-attr]


@pytest.mark.independent
@given(st.text(max_size=30))
def test_any_cell_is_read_or_refused_with_a_sentence(text: str) -> None:
    for file in ("sites", "systems", "boxes", "compressors", "settings", "events", "checks"):
        for item in FILE_BY_NAME[file].all_columns:
            assert _refusal(item.kind, text) != ""


def _refusal(kind: Kind, text: str) -> str | None:
    try:
        kind.read(text)
    except InputError as error:
        return error.message
    return None
