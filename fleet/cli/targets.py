"""``coldround targets``: options are the dictionary's columns that a window uses."""

from collections.abc import Mapping
from typing import Any, cast

import click

from fleet.cli import options
from fleet.cli.cautions import print_cautions
from fleet.cli.tables import print_table
from fleet.desk.documents import Document
from fleet.desk.singles import TARGET_OPTIONS, read_cells
from fleet.desk.windows import targets_document
from fleet.units import UnitSystem


def _with_options(function: options.Command) -> options.Command:
    for option in reversed(TARGET_OPTIONS):
        function = click.option(
            *option.flags, option.name, metavar=option.metavar, help=option.help, required=option.required
        )(function)
    return function


@click.command("targets")
@_with_options
@options.units
@options.as_json
def command(units: UnitSystem, as_json: bool, **typed: Any) -> None:
    """What the settings of one system should be, and why."""
    given = cast("Mapping[str, str | None]", typed)
    document = targets_document(read_cells(given), units)
    if as_json:
        options.print_document(document)
        return
    _print(document)


def _print(document: Document) -> None:
    windows = cast("list[dict[str, Any]]", document["windows"])
    rack = any(w["part"] for w in windows)
    rows = [
        [
            f"{w['setting']} {w['part']}".strip(),
            *(_figure(w[key], w["unit"]) for key in ("low", "high", "preferred", "recorded")),
            w["unit"],
            w["verdict"],
            (w["severity"] or "").replace("-", " "),
        ]
        for w in windows
        if w["verdict"] != "not-applicable" or w["recorded"] is not None or not rack
    ]
    print_table(
        ["setting", "lowest", "highest", "preferred", "recorded", "", "verdict", "severity"],
        rows,
        right=(1, 2, 3, 4),
    )
    for window in windows:
        _print_reasons(window)
    for text in cast("list[str]", document["assumed"]):
        click.echo(f"Assumed: {text}")
    print_cautions()


def _print_reasons(window: dict[str, Any]) -> None:
    lines = [window["low_reason"], window["high_reason"]]
    # What is wrong often says why in the words of the bound; nothing is told twice.
    lines = [window["reason"], *(line for line in lines if line not in window["reason"])]
    if window["ways_out"]:
        lines.append(f"Ways out: {'; '.join(window['ways_out'])}.")
    said = list(dict.fromkeys(line for line in lines if line))
    if said:
        click.echo(f"\n{window['setting']} {window['part']}".rstrip())
        for line in said:
            click.echo(f"  {line}")
        for line in window["sources"]:
            click.echo(f"  · {line}")


def _figure(value: float | None, unit: str) -> str:
    if value is None:
        return "—"
    return f"{value:.{2 if unit.startswith('bar') else 1}f}".replace("-", "−")
