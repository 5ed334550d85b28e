"""``coldround import``."""

import sys
from collections.abc import Callable
from datetime import date
from pathlib import Path

import click

from fleet.cli import options
from fleet.cli.tables import print_table
from fleet.desk.importing import Result, Step, import_document, import_files, silent

LISTED = 40


@click.command("import")
@options.register
@click.argument("files", nargs=-1, required=True, type=click.Path(path_type=Path), metavar="FILE...")
@click.option("--dry-run", is_flag=True, help="Show what would change; write nothing.")
@options.today
@options.by
@options.as_json
def command(
    register: str, files: tuple[Path, ...], dry_run: bool, today: date, by: str | None, as_json: bool
) -> None:
    """Read CSV files (or folders of them) into REGISTER, all or nothing; makes it if it is absent."""
    tell = silent if as_json or not sys.stderr.isatty() else _teller()
    try:
        result = import_files(register, files, today=today, by=by, dry_run=dry_run, progress=tell)
    finally:  # what comes next, a sentence of refusal too, begins on a clean line
        if tell is not silent:
            click.echo("\r\x1b[K", nl=False, err=True)
    if as_json:
        options.print_document(import_document(result))
    else:
        _print(register, result, dry_run=dry_run)


def _teller() -> Callable[[Step], None]:
    def tell(step: Step) -> None:
        share = "" if not step.total else f" {100 * step.done // step.total} %"
        click.echo(f"\r\x1b[K{step.stage}: {step.rows:,} rows{share}", nl=False, err=True)

    return tell


def _print(register: str, result: Result, *, dry_run: bool) -> None:
    rows = [[name, f"{c.new:,}", f"{c.changed:,}", f"{c.unchanged:,}"] for name, c in result.counts.items()]
    print_table(["file", "new", "changed", "unchanged"], rows, right=(1, 2, 3))
    for difference in result.differences[:LISTED]:
        where = " ".join(str(part) for part in difference.key)
        before, after = difference.before or "not recorded", difference.after or "not recorded"
        click.echo(f"  {difference.table} {where}: {difference.column} {before} → {after}")
    if len(result.differences) > LISTED:
        click.echo(f"  and {len(result.differences) - LISTED:,} more; --json lists them")
    if dry_run:
        click.echo("Nothing was written: this was a dry run.")
    elif result.written:
        click.echo(f"Imported into {register}.")
    else:
        click.echo(f"{register} holds all of this already; nothing was changed.")
