"""The title of a section: a name, a rule, a note at the right."""

from fleet.text import cell_width, clean, cut
from fleet.tui.themes import Spans, Token


def section_title(title: str, note: str, width: int) -> Spans:
    """Return ``Title ───── note`` in exactly ``width`` cells.

    >>> "".join(text for text, _ in section_title("Compressor lives", "last 8 years", 36))
    'Compressor lives ────── last 8 years'
    """
    title = cut(clean(title), max(0, width - 4))
    note = cut(clean(note), max(0, width - cell_width(title) - 5))
    rule = width - cell_width(title) - 1 - (cell_width(note) + 1 if note else 0)
    spans: Spans = [(title, Token.HEAD), (" ", Token.TEXT), ("─" * max(0, rule), Token.FAINT)]
    return [*spans, (" " + note, Token.DIM)] if note else spans
