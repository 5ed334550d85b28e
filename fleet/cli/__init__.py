"""The command line: every computation without a screen."""

from fleet.cli.group import ColdroundGroup

cli = ColdroundGroup(name="coldround")
"""The command; its parts are imported when they are called for."""


def main() -> None:
    """Run the command line."""
    cli.main(prog_name="coldround")
