"""The rows of a sheet: lines of spans, some of which are stops for the cursor."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING

from fleet.text import cell_width, clean, cut, pad
from fleet.tui.headings import section_title
from fleet.tui.themes import Spans, Token

if TYPE_CHECKING:
    from fleet.desk.derivation import Derivation

StopId = tuple[str, ...]
INDENT = 3


@dataclass(frozen=True, slots=True)
class Stop:
    """Where the cursor can stand: what Enter opens, and what a correction from here is about."""

    id: StopId
    explained: "Derivation"
    about: tuple[str, str] | None = None
    """Part and setting that a correction begins with."""


@dataclass(frozen=True, slots=True)
class SheetRow:
    """One line; a line that starts a section can be jumped to by its name."""

    spans: Spans
    stop: Stop | None = None
    section: str = ""


def wrapped(text: str, width: int) -> list[str]:
    """Return safe text in lines of at most ``width`` cells; a word longer than a line is cut.

    >>> wrapped("the low side reaches only 33.6", 16)
    ['the low side', 'reaches only', '33.6']
    """
    lines: list[str] = []
    line = ""
    for word in clean(text).split():
        wider = f"{line} {word}" if line else word
        if line and cell_width(wider) > width:
            lines.append(line)
            line = word
        else:
            line = wider
        line = cut(line, width) if cell_width(line) > width else line
    return [*lines, line] if line else lines


def title_row(title: str, note: str, width: int, section: str = "") -> SheetRow:
    """Return the title of a section, a column from either edge."""
    return SheetRow([(" ", Token.TEXT), *section_title(title, note, width - 2)], section=section or title)


def text_rows(text: str, width: int, token: Token = Token.DIM, indent: int = INDENT) -> Iterator[SheetRow]:
    """Yield plain text in as many rows as it takes."""
    for line in wrapped(text, width - indent - 1):
        yield SheetRow([(" " * indent, Token.TEXT), (line, token)])


def cells(text: str, width: int) -> str:
    """Return safe text in exactly ``width`` cells."""
    return pad(clean(text), width)


def blank() -> SheetRow:
    """Return an empty row."""
    return SheetRow([])
