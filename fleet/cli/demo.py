"""``coldround demo``."""

import sys
from datetime import date
from pathlib import Path

import click

from fleet.cli import options
from fleet.cli.opening import open_screen
from fleet.cli.overview import print_overview
from fleet.desk.demo import make_demo
from fleet.units import UnitSystem


@click.command("demo")
@click.option(
    "--at", "path", type=click.Path(path_type=Path), metavar="FILE", help="Where to keep the demo register."
)
@options.today
@options.by
@options.units
@options.as_json
def command(path: Path | None, today: date, by: str | None, units: UnitSystem, as_json: bool) -> None:
    """Make the demo register if it is absent, and open it; without a terminal, print its overview."""
    place, made = make_demo(today, path)
    if made:
        click.echo(f"Made the demo register {place}: an invented company, invented customers.", err=True)
    if not as_json and sys.stdin.isatty() and sys.stdout.isatty():
        open_screen(str(place), today=today, units=units, by=by)
    print_overview(str(place), today, units, as_json=as_json)
