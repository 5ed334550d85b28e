"""Auditing a register: what changed since the last time, in blocks of whole systems, stoppable."""

from collections.abc import Callable
from dataclasses import dataclass

from sqlalchemy import Connection

from db.columns import fetch_systems, stale_blocks
from db.engine import writer
from db.finding_rows import store_findings
from db.findings import rewriting
from db.history import fetch_history
from fleet.audit.run import audit
from fleet.checks.catalogue import CATALOGUE
from fleet.checks.overdue import HORIZON_DAYS
from fleet.desk.opened import Desk
from fleet.errors import RegisterReadOnlyError

Tell = Callable[[int, int], None]
"""Told how many systems are done, of how many."""
Stop = Callable[[], bool]
"""Asked between blocks whether to stop; what is done stays."""


@dataclass(frozen=True, slots=True)
class AuditOutcome:
    """What one run of the audit did."""

    systems: int
    stopped: bool = False


def _quiet(done: int, total: int) -> None:
    """Tell nobody."""


def run_audit(desk: Desk, *, tell: Tell = _quiet, stop: Stop = lambda: False) -> AuditOutcome:
    """Audit every system whose inputs changed, or whose findings do not reach to today.

    One transaction a block, so what is done stays when it is stopped. A register that may not be
    written keeps the findings it has.
    """
    with desk.engine.connect() as connection:
        blocks = tuple(stale_blocks(connection, desk.today_day))
        everything = connection.exec_driver_sql("SELECT count(*) FROM systems").scalar() or 0
    total = sum(len(block) for block in blocks)
    try:
        return _audit_blocks(desk, blocks, total, everything, tell, stop)
    except RegisterReadOnlyError:
        return AuditOutcome(0, stopped=True)


def _audit_blocks(
    desk: Desk, blocks: tuple[tuple[int, ...], ...], total: int, everything: int, tell: Tell, stop: Stop
) -> AuditOutcome:
    done = 0
    for block in blocks:
        if stop():
            return AuditOutcome(done, stopped=True)
        with writer(desk.engine).begin() as connection, rewriting(connection, len(block), everything):
            _audit_block(connection, block, desk.today_day)
        done += len(block)
        tell(done, total)
    return AuditOutcome(done)


def _audit_block(connection: Connection, block: tuple[int, ...], today_day: int) -> None:
    fleet = fetch_systems(connection, block)
    findings = audit(fleet, fetch_history(connection, fleet, CATALOGUE), today_day)
    through = today_day + HORIZON_DAYS
    store_findings(connection, block, fleet, findings, today_day=today_day, through_day=through)
