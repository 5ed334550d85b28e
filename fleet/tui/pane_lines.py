"""Lines of a pane: a title, then facts with their labels."""

from collections.abc import Iterable
from datetime import date
from textwrap import wrap

from fleet.text import clean, cut, pad
from fleet.tui.signs import SEVERITY_SIGNS, SEVERITY_WORDS
from fleet.tui.themes import Spans, Token

LABEL_CELLS = 12
SAME_YEAR_DAYS = 180

Fact = tuple[str, str]


def title_lines(title: str, *below: str, width: int) -> list[Spans]:
    """Return the name of a thing, and under it where it belongs."""
    lines: list[Spans] = [[(cut(clean(title), width), Token.HEAD)]]
    return [*lines, *([(cut(clean(text), width), Token.DIM)] for text in below if text)]


def fact_lines(facts: Iterable[Fact], width: int) -> list[Spans]:
    """Return facts with their labels; one that nobody recorded says so."""
    lines: list[Spans] = []
    for label, text in facts:
        told = clean(text).strip()
        token = Token.TEXT if told else Token.DIM
        wrapped = wrap(told, max(10, width - LABEL_CELLS)) or ["not recorded"]
        for place, line in enumerate(wrapped):
            name = pad(label if place == 0 else "", LABEL_CELLS)
            lines.append([(name, Token.DIM), (line, token)])
    return lines


def found_lines(found: Iterable[int]) -> list[Spans]:
    """Return the open findings by severity, each with its shape and its word."""
    lines: list[Spans] = []
    for severity, count in enumerate(found, 1):
        if count:
            shape, token = SEVERITY_SIGNS[severity]
            words = f" {SEVERITY_WORDS[severity]}"
            lines.append([(f"{shape} ", token), (f"{count:>4,}", Token.TEXT), (words, Token.DIM)])
    return lines or [[("✓ ", Token.WIN), ("no open finding", Token.TEXT)]]


def counted(count: int, one: str, many: str = "") -> str:
    """Return a count with its word.

    >>> counted(1, "box", "boxes"), counted(2, "site")
    ('1 box', '2 sites')
    """
    return f"{count:,} {one if count == 1 else many or one + 's'}"


def day_in_list(day: date, today: date) -> str:
    """Return a day for a list: without the year while it is near, else month and year.

    >>> day_in_list(date(2026, 12, 1), date(2026, 11, 25)), day_in_list(date(2024, 5, 3), date(2026, 11, 25))
    (' 1 Dec', 'May 2024')
    """
    if abs((day - today).days) <= SAME_YEAR_DAYS:
        return f"{day.day:>2} {day:%b}"
    return f"{day:%b %Y}"


def day_words(day: date | None) -> str:
    """Return a day in full, empty where there is none."""
    return "" if day is None else f"{day.day} {day:%b %Y}"
