"""The demo register: every planted fault is found, and nothing else."""

from datetime import date
from pathlib import Path

import pytest

from fleet.audit.rules import RULE_CODES
from fleet.desk.demo import make_demo
from fleet.desk.findings import FindingFilter, all_findings
from fleet.desk.opened import Desk, open_desk
from fleet.targets.table import TARGETS
from seeds_demo.faults import PLANTED

pytestmark = pytest.mark.independent  # the planted list is written by hand, not by the audit

Found = dict[tuple[str, str, str, str, str, str], tuple[int, str]]


def found_in(desk: Desk) -> Found:
    rows = all_findings(desk, FindingFilter())
    return {
        (row.customer, row.site, row.system, row.part, row.rule, row.setting): (row.severity, row.verdict)
        for row in rows
    }


def planted() -> Found:
    return {
        (one.customer, one.site, one.system, one.part, one.rule, one.setting): (
            int(one.severity),
            one.verdict.value,
        )
        for one in PLANTED
    }


def test_every_planted_fault_is_found_with_its_severity_and_nothing_else_is(demo: Desk) -> None:
    assert found_in(demo) == planted()


@pytest.mark.parametrize("today", [date(2027, 3, 1), date(2028, 2, 29), date(2026, 7, 4)])
def test_the_demo_looks_the_same_whenever_it_is_made(today: date, tmp_path: Path) -> None:
    path, _ = make_demo(today, tmp_path / "demo.sqlite")
    desk = open_desk(path, today=today)
    assert found_in(desk) == planted()
    desk.close()


def test_every_rule_and_every_judged_setting_has_a_planted_fault() -> None:
    judged = {target.code for target in TARGETS if target.constraints}
    assert judged <= {one.setting for one in PLANTED if one.rule == "low_pressure_window"}
    assert set(RULE_CODES) == {one.rule for one in PLANTED}


def test_the_demo_is_made_once(demo: Desk) -> None:
    path = Path(str(demo.where))
    before = path.read_bytes()
    assert make_demo(demo.today, path) == (path, False)
    assert path.read_bytes() == before
