"""The meanings that a piece of text can have on screen, and how each looks in any theme.

A drawing function returns *spans*, pairs of a text and a :class:`Token`; it never names a colour. The
one place where a token becomes a style is :func:`token_style`: colours, NO_COLOR and themes that leave
the colours to the terminal (``ansi-*``) are decided there and nowhere else.
"""

from collections.abc import Iterable, Mapping
from enum import StrEnum
from functools import lru_cache
from typing import TYPE_CHECKING, Any
from weakref import WeakKeyDictionary

from rich.segment import Segment
from rich.style import Style as RichStyle
from textual.color import Color
from textual.content import Content
from textual.strip import Strip
from textual.style import Style
from textual.theme import Theme

from fleet.text import clean

if TYPE_CHECKING:
    from textual.app import App


class Token(StrEnum):
    """One meaning each; the ``*_IN`` ones stand on the tint of the window."""

    TEXT = "text"
    HEAD = "head"
    DIM = "dim"
    FAINT = "faint"
    HERE = "here"
    WIN = "win"
    ACT = "act"
    NEXT = "next"
    WIN_IN = "win in"
    TEXT_IN = "text in"
    DIM_IN = "dim in"
    ACT_IN = "act in"
    NEXT_IN = "next in"

    @property
    def inside(self) -> "Token":
        """The same meaning on the tint of the window."""
        return _INSIDE.get(self, self)


_INSIDE = {
    Token.TEXT: Token.TEXT_IN,
    Token.HEAD: Token.TEXT_IN,
    Token.DIM: Token.DIM_IN,
    Token.WIN: Token.WIN_IN,
    Token.ACT: Token.ACT_IN,
    Token.NEXT: Token.NEXT_IN,
}
_OUTSIDE = {inside: token for token, inside in _INSIDE.items() if token is not Token.HEAD}
# Under the cursor the quiet meanings are raised by one step, or they would sink into the tint of the row.
_RAISED = {Token.DIM: Token.TEXT, Token.DIM_IN: Token.TEXT_IN, Token.FAINT: Token.DIM}

Span = tuple[str, Token]
Spans = list[Span]

_OWN = {
    "coldround-dark": {
        "primary": "#7CC4E8",
        "success": "#8BC3A3",
        "warning": "#E3B45C",
        "error": "#F0806E",
        "foreground": "#D8E0E4",
        "background": "#11171B",
        "surface": "#172026",
        "panel": "#202C33",
    },
    "coldround-light": {
        "primary": "#1B6A94",
        "success": "#2F7350",
        "warning": "#8A5A00",
        "error": "#B23427",
        "foreground": "#20282C",
        "background": "#F8F7F3",
        "surface": "#EFEEE8",
        "panel": "#E3E7E8",
    },
}
DARK, LIGHT = _OWN


def own_themes() -> tuple[Theme, Theme]:
    """Return the dark and the light theme; text in a hue has exactly the hue of the theme."""
    dark, light = (_own_theme(name) for name in _OWN)
    return dark, light


def _own_theme(name: str) -> Theme:
    colours = _OWN[name]
    hues = ("primary", "success", "warning", "error")
    variables = {f"text-{hue}": colours[hue] for hue in hues}
    variables |= {"text-secondary": colours["primary"], "text-accent": colours["primary"]}
    variables |= {"footer-key-foreground": colours["primary"], "footer-background": colours["background"]}
    bar = Color.parse(colours["background"]).blend(Color.parse(colours["foreground"]), 0.6).hex
    variables |= {"scrollbar": bar, "scrollbar-hover": colours["primary"]}
    variables |= {f"scrollbar-{part}": colours["background"] for part in ("background", "corner-color")}
    return Theme(
        name=name,
        primary=colours["primary"],
        secondary=colours["primary"],
        accent=colours["primary"],
        success=colours["success"],
        warning=colours["warning"],
        error=colours["error"],
        foreground=colours["foreground"],
        background=colours["background"],
        surface=colours["surface"],
        panel=colours["panel"],
        dark=name == DARK,
        variables=variables,
    )


@lru_cache(maxsize=64)
def _colour(text: str, alpha: float = 1.0) -> Color:
    colour = Color.parse(text)
    return colour if alpha >= 1 or colour.ansi is not None else colour.with_alpha(alpha)


