"""``coldround check-register``."""

import click

from fleet.cli import options
from fleet.desk.health import register_health


@click.command("check-register")
@options.register
@options.as_json
def command(register: str, as_json: bool) -> None:
    """Integrity, schema and backups of REGISTER; nothing is changed."""
    health = register_health(register)
    if as_json:
        options.print_document(health.document)
    else:
        for line in health.lines:
            click.echo(line)
    raise click.exceptions.Exit(0 if health.sound else 2)
