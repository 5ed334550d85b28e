"""``coldround template``."""

from pathlib import Path

import click

from fleet.desk.templates import make_templates
from fleet.errors import UsageError


@click.command("template")
@click.argument("folder", metavar="DIR")
def command(folder: str) -> None:
    """Write every CSV file into DIR, empty, with its header and one example row."""
    if not folder.strip():
        raise UsageError("Name a folder for the files.", where="DIR")
    for path in make_templates(Path(folder)):
        click.echo(f"wrote {path}")
    click.echo(
        "An empty cell means not recorded. Replace the example rows, then: coldround import REGISTER DIR"
    )
