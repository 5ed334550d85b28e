"""The catalogue of checks and the changes a company makes to it."""

import numpy as np
import pytest

from fleet.checks import CATALOGUE, CHECK_CODES, changed_fields, check_index, check_kind, edited
from fleet.checks.applies import APPLIES, rows_that_apply
from fleet.checks.catalogue import CheckKind
from fleet.checks.editing import EDITABLE
from fleet.checks.fields import VALIDATORS
from fleet.checks.intervals import tolerance_days
from fleet.dictionary.words import Defrost, Form, Heater, Strategy, YesNo
from fleet.errors import InputError, UnknownNameError
from fleet.sources import SOURCES
from tests.checks.fleets import Box, Unit, fleet_of

# regression: intervals and minutes are judgement; this holds them still, it does not validate them.
DELIVERED = {
    "evaporator_coil": (6, 45, "summer"),
    "condenser_coil": (6, 40, "summer"),
    "pressures_superheat": (6, 12, ""),
    "crankcase_heater": (6, 5, "winter"),
    "pump_down_hold": (6, 20, "winter"),
    "leak_search": (6, 12, ""),
    "defrost": (6, 20, "summer"),
    "control_sequence": (12, 15, "winter"),
    "rack": (3, 60, ""),
}


@pytest.mark.regression
def test_the_catalogue_as_delivered() -> None:
    assert {kind.code: (kind.months, kind.minutes, kind.season) for kind in CATALOGUE} == DELIVERED


@pytest.mark.parametrize("kind", CATALOGUE, ids=CHECK_CODES)
def test_every_check_asks_a_known_question_and_has_a_source(kind: CheckKind) -> None:
    assert kind.applies in APPLIES
    assert kind.source_code in SOURCES
    assert kind.source is SOURCES[kind.source_code]
    as_it_is = {name: getattr(kind, name) for name in EDITABLE}
    assert edited(CATALOGUE, {kind.code: as_it_is}) == CATALOGUE  # so it passes its own validation
    assert changed_fields(kind) == ()


def test_every_field_that_may_be_changed_has_its_validation() -> None:
    assert set(VALIDATORS) == set(EDITABLE)


@pytest.mark.regression
def test_tolerance_is_a_fifth_of_the_interval() -> None:
    assert tolerance_days(np.array([1, 3, 6, 12])).tolist() == [6, 18, 36, 73]


@pytest.mark.parametrize(
    ("name", "expected"),
    [
        ("every-system", [True, True, True]),
        ("not-critically-charged", [True, True, False]),
        ("not-self-contained", [True, True, False]),
        ("heater-fitted", [False, True, False]),
        ("pump-down", [False, True, False]),
        ("rack", [False, False, True]),
        ("every-box", [True, True, True]),
        ("heated-defrost", [False, True, False]),
    ],
)
def test_an_empty_cell_excludes_from_nothing_and_proves_no_part(name: str, expected: list[bool]) -> None:
    nothing_recorded = Unit(heaters=(None,), boxes=(Box(),))
    pump_down = Unit(
        strategy=Strategy.ONE_TIME,
        form=Form.SPLIT,
        critically_charged=YesNo.NO,
        heaters=(Heater.NONE, Heater.FAILED),
        boxes=(Box(defrost=Defrost.HOT_GAS),),
    )
    excluded = Unit(
        strategy=Strategy.RACK,
        form=Form.SELF_CONTAINED,
        critically_charged=YesNo.YES,
        heaters=(Heater.NONE,),
        boxes=(Box(defrost=Defrost.OFF_CYCLE),),
    )
    fleet = fleet_of(nothing_recorded, pump_down, excluded)
    assert rows_that_apply(fleet, name, APPLIES[name].scope).tolist() == expected


def test_changes_keep_the_order_and_touch_nothing_else() -> None:
    changed = edited(CATALOGUE, {"rack": {"months": 1, "skills": ["rack"]}, "defrost": {"season": ""}})
    assert tuple(kind.code for kind in changed) == CHECK_CODES
    assert changed_fields(check_kind("rack", changed)) == ("months", "skills")
    assert check_kind("rack", changed).skills == ("rack",)
    assert [kind.code for kind in changed if changed_fields(kind)] == ["defrost", "rack"]
    assert check_kind("rack").months == 3  # the delivered one stands


@pytest.mark.parametrize(
    ("code", "field", "value", "message"),
    [
        ("rack", "months", 0, "Check rack, months: 0 is not accepted; "
         "expected a whole number of months from 1 to 120."),
        ("rack", "months", None, "Check rack, months: None is not accepted; "
         "expected a whole number of months from 1 to 120."),
        ("rack", "months", 2.5, "Check rack, months: 2.5 is not accepted; "
         "expected a whole number of months from 1 to 120."),
        ("rack", "minutes", True, "Check rack, minutes: True is not accepted; "
         "expected a whole number of minutes from 1 to 420."),
        ("rack", "tolerance_days", -1, "Check rack, tolerance_days: -1 is not accepted; "
         "expected a whole number of days from 0 to 366, or empty."),
        ("rack", "season", "autumn", "Check rack, season: 'autumn' is not accepted; "
         "expected one of: (empty), summer, winter."),
        ("rack", "who", "nobody", "Check rack, who: 'nobody' is not accepted; "
         "expected one of: technician, site-staff."),
        ("rack", "what", "  ", "Check rack, what: '  ' is not accepted; "
         "expected a few words that say what is done."),
        ("rack", "skills", "rack", "Check rack, skills: 'rack' is not accepted; "
         "expected a list of skills, each a word such as refrigerant."),
        ("rack", "applies", "every-box", "Check rack, applies: 'every-box' asks about boxes; "
         "a check of systems accepts one of: every-system, not-critically-charged, not-self-contained, "
         "heater-fitted, pump-down, rack."),
        ("rack", "months_freezer", 3, "Check rack, months_freezer: 3 is not accepted; "
         "a check of systems cannot tell boxes apart, leave it empty."),
    ],
)  # fmt: skip
def test_a_value_that_cannot_be_meant_is_refused(code: str, field: str, value: object, message: str) -> None:
    with pytest.raises(InputError) as refused:
        edited(CATALOGUE, {code: {field: value}})
    assert refused.value.message == message
    assert refused.value.where == f"{code}, {field}"


@pytest.mark.parametrize(
    ("changes", "message"),
    [
        ({"racks": {"months": 1}}, "There is no check 'racks'. Nearest: rack."),
        ({"rack": {"month": 1}}, "There is no editable field of a check 'month'. Nearest: months."),
        ({"rack": {"code": "other"}}, "There is no editable field of a check 'code'."),
        ({"rack": {"applies": "racks"}}, "There is no kind of equipment 'racks'. Nearest: rack."),
    ],
)
def test_an_unknown_name_is_refused_with_the_nearest(
    changes: dict[str, dict[str, object]], message: str
) -> None:
    with pytest.raises(UnknownNameError) as refused:
        edited(CATALOGUE, changes)
    assert refused.value.message.startswith(message)


def test_a_check_that_is_not_in_the_catalogue_is_named() -> None:
    with pytest.raises(
        UnknownNameError, match=r"There is no check 'condensor_coil'\. Nearest: condenser_coil\."
    ):
        check_index("condensor_coil")
