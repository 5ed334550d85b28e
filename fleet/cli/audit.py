"""``coldround audit``."""

import sys
from datetime import date

import click

from fleet.cli import options
from fleet.cli.cautions import print_cautions
from fleet.cli.tables import print_table
from fleet.desk.auditing import AuditOutcome, run_audit
from fleet.desk.choosing import narrowed_to, severities
from fleet.desk.findings import FindingFilter, all_findings, finding_view
from fleet.desk.findings_document import audit_document
from fleet.desk.opened import Desk, open_desk
from fleet.desk.sentences import sentences
from fleet.units import UnitSystem

LISTED = 200


@click.command("audit")
@options.register
@click.option("--customer", metavar="TAG", help="Only this customer.")
@click.option("--site", metavar="TAG", help="Only this site.")
@click.option("--severity", metavar="WORD", help="Only act-now, next-visit, watch or note.")
@options.today
@options.units
@options.as_json
def command(
    register: str,
    customer: str | None,
    site: str | None,
    severity: str | None,
    today: date,
    units: UnitSystem,
    as_json: bool,
) -> None:
    """Findings of REGISTER: settings outside their windows, checks overdue, compressors lost."""
    desk = open_desk(register, today=today, units=units)
    narrowed = narrowed_to(desk, customer, site, severity)
    stale = audit_with_progress(desk).stopped
    if as_json:
        options.print_document({**audit_document(desk, narrowed), "stale": stale})
    else:
        print_findings(desk, narrowed)
        if stale:
            click.echo(
                f"{register} may only be read: what changed since its last audit is not in these findings.",
                err=True,
            )
    desk.close()


def audit_with_progress(desk: Desk) -> AuditOutcome:
    """Audit what changed, telling how far it is on a terminal."""
    if not sys.stderr.isatty():
        return run_audit(desk)

    def tell(done: int, of: int) -> None:
        click.echo(f"\r\x1b[KAuditing {done:,} of {of:,} systems", nl=False, err=True)

    try:
        return run_audit(desk, tell=tell)
    finally:  # what comes next, a sentence of refusal too, begins on a clean line
        click.echo("\r\x1b[K", nl=False, err=True)


def print_findings(desk: Desk, narrowed: FindingFilter) -> None:
    """Print findings as a table, worst first, with what is wrong beneath."""
    rows = all_findings(desk, narrowed)
    tally = [sum(1 for row in rows if row.severity == named.value) for named in severities()]
    counted = zip(tally, severities(), strict=True)
    click.echo(", ".join(f"{count:,} {named.label}" for count, named in counted) + "\n")
    shown = rows[:LISTED]
    views = [finding_view(row, desk) for row in shown]
    print_table(
        ["severity", "customer", "site", "system", "finding", "recorded", "", "out", "why"],
        [
            [
                view.severity_words,
                view.row.customer,
                view.row.site,
                view.system_and_part,
                view.label,
                view.figure,
                view.unit,
                view.out,
                reason,
            ]
            for view, reason in zip(views, sentences(desk, shown), strict=True)
        ],
        right=(5, 7),
        last_whole=True,
    )
    if len(rows) > LISTED:
        click.echo(f"and {len(rows) - LISTED:,} more; --json lists them all")
    print_cautions()
