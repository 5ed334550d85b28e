"""The command's root: imports a part only when it is called, and turns errors into sentences.

``coldround --help`` must come at once, so neither NumPy nor SQLAlchemy, Textual or CoolProp is
imported for it.
"""

import errno
import importlib
import json
import os
import sys
from collections.abc import Sequence
from typing import Any, NoReturn

import click

from fleet import __version__
from fleet.errors import ColdroundError, UsageError, nearest_names
from fleet.text import clean

PARTS: dict[str, tuple[str, str]] = {
    "demo": ("fleet.cli.demo", "Make the demo register if it is absent, and open it."),
    "saturation": ("fleet.cli.saturation", "Dew and bubble of a refrigerant at a temperature or a pressure."),
    "targets": ("fleet.cli.targets", "What the settings of one system should be, and why."),
    "audit": ("fleet.cli.audit", "Findings of a register: what lies outside, and what is overdue."),
    "checks": ("fleet.cli.checks", "Preventive checks that fall due between two days."),
    "catalogue": ("fleet.cli.catalogue", "The preventive checks of a register, and changing them."),
    "import": ("fleet.cli.imports", "Read CSV files into a register, all or nothing."),
    "template": ("fleet.cli.template", "Write every CSV file empty, with one example row."),
    "check-register": ("fleet.cli.check_register", "Integrity, schema and backups of a register."),
}
"""Every part: where it lives, and what the help says of it."""

EXIT_ERROR = 2
_OUTPUT_FAILURES = {errno.ENOSPC, errno.EIO, errno.EDQUOT}


class ColdroundGroup(click.Group):
    """A group whose parts are imported late."""

    def __init__(self, name: str) -> None:
        super().__init__(
            name,
            help="Looks after commercial refrigeration on many sites; without a command it opens a register.",
            invoke_without_command=True,
            callback=_open,
            context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100},
            params=[
                click.Option(
                    ["--register"], metavar="REGISTER", help="Open this register, not the default one."
                ),
                click.Option(["--today"], metavar="DATE", help="Take this day for today."),
                click.Option(["--by"], metavar="PERSON", help="Who is at the keyboard."),
                click.Option(
                    ["--units"], type=click.Choice(["us", "metric"]), default="us", help="Units shown."
                ),
                click.Option(
                    ["--version"], is_flag=True, is_eager=True, expose_value=False, callback=_print_version
                ),
            ],
        )

    def list_commands(self, ctx: click.Context) -> list[str]:
        """Return the names of the parts."""
        return list(PARTS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        """Import a part and return its command."""
        if cmd_name not in PARTS:
            return None
        command = importlib.import_module(PARTS[cmd_name][0]).command
        assert isinstance(command, click.Command)
        return command

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        """List the parts without importing them."""
        with formatter.section("Commands"):
            formatter.write_dl([(name, about) for name, (_, about) in PARTS.items()])

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        """Find the part, offering the nearest names where there is none."""
        if args and args[0] not in PARTS:
            near = nearest_names(args[0], PARTS)
            hint = f" Nearest: {', '.join(near)}." if near else f" Known: {', '.join(PARTS)}."
            raise UsageError(f"There is no command {args[0]!r}.{hint}")
        return super().resolve_command(ctx, args)

    def main(self, args: Sequence[str] | None = None, *rest: Any, **extra: Any) -> Any:
        """Run, and end with a sentence (or a JSON document) and exit code 2 on an error."""
        given = list(sys.argv[1:] if args is None else args)
        extra["standalone_mode"] = False
        try:
            result = super().main(given, *rest, **extra)
        except ColdroundError as error:
            _fail(error, as_json="--json" in given)
        except click.exceptions.Exit as leave:
            sys.exit(leave.exit_code)
        except click.ClickException as error:
            _fail(UsageError(error.format_message()), as_json="--json" in given)
        except (click.Abort, KeyboardInterrupt):
            click.echo("Stopped.", err=True)
            sys.exit(130)
        except OSError as error:
            if error.errno not in _OUTPUT_FAILURES:
                raise
            _drop_output()
            _fail(UsageError(f"The output cannot be written: {error.strerror}."), as_json="--json" in given)
        sys.exit(result if isinstance(result, int) else 0)


def _fail(error: ColdroundError, *, as_json: bool) -> NoReturn:
    if as_json:
        click.echo(json.dumps(error.as_document(), ensure_ascii=False), err=True)
    else:
        # A name or a cell may hold what a terminal would obey; a list of problems has several lines.
        for line in f"coldround: {error.message}".split("\n"):
            click.echo(clean(line), err=True)
    sys.exit(EXIT_ERROR)


def _drop_output() -> None:
    """Send what is still to be flushed nowhere, or the interpreter would fail once more at its end."""
    os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())


def _print_version(ctx: click.Context, param: click.Parameter, value: bool) -> None:
    if value and not ctx.resilient_parsing:
        click.echo(f"coldround {__version__}")
        ctx.exit()


def _open(**options: Any) -> None:
    ctx = click.get_current_context()
    if ctx.invoked_subcommand is None:
        importlib.import_module("fleet.cli.opening").open_default(**options)
