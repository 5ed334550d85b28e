"""``coldround catalogue``: the checks of a register, and changing them."""

from datetime import date
from typing import Any, cast

import click

from fleet.cli import options
from fleet.cli.tables import print_table
from fleet.desk.catalogue import catalogue_document, change_check
from fleet.desk.opened import open_desk
from fleet.errors import UsageError


@click.command("catalogue")
@options.register
@click.option(
    "--set",
    "changes",
    multiple=True,
    metavar="CHECK.FIELD=VALUE",
    help="Change a field of a check, like condenser_coil.months=4; may be repeated.",
)
@options.today
@options.by
@options.as_json
def command(register: str, changes: tuple[str, ...], today: date, by: str | None, as_json: bool) -> None:
    """The preventive checks of REGISTER with intervals and minutes, and changing them."""
    desk = open_desk(register, today=today, by=by, read_only=not changes)
    for code, typed in _by_check(changes).items():
        change_check(desk, code, typed)
    document = catalogue_document(desk)
    desk.close()
    if as_json:
        options.print_document(document)
        return
    checks = cast("list[dict[str, Any]]", document["checks"])
    rows = [
        [
            one["check"],
            str(one["months"]),
            "; ".join(
                f"{name} {one[key]}"
                for name, key in (
                    ("self-contained", "months_self_contained"),
                    ("display case", "months_display_case"),
                    ("freezer", "months_freezer"),
                )
                if one[key]
            ),
            str(one["minutes"]),
            one["who"],
            one["applies"].replace("-", " "),
            ", ".join(one["changed"]),
        ]
        for one in checks
    ]
    print_table(["check", "months", "but", "min", "who", "applies to", "changed"], rows, right=(1, 3))
    click.echo("Intervals and minutes are judgement and common practice; the maker's manual prevails.")


def _by_check(changes: tuple[str, ...]) -> dict[str, dict[str, str]]:
    found: dict[str, dict[str, str]] = {}
    for change in changes:
        name, equals, value = change.partition("=")
        code, dot, field = name.partition(".")
        if not equals or not dot:
            raise UsageError(
                f"{change!r} is no change; expected one like condenser_coil.months=4.", where="--set"
            )
        found.setdefault(code.strip(), {})[field.strip()] = value.strip()
    return found
