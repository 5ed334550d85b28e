"""Compressor lives as lines on a common time axis: a life from its start to the death or to today."""

from collections.abc import Iterator
from datetime import date
from typing import TYPE_CHECKING

from fleet.text import cell_width, clean
from fleet.tui.sheet_rows import INDENT, SheetRow, Stop, blank, cells, text_rows, title_row
from fleet.tui.themes import Spans, Token

if TYPE_CHECKING:
    from fleet.desk.sheet import Sheet
    from fleet.desk.sheet_history import CompressorLife

LIVES = "Compressor lives"
YEARS_SHOWN = 8
NAME_CELLS = 13
REASON_CELLS = 16
DEATH, ALIVE, START, END = "╳", "▸", "├", "┤"
_LINE = "─"


def life_rows(sheet: "Sheet", width: int) -> Iterator[SheetRow]:
    """Yield one row a compressor and the years under them."""
    dated = [life.start for life in sheet.lives if life.start is not None]
    first = max(min(dated, default=sheet.today).year, sheet.today.year - YEARS_SHOWN + 1)
    years = sheet.today.year - first + 1
    note = "this year" if years == 1 else f"last {years} years"
    yield title_row(LIVES, note if dated else "", width)
    if not sheet.lives:
        yield from text_rows("No compressor is recorded.", width)
    names = max((cell_width(clean(life.name)) + 2 for life in sheet.lives), default=0)
    name_cells = max(NAME_CELLS, min(24, names))
    span = TimeSpan(date(first, 1, 1), sheet.today, width - INDENT - name_cells - REASON_CELLS - 1)
    for number, life in enumerate(sheet.lives):
        name: Spans = [(" " * INDENT + cells(life.name, name_cells), Token.TEXT)]
        reason = ("  " + cells(life.reason, REASON_CELLS - 2), Token.TEXT if life.died else Token.DIM)
        stop = Stop(("life", str(number)), life.explained)
        yield SheetRow([*name, *life_line(life, span), reason], stop)
    if sheet.lives and dated:
        lead = " " * INDENT + cells("year", name_cells)
        yield SheetRow([(lead, Token.DIM), (year_labels(span), Token.DIM)])
    yield blank()


class TimeSpan:
    """Days on a number of cells."""

    def __init__(self, first: date, last: date, width: int) -> None:
        self.first, self.last, self.width = first, last, max(8, width)

    def cell(self, day: date) -> int:
        """Return the cell of a day, the nearest end for one outside."""
        days = max(1, (self.last - self.first).days)
        share = (day - self.first).days / days
        return min(self.width - 1, max(0, round(share * (self.width - 1))))


def life_line(life: "CompressorLife", span: TimeSpan) -> Spans:
    """Return one life in exactly as many cells as the span has."""
    if life.start is None and life.end is None:
        return [(cells("no dates recorded", span.width), Token.DIM)]
    early = life.start is None or life.start < span.first
    start = 0 if life.start is None else span.cell(life.start)
    end = span.width - 1 if life.end is None else max(span.cell(life.end), start)
    if life.end is not None and life.end < span.first:
        return [(cells("before", span.width), Token.DIM)]
    head = _LINE if early else START
    tail, token = (ALIVE, Token.TEXT) if life.end is None else (END, Token.TEXT)
    if life.died:
        tail, token = DEATH, Token.NEXT
    body = (head + _LINE * (end - start - 1)) if end > start else ""
    return [
        (" " * start, Token.TEXT),
        (body, Token.TEXT),
        (tail, token),
        (" " * (span.width - end - 1), Token.TEXT),
    ]


def year_labels(span: TimeSpan) -> str:
    """Return the years, each where it begins; those that would touch are left out."""
    text = ""
    for year in range(span.first.year, span.last.year + 1):
        start = span.cell(date(year, 1, 1))
        if start + 4 <= span.width and (not text or start >= len(text) + 1):
            text += " " * (start - len(text)) + str(year)
    return text
