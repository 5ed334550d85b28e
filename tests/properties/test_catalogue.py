"""The catalogue of refrigerants: spelling, order, composition, flammability."""

import pytest

from fleet.errors import UnknownNameError
from fleet.properties import REFRIGERANTS, Kind, refrigerant, refrigerant_index


@pytest.mark.parametrize(
    ("typed", "name"),
    [
        ("r404a", "R-404A"),
        ("R404A", "R-404A"),
        ("R-404a", "R-404A"),
        ("404A", "R-404A"),
        (" r 404 a ", "R-404A"),
        ("R-600A", "R-600a"),
        ("R-1234ze(E)", "R-1234ze(E)"),
        ("R1234ZE", "R-1234ze(E)"),
        ("r-1234zee", "R-1234ze(E)"),
        ("22", "R-22"),
        ("R12", "R-12"),
    ],
)
def test_spelling_does_not_matter(typed: str, name: str) -> None:
    """Case, hyphen, spaces and the leading R are forgiven."""
    assert refrigerant(typed).name == name
    assert REFRIGERANTS[refrigerant_index(typed)].name == name


@pytest.mark.parametrize("typed", ["CO2", "ammonia", "", "R-", "R-4O4A", "Freon 22", "R-22[b]"])
def test_anything_else_is_refused(typed: str) -> None:
    """Only designations; the message repeats what was typed."""
    with pytest.raises(UnknownNameError) as caught:
        refrigerant(typed)
    assert str(caught.value).startswith(f"There is no refrigerant {typed.strip()!r}. ")


def test_near_miss_names_the_nearest() -> None:
    """A forgotten letter is answered with the right name first."""
    with pytest.raises(UnknownNameError) as caught:
        refrigerant("R404")
    assert caught.value.near[0] == "R-404A"


@pytest.mark.regression
def test_order_is_append_only() -> None:
    """Positions stand in columns and in the tables' file: these never move."""
    names = [item.name for item in REFRIGERANTS]
    assert len(set(names)) == len(names) == 35
    assert names[:4] == ["R-12", "R-22", "R-32", "R-134a"]
    assert names.index("R-404A") == 12
    assert names.index("R-448A") == 22
    assert names.index("R-515B") == 34


@pytest.mark.parametrize("item", REFRIGERANTS, ids=lambda item: item.name)
def test_every_entry_is_whole(item) -> None:  # type: ignore[no-untyped-def]
    """Mass fractions add up to one; a pure fluid is its own component; estimates say why."""
    assert sum(fraction for _, fraction in item.composition) == pytest.approx(1.0, abs=1e-9)
    assert (len(item.composition) == 1) == (item.kind is Kind.PURE)
    assert item.safety_group in {"A1", "A2L", "A3", "B2L"}
    assert bool(item.note) == item.estimated


def test_flammable_are_those_outside_class_one() -> None:
    """ASHRAE 34 safety groups, from memory."""
    flammable = {item.name for item in REFRIGERANTS if item.flammable}
    assert flammable == {
        *("R-32", "R-290", "R-600a", "R-717", "R-1234yf", "R-1234ze(E)"),
        *("R-454A", "R-454B", "R-454C", "R-455A"),
    }
