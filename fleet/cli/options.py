"""Options that several commands share, and how their values are read."""

import json
from collections.abc import Callable
from datetime import date
from typing import Any

import click

from fleet.desk.documents import Document
from fleet.errors import UsageError
from fleet.units import UnitSystem

Command = Callable[..., Any]
EARLIEST_YEAR, LATEST_YEAR = 1900, 2200


def as_json(command: Command) -> Command:
    """Add ``--json``."""
    return click.option("--json", "as_json", is_flag=True, help="Print one JSON document.")(command)


def units(command: Command) -> Command:
    """Add ``--units``."""
    choice = click.Choice([system.value for system in UnitSystem])
    return click.option(
        "--units", type=choice, default="us", show_default=True, callback=_unit_system, help="Units shown."
    )(command)


def _unit_system(ctx: click.Context, param: click.Parameter, value: str) -> UnitSystem:
    return UnitSystem(value)


def today(command: Command) -> Command:
    """Add ``--today``; only here the machine is asked for the date."""
    return click.option("--today", metavar="DATE", callback=_day, help="Take this day for today.")(command)


def _day(ctx: click.Context, param: click.Parameter, value: str | None) -> date:
    return date.today() if value is None else read_day(value, "--today")


def read_day(text: str, where: str) -> date:
    """Read a day from an option; the years are those that files may hold."""
    try:
        day = date.fromisoformat(text)
    except ValueError:
        raise UsageError(f"{text!r} is no date; expected one like 2026-11-25.", where=where) from None
    if not EARLIEST_YEAR <= day.year <= LATEST_YEAR:
        raise UsageError(
            f"{text!r} is out of range; expected a date between {EARLIEST_YEAR} and {LATEST_YEAR}.",
            where=where,
        )
    return day


def by(command: Command) -> Command:
    """Add ``--by``."""
    return click.option("--by", metavar="PERSON", help="Who does this: a person of the register.")(command)


def register(command: Command) -> Command:
    """Add the argument REGISTER."""
    return click.argument("register", metavar="REGISTER")(command)


def print_document(document: Document) -> None:
    """Print one JSON document."""
    click.echo(json.dumps(document, ensure_ascii=False, allow_nan=False))
