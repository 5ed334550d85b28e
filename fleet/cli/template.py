"""``coldround template``."""

from pathlib import Path

import click

from fleet.desk.templates import make_templates


@click.command("template")
@click.argument("folder", type=click.Path(path_type=Path), metavar="DIR")
def command(folder: Path) -> None:
    """Write every CSV file into DIR, empty, with its header and one example row."""
    for path in make_templates(folder):
        click.echo(f"wrote {path}")
    click.echo(
        "An empty cell means not recorded. Replace the example rows, then: coldround import REGISTER DIR"
    )