class TokenStyles:
    """The styles of all tokens in one theme.

    ``variables`` are the theme's variables, by name without the dollar sign. In an ``ansi`` theme there
    are no tints, because a mixed colour cannot be had there and turns solid; brackets, the cursor sign
    and bold carry the meaning. Without colour, red would come out darker than plain text, so what
    matters most is bold text instead.
    """

    def __init__(self, variables: Mapping[str, str], *, ansi: bool = False, no_color: bool = False) -> None:
        self._variables = dict(variables)
        self.ansi = ansi
        self.no_color = no_color
        self.background = Style(background=self._parse("background"), foreground=self._parse("foreground"))
        self.row_tint = Style() if ansi else Style(background=self._parse("foreground", 0.09))
        self._plain = {token: self._style_of(token) for token in Token}

    def _parse(self, variable: str, alpha: float = 1.0) -> Color:
        return _colour(self._variables[variable], alpha)

    def style(self, token: Token, *, row: bool = False) -> Style:
        """Return the style of a token, over the row under the cursor if ``row``."""
        return self._plain[_RAISED.get(token, token) if row else token]

    def over(self, token: Token, *, row: bool = False, ground: Color | None = None) -> Style:
        """Return the style with its background (that of the screen, or ``ground``), ready for cells."""
        base = self.background if ground is None else self.background + Style(background=ground)
        # The window keeps its own tint under the cursor: both tints together would swallow what is on them.
        if row and token not in _OUTSIDE:
            base += self.row_tint
        return base + self.style(token, row=row)

    def _style_of(self, token: Token) -> Style:
        outside = _OUTSIDE.get(token)
        if outside is None:
            return self._bare(token)
        tint = Style() if self.ansi else Style(background=self._parse("success", 0.16))
        return tint + self._bare(outside)

    def _bare(self, token: Token) -> Style:
        if token in {Token.DIM, Token.FAINT}:
            return self._quiet(0.74 if token is Token.DIM else 0.30)
        if token is Token.WIN and self.no_color:
            return self._quiet(0.75)
        if token is Token.HEAD or (self.no_color and token in {Token.HERE, Token.ACT}):
            return Style(foreground=self._parse("foreground"), bold=True)
        if token is Token.TEXT or self.no_color:
            return Style(foreground=self._parse("foreground"))
        hue = {Token.HERE: "primary", Token.WIN: "success", Token.ACT: "error", Token.NEXT: "warning"}[token]
        return Style(foreground=self._parse(f"text-{hue}"), bold=True if token is Token.ACT else None)

    def _quiet(self, alpha: float) -> Style:
        if self.ansi:
            return Style(foreground=self._parse("foreground"), dim=True)
        return Style(foreground=self._parse("foreground", alpha))


_shown: "WeakKeyDictionary[App[Any], tuple[Mapping[str, str], TokenStyles]]" = WeakKeyDictionary()


def styles_for(app: "App[Any]") -> TokenStyles:
    """Return the styles of the theme that ``app`` shows now."""
    variables, flags = app.theme_variables, (app.native_ansi_color, app.no_color)
    known = _shown.get(app)
    if known and known[0] is variables and (known[1].ansi, known[1].no_color) == flags:
        return known[1]
    styles = TokenStyles(variables, ansi=flags[0], no_color=flags[1])
    _shown[app] = (variables, styles)
    return styles


def to_content(spans: Iterable[Span], styles: TokenStyles, *, row: bool = False) -> Content:
    """Return spans as content for any widget; the text in them is never read as markup."""
    return Content.assemble(*((clean(text), styles.style(token, row=row)) for text, token in spans))


def lines_to_content(lines: Iterable[Iterable[Span]], styles: TokenStyles) -> Content:
    """Return several lines of spans as one content."""
    return Content("\n").join([to_content(line, styles) for line in lines])


def to_strip(
    spans: Iterable[Span], width: int, styles: TokenStyles, *, row: bool = False, ground: Color | None = None
) -> Strip:
    """Return spans as one line of exactly ``width`` cells."""

    def rich(token: Token) -> RichStyle:
        return styles.over(token, row=row, ground=ground).rich_style

    segments = [Segment(clean(text), rich(token)) for text, token in spans if text]
    return Strip(segments).adjust_cell_length(max(0, width), rich(Token.TEXT))
