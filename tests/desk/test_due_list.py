"""The due list against the due checks themselves and against what the audit found."""

from dataclasses import replace
from datetime import date, timedelta

import pytest
from sqlalchemy import select
from sqlalchemy.orm import Session

from db.models import Finding
from fleet.desk.csv_files import write_list
from fleet.desk.due import due_checks
from fleet.desk.due_list import DueBook, DueSort, due_book, due_counts, due_csv, who_choices
from fleet.desk.opened import Desk
from tests.desk.test_csv_files import read

pytestmark = pytest.mark.independent


@pytest.fixture
def book(demo: Desk) -> DueBook:
    return due_book(demo, 8)


def test_it_holds_what_falls_due_in_its_period(demo: Desk, book: DueBook) -> None:
    expected = due_checks(demo, demo.today, demo.today + timedelta(weeks=8))
    assert [(line.system_id, line.part, line.due_by) for line in book.lines] == [
        (due.system_id, due.part, due.due_by) for due in expected
    ]
    assert len(book.lines) > len(due_book(demo, 1).lines)


def test_the_overdue_come_first_and_have_the_severity_that_the_audit_gave_them(
    demo: Desk, book: DueBook
) -> None:
    late = [line.overdue_days > 0 for line in book.lines]
    assert late == sorted(late, reverse=True)
    today = demo.today_day
    with Session(demo.engine) as session:
        audited = {
            (found.system_id, found.part, found.setting.replace("_", " ")): found.severity
            for found in session.scalars(select(Finding).where(Finding.rule == "check_overdue"))
            if found.from_day <= today and (found.until_day is None or found.until_day > today)
        }
    assert {
        (line.system_id, line.part, line.check): line.severity for line in book.lines if line.severity
    } == audited
    assert audited


def test_it_is_narrowed_by_customer_and_by_who(book: DueBook) -> None:
    tags = [tag for tag, _ in book.customers()]
    parts = [book.narrowed(customer=tag) for tag in tags]
    assert sum(map(len, parts)) == len(book.lines)
    assert all({line.customer for line in part} == {tag} for tag, part in zip(tags, parts, strict=True))
    by_who = [book.narrowed(who=who) for who, _ in who_choices()]
    assert sum(map(len, by_who)) == len(book.lines)


def test_by_place_it_holds_the_same_lines(book: DueBook) -> None:
    lines = book.narrowed(sort=DueSort.PLACE)
    assert sorted(map(id, lines)) == sorted(map(id, book.lines))
    places = [(line.customer_name, line.site, line.system) for line in lines]
    assert places == sorted(places)


def test_counts(book: DueBook) -> None:
    today = date(2026, 11, 25)
    line = book.lines[0]
    lines = [
        replace(line, due_by=today + timedelta(days=ahead), severity=severity, minutes=minutes)
        for ahead, severity, minutes in [
            (-9, 2, 10),
            (-1, 3, 5),
            (0, 0, 1),
            (7, 0, 1),
            (8, 0, 1),
            (30, 0, 1),
            (31, 0, 1),
        ]
    ]
    counts = due_counts(lines, today)
    assert (counts.overdue, counts.next_visit, counts.watch) == (2, 1, 1)
    assert (counts.week, counts.month, counts.minutes) == (2, 4, 20)


def test_nothing_due_counts_to_nothing() -> None:
    counts = due_counts([], date(2026, 11, 25))
    assert (counts.overdue, counts.week, counts.month, counts.minutes) == (0, 0, 0, 0)


def test_the_file_holds_the_lines_in_their_order(
    book: DueBook, tmp_path_factory: pytest.TempPathFactory
) -> None:
    path = tmp_path_factory.mktemp("due") / "due.csv"
    lines = book.narrowed(sort=DueSort.PLACE)
    write_list(path, due_csv(lines))
    header, *rows = read(path)
    told = [dict(zip(header, row, strict=True)) for row in rows]
    assert [(row["due by"], row["system"], row["check"]) for row in told] == [
        (line.due_by.isoformat(), line.system, line.check) for line in lines
    ]
