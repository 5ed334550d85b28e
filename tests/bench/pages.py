"""A page of 50 findings out of 300,000, with two filters against without: ``python -m tests.bench.pages``.

Prints one JSON object. The findings of a generated register are copied under other settings until there
are enough; the indexes are the register's own.
"""

import argparse
import json
import shutil
import statistics
import tempfile
from pathlib import Path

from sqlalchemy import Connection

from db.engine import writer
from db.findings import FINDING_FIELDS
from db.pages import FindingFilter, FindingSort, page
from fleet.desk.auditing import run_audit
from fleet.desk.opened import Desk, open_desk
from tests.bench.fleet import TODAY, generated_register
from tests.bench.timing import seconds

PAGE = 50


def many_findings(desk: Desk, wanted: int) -> int:
    """Copy findings under other settings until there are ``wanted``; return how many there are."""
    others = ", ".join(name for name in FINDING_FIELDS if name != "setting")
    with writer(desk.engine).begin() as connection:
        connection.exec_driver_sql(
            "UPDATE findings SET from_day = 0, until_day = NULL WHERE rule <> 'check_overdue'"
        )
        copy, have = 0, _count(connection)
        while have < wanted:
            copy += 1
            connection.exec_driver_sql(
                f"INSERT OR IGNORE INTO findings (setting, {others}) "
                f"SELECT setting || ' copy {copy}', {others} FROM findings "
                f"WHERE setting NOT LIKE '% copy %' LIMIT {wanted - have}"
            )
            have = _count(connection)
    return have


def _count(connection: Connection) -> int:
    return int(connection.exec_driver_sql("SELECT count(*) FROM findings").scalar() or 0)


def filters(desk: Desk) -> dict[str, FindingFilter]:
    """Return pairs of filters, each with something to find."""
    with desk.engine.connect() as connection:
        row = connection.exec_driver_sql(
            "SELECT customer_id, site_id, rule, refrigerant, strategy FROM findings WHERE severity = 2 "
            "AND refrigerant IS NOT NULL AND strategy IS NOT NULL ORDER BY far LIMIT 1 OFFSET 20"
        ).one()
    customer, site, rule, refrigerant, strategy = row
    return {
        "customer and severity": FindingFilter(customer_id=customer, severity=2),
        "site and severity": FindingFilter(site_id=site, severity=2),
        "rule and severity": FindingFilter(rule=rule, severity=2),
        "refrigerant and strategy": FindingFilter(refrigerant=refrigerant, strategy=strategy),
        "customer and rule": FindingFilter(customer_id=customer, rule=rule),
        "refrigerant and severity": FindingFilter(refrigerant=refrigerant, severity=2),
        "strategy and rule": FindingFilter(strategy=strategy, rule=rule),
    }


def page_seconds(desk: Desk, narrowed: FindingFilter, sort: FindingSort = FindingSort.WORST) -> float:
    """Return the median time of the first page."""
    with desk.engine.connect() as connection:
        return statistics.median(
            seconds(lambda: page(connection, narrowed, sort, desk.today_day, limit=PAGE)) for _ in range(15)
        )


def main() -> None:
    """Measure and print."""
    parser = argparse.ArgumentParser()
    parser.add_argument("--boxes", type=int, default=100_000)
    parser.add_argument("--findings", type=int, default=300_000)
    asked = parser.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        copy = Path(folder) / "register.sqlite"
        shutil.copyfile(generated_register(asked.boxes), copy)
        desk = open_desk(copy, today=TODAY)
        run_audit(desk)
        have = many_findings(desk, asked.findings)
        without = page_seconds(desk, FindingFilter())
        ratios = {name: round(page_seconds(desk, one) / without, 2) for name, one in filters(desk).items()}
        desk.close()
    print(
        json.dumps(
            {
                "findings": have,
                "page_ms": round(1e3 * without, 3),
                "ratio": ratios,
                "worst": max(ratios.values()),
                "limit": 5,
            }
        )
    )


if __name__ == "__main__":
    main()
