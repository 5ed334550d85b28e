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
from fleet.checks.overdue import HORIZON_DAYS
from fleet.desk.catalogue import catalogue_of
from fleet.desk.opened import Desk
from fleet.errors import RegisterReadOnlyError

BLOCKS_TOGETHER = 16
"""Blocks of one transaction: a few seconds of work, less than another writer waits."""
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

    What is done when it is stopped stays. Of many systems the indexes are rebuilt at the end of a
    transaction of several blocks, which is faster than keeping them (measured), and never longer than
    another writer would wait. A register that may not be written keeps the findings it has.
    """
    with desk.engine.connect() as connection:
        blocks = tuple(stale_blocks(connection, desk.today_day))
        everything = connection.exec_driver_sql("SELECT count(*) FROM systems").scalar() or 0
    run = _Run(desk, sum(len(block) for block in blocks), everything, tell, stop)
    try:
        for start in range(0, len(blocks), BLOCKS_TOGETHER):
            run.write(blocks[start : start + BLOCKS_TOGETHER])
    except RegisterReadOnlyError:
        return AuditOutcome(0, stopped=True)
    return AuditOutcome(run.done, stopped=run.stopped)


@dataclass(slots=True)
class _Run:
    """One run of the audit, with what it has done so far."""

    desk: Desk
    stale: int
    everything: int
    tell: Tell
    stop: Stop
    done: int = 0
    stopped: bool = False

    def write(self, blocks: tuple[tuple[int, ...], ...]) -> None:
        """Audit some blocks in one transaction; when stopped, keep those that are finished."""
        if self.stopped:
            return
        with (
            writer(self.desk.engine).begin() as connection,
            rewriting(connection, self.stale, self.everything),
        ):
            for block in blocks:
                self.stopped = self.stop()
                if self.stopped:
                    break
                _audit_block(connection, block, self.desk.today_day)
                self.done += len(block)
                self.tell(self.done, self.stale)


def _audit_block(connection: Connection, block: tuple[int, ...], today_day: int) -> None:
    fleet = fetch_systems(connection, block)
    catalogue = catalogue_of(connection)
    findings = audit(fleet, fetch_history(connection, fleet, catalogue), today_day, catalogue=catalogue)
    through = today_day + HORIZON_DAYS
    store_findings(connection, block, fleet, findings, today_day=today_day, through_day=through)
