"""``coldround checks``."""

from datetime import date, timedelta

import click

from fleet.cli import options
from fleet.cli.tables import print_table
from fleet.desk.due import checks_document, due_checks
from fleet.desk.opened import open_desk

USUAL_DAYS = 90


@click.command("checks")
@options.register
@click.option("--from", "start", metavar="DATE", help="First day; today unless given.")
@click.option("--to", "end", metavar="DATE", help="Last day; 90 days on unless given.")
@options.today
@options.as_json
def command(register: str, start: str | None, end: str | None, today: date, as_json: bool) -> None:
    """Preventive checks of REGISTER that fall due between two days, and those overdue."""
    first = options.read_day(start, "--from") if start is not None else today
    last = options.read_day(end, "--to") if end is not None else first + timedelta(days=USUAL_DAYS)
    desk = open_desk(register, today=today, read_only=True)
    due = due_checks(desk, first, last)
    desk.close()
    if as_json:
        options.print_document(checks_document(due, first, last))
        return
    rows = [
        [
            line.due_by.isoformat(),
            f"{line.overdue_days} d late" if line.overdue_days else "",
            line.customer,
            line.site,
            f"{line.system} {line.part}".strip(),
            line.check.code.replace("_", " "),
            str(line.minutes),
            line.because,
        ]
        for line in due
    ]
    head = ["due by", "", "customer", "site", "system", "check", "min", "because"]
    print_table(head, rows, right=(6,))
    click.echo(f"{len(due):,} checks, {sum(line.minutes for line in due):,} minutes of work")
