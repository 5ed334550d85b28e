"""The audit against plain ``sqlite3`` ``fetchall`` of the same columns: time and memory.

    python -m tests.bench.audit [--boxes 100000]

Prints one JSON object. The baseline runs the very statements of the audit through the bare driver.
"""

import argparse
import json
import shutil
import sqlite3
import subprocess
import sys
import tempfile
from pathlib import Path

from sqlalchemy import event

from db.columns import fetch_systems, stale_blocks
from db.driver import day_number
from db.engine import open_register, writer
from db.history import fetch_history
from fleet.audit.run import audit
from fleet.checks.catalogue import CATALOGUE
from fleet.desk.auditing import run_audit
from fleet.desk.opened import open_desk
from tests.bench.fleet import TODAY, generated_register
from tests.bench.timing import paired, seconds

TODAY_DAY = day_number(TODAY)


def statements_of_the_audit(path: Path) -> list[str]:
    """Return every SELECT that the audit sends, in order."""
    seen: list[str] = []
    engine = open_register(path)
    event.listen(engine, "before_cursor_execute", lambda c, k, sql, *rest: seen.append(sql))
    compute(path, engine)
    engine.dispose()
    return [sql for sql in seen if sql.lstrip().upper().startswith("SELECT")]


def compute(path: Path, engine: object = None) -> int:
    """Fetch, compute and compare everything; write nothing."""
    opened = engine or open_register(path)
    found = 0
    with opened.connect() as connection:  # type: ignore[attr-defined]
        for block in tuple(stale_blocks(connection, TODAY_DAY)):
            fleet = fetch_systems(connection, block)
            found += len(audit(fleet, fetch_history(connection, fleet, CATALOGUE), TODAY_DAY))
    return found


def replay(path: Path, statements: list[str]) -> None:
    """Fetch the same columns through the bare driver."""
    connection = sqlite3.connect(path)
    for sql in statements:
        connection.execute(sql).fetchall()
    connection.close()


def write(path: Path, scratch: Path) -> float:
    """Audit a fresh copy with its findings written, and return the time."""
    copy = scratch / "copy.sqlite"
    shutil.copyfile(path, copy)
    desk = open_desk(copy, today=TODAY)
    took = seconds(lambda: run_audit(desk))
    desk.close()
    copy.unlink()
    return took


def one_changed(path: Path, scratch: Path) -> dict[str, float]:
    """Return the time of a full audit and of one after a single system changed."""
    copy = scratch / "one.sqlite"
    shutil.copyfile(path, copy)
    desk = open_desk(copy, today=TODAY)
    full = seconds(lambda: run_audit(desk))
    with writer(desk.engine).begin() as connection:
        connection.exec_driver_sql("UPDATE systems SET input_version = input_version + 1 WHERE id = 77")
    one = seconds(lambda: run_audit(desk))
    desk.close()
    return {"full_s": full, "one_s": one, "share": one / full}


def extra_memory_mb(path: Path) -> float:
    """Return the peak memory of an audit over that of a process that only opened the register."""
    probe = (
        "import sys\nfrom pathlib import Path\nimport tests.bench.audit as bench\n"
        "peak=lambda: int(Path('/proc/self/status').read_text().split('VmHWM:')[1].split()[0])\n"
        "from fleet.properties import dew_pressure_pa_abs\nimport numpy as np\n"
        "dew_pressure_pa_abs(np.zeros(1,dtype=np.int16),np.array([280.0]))\n"
        "engine=bench.open_register(Path(sys.argv[1]))\nengine.connect().close()\n"
        "before=peak()\n"
        "bench.compute(Path(sys.argv[1]),engine)\n"
        "print((peak()-before)/1024)"
    )
    ran = subprocess.run([sys.executable, "-c", probe, str(path)], capture_output=True, text=True, check=True)
    return float(ran.stdout)


def main() -> None:
    """Measure and print."""
    parser = argparse.ArgumentParser()
    parser.add_argument("--boxes", type=int, default=100_000)
    parser.add_argument("--rounds", type=int, default=5)
    asked = parser.parse_args()
    path = generated_register(asked.boxes)
    statements = statements_of_the_audit(path)
    base, candidate = paired(lambda: replay(path, statements), lambda: compute(path), asked.rounds)
    with tempfile.TemporaryDirectory() as folder:
        written = min(write(path, Path(folder)) for _ in range(3))
        changed = one_changed(path, Path(folder))
    print(
        json.dumps(
            {
                "boxes": asked.boxes,
                "fetchall_s": round(base, 3),
                "audit_s": round(candidate, 3),
                "audit_ratio": round(candidate / base, 2),
                "audit_ratio_limit": 1.8,
                "written_s": round(written, 3),
                "written_ratio": round(written / base, 2),
                "written_ratio_limit": 2.4,
                "extra_memory_mb": round(extra_memory_mb(path), 1),
                "extra_memory_mb_limit": 60,
                "one_changed": {key: round(value, 4) for key, value in changed.items()},
                "one_changed_share_limit": 0.1,
            }
        )
    )


if __name__ == "__main__":
    main()
