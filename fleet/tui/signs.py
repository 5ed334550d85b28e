"""How severities and verdicts are drawn: a shape with a token, never a colour alone."""

from fleet.tui.themes import Span, Spans, Token

SEVERITY_SIGNS: dict[int, Span] = {
    1: ("■", Token.ACT),
    2: ("◧", Token.NEXT),
    3: ("□", Token.TEXT),
    4: ("·", Token.DIM),
}
SEVERITY_WORDS = {1: "act now", 2: "next visit", 3: "watch", 4: "note"}


def severity_token(severity: int) -> Token:
    """Return the token of a severity; what is no finding reads as text."""
    return SEVERITY_SIGNS.get(severity, ("", Token.TEXT))[1]


def counts_line(counts: dict[int, int]) -> Spans:
    """Return ``■ 5 act now   ◧ 7 next visit …``, which is also the legend of the shapes."""
    spans: Spans = [(" ", Token.TEXT)]
    for severity, (shape, token) in SEVERITY_SIGNS.items():
        spans += [(f"{shape} ", token), (f"{counts.get(severity, 0):,}", Token.HEAD)]
        spans.append((f" {SEVERITY_WORDS[severity]}   ", Token.DIM))
    return spans
