"""Auditing a register: only what changed, in blocks, and never stale overnight."""

from datetime import timedelta

import pytest

from fleet.desk.auditing import AuditOutcome, run_audit
from fleet.desk.findings import FindingFilter, all_findings, severity_counts
from fleet.desk.opened import Desk

pytestmark = pytest.mark.independent


def test_a_second_audit_has_nothing_to_do(demo: Desk) -> None:
    assert run_audit(demo) == AuditOutcome(0)


def test_one_changed_system_is_audited_alone(demo: Desk) -> None:
    with demo.engine.begin() as connection:
        connection.exec_driver_sql("UPDATE systems SET input_version = input_version + 1 WHERE id = 7")
    assert run_audit(demo) == AuditOutcome(1)


def test_a_stopped_audit_says_so_and_loses_nothing(demo: Desk) -> None:
    before = severity_counts(demo, FindingFilter())
    with demo.engine.begin() as connection:
        connection.exec_driver_sql("UPDATE systems SET input_version = input_version + 1")
    assert run_audit(demo, stop=lambda: True) == AuditOutcome(0, stopped=True)
    assert severity_counts(demo, FindingFilter()) == before
    assert run_audit(demo).systems > 100
    assert severity_counts(demo, FindingFilter()) == before


def test_a_list_looked_at_days_later_equals_an_audit_of_that_day(demo: Desk) -> None:
    demo.today += timedelta(days=13)
    looked_at = [(row.system_id, row.part, row.setting) for row in all_findings(demo, FindingFilter())]
    with demo.engine.begin() as connection:
        connection.exec_driver_sql("UPDATE systems SET input_version = input_version + 1")
    run_audit(demo)
    assert [(r.system_id, r.part, r.setting) for r in all_findings(demo, FindingFilter())] == looked_at


def test_progress_is_told_up_to_all(demo: Desk) -> None:
    with demo.engine.begin() as connection:
        connection.exec_driver_sql("UPDATE systems SET input_version = input_version + 1")
    told: list[tuple[int, int]] = []
    outcome = run_audit(demo, tell=lambda done, total: told.append((done, total)))
    assert told[-1] == (outcome.systems, outcome.systems)
