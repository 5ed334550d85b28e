"""The pane beside the list of findings: what is wrong with the one under the cursor."""

from textwrap import wrap
from typing import TYPE_CHECKING

from fleet.text import clean, cut, pad
from fleet.tui.signs import SEVERITY_SIGNS
from fleet.tui.themes import Spans, Token

if TYPE_CHECKING:
    from fleet.desk.detail import FindingDetail

LABEL_CELLS = 9


def pane_lines(detail: "FindingDetail", width: int) -> list[Spans]:
    """Return the pane's lines in ``width`` cells."""
    view = detail.view
    shape, token = SEVERITY_SIGNS[view.severity]
    seen = view.row.first_seen
    since = "" if seen is None else f"first seen {seen.day} {seen:%b %Y}"
    head = f"{shape} {view.severity_words}"
    lines: list[Spans] = [[(head, token), (pad(since, width - len(head), "right"), Token.DIM)]]
    lines.append([(cut(clean(detail.title), width), Token.HEAD)])
    lines.append([(cut(clean(f"{view.site_name}  {view.system_and_part}"), width), Token.TEXT)])
    lines += [[(cut(clean(fact), width), Token.DIM)] for fact in detail.facts]
    lines.append([])
    for label, text, shade in (
        ("Found", detail.found, Token.TEXT),
        ("Window", detail.window, Token.WIN),
        ("Set", detail.preferred, Token.TEXT),
        ("Settles", detail.settles and f"{detail.settles} too", Token.TEXT),
        ("Left by", detail.left_by, Token.TEXT),
    ):
        lines += _labelled(label, text, shade, width)
    lines.append([])
    lines += [[(line, Token.TEXT)] for line in wrap(clean(detail.why), width)]
    if detail.others:
        lines += [[], [(f"Also on {clean(view.row.system)}", Token.DIM)]]
        for other in detail.others:
            sign, shade = SEVERITY_SIGNS[other.severity]
            said = f"{other.label} {other.row.part} {other.figure} {other.unit}".split()
            lines.append([(f"{sign} ", shade), (cut(clean(" ".join(said)), width - 2), Token.TEXT)])
    if detail.others_more:
        lines.append([(f"  and {detail.others_more} more", Token.DIM)])
    return lines


def _labelled(label: str, text: str, token: Token, width: int) -> list[Spans]:
    if not text:
        return []
    texts = wrap(clean(text), max(10, width - LABEL_CELLS))
    first: Spans = [(pad(label, LABEL_CELLS), Token.DIM), (texts[0], token)]
    return [first, *([(" " * LABEL_CELLS, Token.DIM), (line, token)] for line in texts[1:])]
