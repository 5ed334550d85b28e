"""What a register holds and what is wrong in it, for a place without a screen."""

from datetime import date
from typing import Any, cast

import click

from fleet.cli import options
from fleet.cli.audit import audit_with_progress, print_findings
from fleet.desk.findings import FindingFilter
from fleet.desk.opened import open_desk
from fleet.desk.overview import overview
from fleet.units import UnitSystem


def print_overview(where: str, today: date, units: UnitSystem, *, as_json: bool) -> None:
    """Print what the register holds, then its findings, worst first."""
    desk = open_desk(where, today=today, units=units)
    audit_with_progress(desk)
    document = overview(desk)
    if as_json:
        options.print_document(document)
    else:
        holds = cast("dict[str, Any]", document["holds"])
        click.echo(f"{desk.name}, {today.isoformat()}")
        click.echo(", ".join(f"{count:,} {words}" for words, count in holds.items()))
        print_findings(desk, FindingFilter())
    desk.close()
