"""Readable tables on a terminal: plain columns, numbers to the right, nothing coloured."""

from collections.abc import Sequence

import click

from fleet.text import cell_width, clean, cut, pad

LONGEST_CELL = 60


def print_table(
    head: Sequence[str], rows: Sequence[Sequence[str]], *, right: Sequence[int] = (), last_whole: bool = False
) -> None:
    """Print a table; columns in ``right`` are aligned to the right; the last may be left whole."""
    texts = [[clean(cell) for cell in row] for row in (head, *rows)]
    widths = [min(LONGEST_CELL, max(cell_width(row[i]) for row in texts)) for i in range(len(head))]
    if last_whole:
        widths[-1] = max(cell_width(row[-1]) for row in texts)
    for row in texts:
        cells = (
            pad(cut(cell, widths[i]), widths[i], "right" if i in right else "left")
            for i, cell in enumerate(row)
        )
        click.echo("  ".join(cells).rstrip())
