"""The catalogue of checks can be changed by a company, and everything follows."""

from datetime import date

import pytest
from sqlalchemy import select

from db.models import Act
from fleet.desk.auditing import run_audit
from fleet.desk.catalogue import WHAT, catalogue_document, change_check
from fleet.desk.due import due_checks
from fleet.desk.findings import FindingFilter, all_findings
from fleet.desk.opened import Desk
from fleet.errors import InputError, UnknownNameError
from tests.cli.running import refused, run

pytestmark = pytest.mark.independent


def overdue(desk: Desk) -> set[tuple[int, str, str]]:
    rows = all_findings(desk, FindingFilter(rule="check_overdue"))
    return {(row.system_id, row.part, row.setting) for row in rows}


def test_a_longer_interval_settles_what_was_overdue_and_the_old_one_brings_it_back(demo: Desk) -> None:
    before = overdue(demo)
    coils = {key for key in before if key[2] == "condenser_coil"}
    assert coils
    change_check(demo, "condenser_coil", {"months": "24", "months_self_contained": "24"})
    run_audit(demo)
    assert overdue(demo) == before - coils
    change_check(demo, "condenser_coil", {"months": "6", "months_self_contained": "3"})
    run_audit(demo)
    assert overdue(demo) == before


def test_due_days_follow_the_changed_interval(demo: Desk) -> None:
    period = (demo.today, date(2029, 12, 31))
    before = {(d.system_id, d.part): d for d in due_checks(demo, *period) if d.check.code == "rack"}
    change_check(demo, "rack", {"months": "1"})
    after = {(d.system_id, d.part): d for d in due_checks(demo, *period) if d.check.code == "rack"}
    assert set(before) == set(after)
    assert all(after[key].due_from < before[key].due_from for key in before)
    assert all(line.months == 1 for line in after.values())


def test_a_change_is_an_act_and_is_told(demo: Desk) -> None:
    change_check(demo, "rack", {"minutes": "75", "skills": "rack;refrigerant;electrical"})
    with demo.engine.connect() as connection:
        assert WHAT in connection.execute(select(Act.what)).scalars().all()
    told = {one["check"]: one for one in catalogue_document(demo)["checks"]}  # type: ignore[union-attr,call-overload,index]
    assert told["rack"]["changed"] == ["minutes", "skills"]  # type: ignore[index,call-overload]


@pytest.mark.parametrize(
    ("code", "field", "text", "sentence"),
    [
        ("rack", "months", "0", "expected a whole number of months from 1"),
        ("rack", "months", "soon", "'soon' is not accepted; expected a whole number."),
        ("rack", "season", "spring", "expected one of: (empty), summer, winter"),
    ],
)
def test_what_cannot_be_meant_is_refused_and_nothing_changes(
    demo: Desk, code: str, field: str, text: str, sentence: str
) -> None:
    before = catalogue_document(demo)
    with pytest.raises(InputError) as refusal:
        change_check(demo, code, {field: text})
    assert sentence in refusal.value.message
    assert catalogue_document(demo) == before


def test_unknown_checks_and_fields_are_answered_with_the_nearest(demo: Desk) -> None:
    with pytest.raises(UnknownNameError, match="condenser_coil"):
        change_check(demo, "condenser_coils", {"months": "4"})
    with pytest.raises(UnknownNameError, match="months"):
        change_check(demo, "rack", {"month": "4"})


def test_the_command_changes_and_tells(demo: Desk) -> None:
    where = str(demo.where)
    document = run("catalogue", where, "--set", "leak_search.months=3", "--set", "leak_search.minutes=20")
    told = next(one for one in document["checks"] if one["check"] == "leak_search")
    assert (told["months"], told["minutes"], told["changed"]) == (3, 20, ["months", "minutes"])
    error = refused("catalogue", where, "--set", "leak_search")
    assert error["message"] == "'leak_search' is no change; expected one like condenser_coil.months=4."
