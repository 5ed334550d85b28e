"""The cautions that go with advice on a terminal."""

import click

from fleet.desk.cautions import CAUTIONS


def print_cautions() -> None:
    """Print the cautions that accompany advice."""
    click.echo("\nCautions")
    for caution in CAUTIONS:
        click.echo(f"  {caution}")
