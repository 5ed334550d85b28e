"""Text that people typed, made safe for a terminal, and cut to a number of cells.

Whatever comes out of :func:`clean` is one line without anything a terminal would obey. Brackets and
backslashes stay: they are text, and nothing here or behind it parses them.
"""

import re
import unicodedata
from collections.abc import Iterator
from functools import lru_cache
from typing import Literal

Align = Literal["left", "right", "center"]

ELLIPSIS = "…"
JOINER = "\u200d"
EMOJI_SELECTOR = "\ufe0f"
# Signs that Unicode calls "format" although they are seen.
_WIDE_FORMATS = frozenset("\u0600\u0601\u0602\u0603\u0604\u0605\u06dd\u070f\u0890\u0891\u08e2")

_BREAKS = re.compile("\r\n|[\t\n\v\f\r\x1c-\x1f\x85\u2028\u2029]")
_UNWANTED = re.compile(
    "["
    "\x00-\x1f\x7f-\x9f"  # C0, DEL and C1: NUL, ESC, and the one-character forms of escape sequences
    "\u061c\u200e\u200f\u202a-\u202e\u2066-\u2069"  # marks and overrides that reorder the line
    "\u00ad\u200b\u2060-\u2064\u206a-\u206f\u3164\ufeff\uffa0\ufff9-\ufffb"  # invisible, not needed
    "\U000e0000-\U000e007f"  # tag characters: a second, hidden text
    "\ud800-\udfff"  # half a character, which cannot be written to any terminal
    "]"
)


def clean(text: str) -> str:
    r"""Return ``text`` as one line that a terminal only prints.

    Control characters, bidirectional overrides and invisible characters go, line breaks and tabs become
    a space. The joiners of scripts (U+200C, U+200D) and combining marks stay.

    >>> clean("Dock\t4\x1b[31m [A]")
    'Dock 4[31m [A]'
    """
    if text.isascii() and text.isprintable():
        return text
    return _UNWANTED.sub("", _BREAKS.sub(" ", text))


@lru_cache(maxsize=4096)
def _character_cells(character: str) -> int:
    if unicodedata.category(character) in {"Mn", "Mc", "Me", "Cf", "Cc"} and character not in _WIDE_FORMATS:
        return 0
    if "\U0001f3fb" <= character <= "\U0001f3ff":
        return 0  # a skin tone colours the sign before it
    if "\u1160" <= character <= "\u11ff" or "\ud7b0" <= character <= "\ud7ff":
        return 0  # the later letters of a Korean syllable block stand in the cell of its first
    return 2 if unicodedata.east_asian_width(character) in {"W", "F"} else 1


def _clusters(text: str) -> Iterator[tuple[str, int]]:
    """Yield what must stay together (a letter with its marks, joined signs) and its cells."""
    cluster, cells, joined = "", 0, False
    for character in text:
        own = _character_cells(character)
        if cluster and (own == 0 or joined):
            cluster += character
            # Joined signs share the cells of the first; the selector makes a sign a picture of two cells.
            if character == EMOJI_SELECTOR and cells == 1 and _may_widen(cluster[0]):
                cells = 2
        else:
            if cluster:
                yield cluster, cells
            cluster, cells = character, own
        joined = character == JOINER
    if cluster:
        yield cluster, cells


def _may_widen(character: str) -> bool:
    return character in "#*0123456789©®‼⁉™ℹ" or unicodedata.category(character) in {"So", "Sm"}


def cell_width(text: str) -> int:
    """Return the number of terminal cells that ``text`` takes.

    >>> cell_width("Café"), cell_width("冷蔵庫")
    (4, 6)
    """
    if text.isascii():
        return len(text)
    return sum(cells for _, cells in _clusters(text))


def cut(text: str, cells: int) -> str:
    """Return ``text`` in at most ``cells`` cells; what was cut ends with ``…``.

    >>> cut("Northfield Primary School", 12)
    'Northfield …'
    """
    if cells <= 0:
        return ""
    if cell_width(text) <= cells:
        return text
    kept, used = "", 0
    for cluster, width in _clusters(text):
        if used + width > cells - 1:
            break
        kept += cluster
        used += width
    return kept + ELLIPSIS


def pad(text: str, cells: int, align: Align = "left") -> str:
    """Return ``text`` cut or filled with blanks to exactly ``cells`` cells.

    >>> pad("WC-2", 6), pad("41", 4, "right")
    ('WC-2  ', '  41')
    """
    shown = cut(text, cells)
    free = max(0, cells - cell_width(shown))
    before = {"left": 0, "right": free, "center": free // 2}[align]
    return " " * before + shown + " " * (free - before)
