"""Only the checks on the list are late, counted by hand from what was done."""

from datetime import date, timedelta

import pytest
from dateutil.relativedelta import relativedelta

from fleet.dictionary.words import Severity
from seeds_demo import demo_files
from seeds_demo.checks import lines
from seeds_demo.customers import CUSTOMERS
from seeds_demo.faults import PLANTED

TOLERANCE_DAYS = {3: 18, 6: 36, 12: 73}
Late = set[tuple[str, str, str, str, str, Severity]]


def _late(today: date) -> Late:
    files = demo_files(today)
    installed = {(r["customer"], r["site"], r["system"]): r["installed"] for r in files["systems"]}
    last: dict[tuple[str, ...], str] = {}
    for row in files["checks"]:
        if row["result"] == "done":
            key = (row["customer"], row["site"], row["system"], row.get("part", ""), row["check_code"])
            last[key] = max(last.get(key, ""), row["done_on"])
    late: Late = set()
    for customer in CUSTOMERS:
        for site in customer.sites:
            for system in site.systems:
                if system.idle_days is not None:
                    continue
                where = (customer.tag, site.tag, system.tag)
                for code, part, months, _ in lines(system):
                    counted_from = date.fromisoformat(last.get((*where, part, code), installed[where]))
                    due = counted_from + relativedelta(months=months)
                    if today > due + timedelta(days=TOLERANCE_DAYS[months]):
                        over_an_interval = today > due + relativedelta(months=months)
                        severity = Severity.NEXT_VISIT if over_an_interval else Severity.WATCH
                        late.add((*where, part, code, severity))
    return late


@pytest.mark.independent
@pytest.mark.parametrize("today", [date(2027, 1, 15), date(2026, 3, 1), date(2028, 8, 31), date(2028, 2, 29)])
def test_late_checks_are_those_planted(today: date) -> None:
    planted = {
        (f.customer, f.site, f.system, f.part, f.setting, f.severity)
        for f in PLANTED
        if f.rule == "check_overdue"
    }
    assert _late(today) == planted
