"""The due list: preventive checks that are overdue or fall due soon, narrowed and counted."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from enum import StrEnum

import numpy as np

from db.driver import day_number
from fleet.checks.catalogue import SITE_STAFF, TECHNICIAN
from fleet.checks.months import add_months
from fleet.desk.csv_files import CsvColumn, CsvList, csv_list
from fleet.desk.due import DueCheck, due_checks
from fleet.desk.opened import Desk
from fleet.desk.paging import TupleSource
from fleet.desk.sentences import day_words
from fleet.dictionary.words import Severity

WEEK_DAYS, MONTH_DAYS = 7, 30


class DueSort(StrEnum):
    """The orders of the due list."""

    DAY = "day"
    PLACE = "place"


@dataclass(frozen=True, slots=True)
class DueLine:
    """One check that falls due, ready to be shown."""

    system_id: int
    customer: str
    customer_name: str
    site: str
    site_name: str
    system: str
    part: str
    check: str
    """The check in a few words."""
    what: str
    who: str
    minutes: int
    months: int
    skills: str
    due_from: date
    due_by: date
    overdue_days: int
    severity: int
    """As the audit has it: watch, next visit; 0 while it is not overdue."""
    last_done: date | None
    because: str


@dataclass(frozen=True, slots=True)
class DueCounts:
    """How many lines are overdue, by severity, and how many more are due by a day."""

    overdue: int
    next_visit: int
    watch: int
    week: int
    month: int
    minutes: int


@dataclass(frozen=True, slots=True)
class DueBook:
    """Everything that falls due in a period, from which lists are cut without reading the register again."""

    today: date
    weeks: int
    lines: tuple[DueLine, ...]

    def customers(self) -> list[tuple[str, str]]:
        """Return the customers that have a line: tag and name, by name."""
        found = {line.customer: line.customer_name for line in self.lines}
        return sorted(found.items(), key=lambda one: (one[1], one[0]))

    def narrowed(
        self, who: str | None = None, customer: str | None = None, sort: DueSort = DueSort.DAY
    ) -> tuple[DueLine, ...]:
        """Return the lines of one kind of person and one customer, in an order."""
        kept = (
            line
            for line in self.lines
            if (who is None or line.who == who) and (customer is None or line.customer == customer)
        )
        return tuple(kept) if sort is DueSort.DAY else tuple(sorted(kept, key=_by_place))


def _by_place(line: DueLine) -> tuple[object, ...]:
    return line.customer_name, line.site, line.system, line.part, line.due_by, line.check


def due_book(desk: Desk, weeks: int) -> DueBook:
    """Return what is overdue today or falls due within so many weeks, the earliest first."""
    found = due_checks(desk, desk.today, desk.today + timedelta(weeks=weeks))
    severities = _severities(found, desk.today)
    lines = (_line(due, severity) for due, severity in zip(found, severities, strict=True))
    return DueBook(desk.today, weeks, tuple(lines))


def _severities(found: Sequence[DueCheck], today: date) -> list[int]:
    """Return the severity of each line: next visit once a whole interval has passed since it was due."""
    due = np.array([day_number(one.due_from) for one in found], dtype=np.float64)
    by = np.array([day_number(one.due_by) for one in found], dtype=np.float64)
    late_from = np.maximum(add_months(due, [one.months for one in found]), by) + 1
    today_day = day_number(today)
    late, over = late_from <= today_day, by < today_day
    severities = np.where(late, int(Severity.NEXT_VISIT), np.where(over, int(Severity.WATCH), 0))
    return [int(severity) for severity in severities]


def _line(due: DueCheck, severity: int) -> DueLine:
    kind = due.check
    return DueLine(
        system_id=due.system_id,
        customer=due.customer,
        customer_name=due.customer_name,
        site=due.site,
        site_name=due.site_name,
        system=due.system,
        part=due.part,
        check=kind.code.replace("_", " "),
        what=kind.what,
        who=kind.who,
        minutes=due.minutes,
        months=due.months,
        skills=", ".join(kind.skills),
        due_from=due.due_from,
        due_by=due.due_by,
        overdue_days=due.overdue_days,
        severity=severity,
        last_done=due.last_done,
        because=_because(due),
    )


def _because(due: DueCheck) -> str:
    """Return why it is due then, with the day as people read it."""
    if due.last_done is None:
        return due.because
    return due.because.replace(due.last_done.isoformat(), day_words(due.last_done))


def due_counts(lines: Iterable[DueLine], today: date) -> DueCounts:
    """Count lines: overdue, due by within a week and within a month from today, minutes in all."""
    next_visit = watch = week = month = minutes = 0
    for line in lines:
        minutes += line.minutes
        next_visit += line.severity == Severity.NEXT_VISIT
        watch += line.severity == Severity.WATCH
        ahead = (line.due_by - today).days
        week += 0 <= ahead <= WEEK_DAYS
        month += 0 <= ahead <= MONTH_DAYS
    return DueCounts(next_visit + watch, next_visit, watch, week, month, minutes)


def who_choices() -> tuple[tuple[str, str], ...]:
    """Return who does checks: value and words."""
    return tuple((who, who.replace("-", " ")) for who in (TECHNICIAN, SITE_STAFF))


_CSV: tuple[CsvColumn[DueLine], ...] = (
    CsvColumn("due by", lambda line: line.due_by.isoformat()),
    CsvColumn("due from", lambda line: line.due_from.isoformat()),
    CsvColumn("days overdue", lambda line: str(line.overdue_days)),
    CsvColumn("customer", lambda line: line.customer),
    CsvColumn("customer name", lambda line: line.customer_name),
    CsvColumn("site", lambda line: line.site),
    CsvColumn("system", lambda line: line.system),
    CsvColumn("part", lambda line: line.part),
    CsvColumn("check", lambda line: line.check),
    CsvColumn("what", lambda line: line.what),
    CsvColumn("minutes", lambda line: str(line.minutes)),
    CsvColumn("who", lambda line: line.who.replace("-", " ")),
    CsvColumn("last done", lambda line: line.last_done.isoformat() if line.last_done else ""),
    CsvColumn("because", lambda line: line.because),
)


def due_csv(lines: Sequence[DueLine]) -> CsvList[DueLine]:
    """Return the due list as it is written to a file."""
    return csv_list("due checks", TupleSource(lines), _CSV)
