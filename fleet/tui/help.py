"""Help over any screen: the page of the handbook, then the keys that work there."""

from collections.abc import Iterable, Sequence
from typing import Any, ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.content import Content
from textual.screen import ModalScreen, Screen
from textual.widget import Widget

from fleet.text import cell_width, clean
from fleet.tui.headings import section_title
from fleet.tui.scrolling import KeyScroll
from fleet.tui.themes import Spans, Token, lines_to_content, styles_for

_NAMES = {
    "enter": "Enter",
    "escape": "Esc",
    "tab": "Tab",
    "space": "Space",
    "backspace": "Backspace",
    "delete": "Del",
    "pageup": "PgUp",
    "pagedown": "PgDn",
    "home": "Home",
    "end": "End",
    "up": "↑",
    "down": "↓",
    "left": "←",
    "right": "→",
    "question_mark": "?",
    "slash": "/",
}
_MODIFIERS = {"ctrl": "Ctrl", "shift": "Shift", "alt": "Alt"}
KEY_CELLS = 12

KeyLine = tuple[str, str]


def key_name(key: str) -> str:
    """Return the name of a key as it is written on it.

    >>> key_name("ctrl+s"), key_name("f1"), key_name("escape"), key_name("c")
    ('Ctrl+S', 'F1', 'Esc', 'c')
    """
    *modifiers, last = key.split("+")
    name = _NAMES.get(last, last)
    if last[:1] == "f" and last[1:].isdigit():
        name = last.upper()
    if modifiers and len(name) == 1:
        name = name.upper()
    return "+".join([*(_MODIFIERS.get(modifier, modifier) for modifier in modifiers), name])


def active_keys(screen: Screen[Any]) -> list[KeyLine]:
    """Return the keys that work on a screen now and what each does, those of the footer first.

    Keys that do the same stand together.
    """
    shown: dict[str, list[str]] = {}
    hidden: dict[str, list[str]] = {}
    for active in screen.active_bindings.values():
        what = active.tooltip or active.binding.description
        told = what and active.enabled and not active.binding.system
        if not told or active.binding.key.startswith("super+"):
            continue
        lines = shown if active.binding.show else hidden
        (shown if what in shown else lines).setdefault(what, []).append(key_name(active.binding.key))
    return [("  ".join(keys), what) for lines in (shown, hidden) for what, keys in lines.items()]


def page_lines(page: str, width: int) -> list[Spans]:
    """Return a page as lines: ``#`` is a heading, ``-`` starts a list item, indented text stays as it is.

    Nothing else is interpreted: no links, no markup.
    """
    lines: list[Spans] = []
    paragraph: list[str] = []

    def finish() -> None:
        if paragraph:
            text = " ".join(paragraph)
            indent = "  " if text.startswith("- ") else ""
            lines.extend([(line, Token.TEXT)] for line in _wrapped(text, width, indent))
            paragraph.clear()

    for raw in page.splitlines():
        line = clean(raw.rstrip())
        heading = line.lstrip("#")
        if not line or line.startswith(("    ", "#", "- ")):
            finish()
        if not line:
            lines.append([])
        elif line.startswith("#"):
            lines.append([(heading.strip(), Token.HEAD)])
        elif line.startswith("    "):
            lines.append([(line, Token.DIM)])
        else:
            paragraph.append(line.strip())
    finish()
    return lines


def _wrapped(text: str, width: int, indent: str = "") -> Iterable[str]:
    line = ""
    for word in text.split():
        wider = f"{line} {word}" if line.strip() else line + word
        if line.strip() and cell_width(wider) > width:
            yield line
            line = indent + word
        else:
            line = wider
    if line.strip():
        yield line


def key_lines(keys: Sequence[KeyLine], width: int) -> list[Spans]:
    """Return the keys, one line each, what they do beside them."""
    lines: list[Spans] = []
    for name, what in keys:
        wrapped = list(_wrapped(clean(what), max(10, width - KEY_CELLS - 2)))
        for number, line in enumerate(wrapped):
            key = name if number == 0 else ""
            fill = " " * max(1, KEY_CELLS - cell_width(key))
            lines.append([("  ", Token.TEXT), (key, Token.HERE), (fill, Token.TEXT), (line, Token.TEXT)])
    return lines


class _Page(Widget):
    """The lines of the help, as wide as there is room."""

    ALLOW_SELECT = False
    DEFAULT_CSS = "_Page { height: auto; width: 1fr; }"

    def __init__(self, page: str, keys: Sequence[KeyLine]) -> None:
        super().__init__()
        self._page, self._keys = page, tuple(keys)

    def _lines(self, width: int) -> list[Spans]:
        page = page_lines(self._page, width)
        gap: list[Spans] = [[]] if page else []
        return [*page, *gap, [("Keys", Token.HEAD)], *key_lines(self._keys, width)]

    def get_content_height(self, container: object, viewport: object, width: int) -> int:
        """Return the number of lines."""
        return len(self._lines(max(1, width)))

    def render(self) -> Content:
        """Return the lines."""
        return lines_to_content(self._lines(max(1, self.size.width)), styles_for(self.app))


class HelpScreen(ModalScreen[None]):
    """The page and the keys of the screen underneath; Escape, F1 or ? close it."""

    DEFAULT_CSS = """
    HelpScreen { align: center middle; background: $background; }
    HelpScreen > #help-head, HelpScreen > KeyScroll { width: 100%; max-width: 96; background: $background; }
    HelpScreen > #help-head { height: 1; padding: 0 1; }
    HelpScreen > KeyScroll { height: 1fr; padding: 1 1 0 1; scrollbar-size-vertical: 1; }
    """
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("escape,f1,question_mark", "dismiss", "close", show=False, id="help.close", tooltip="Close"),
    ]

    def __init__(self, page: str, keys: Sequence[KeyLine]) -> None:
        """Show ``page`` (see :func:`page_lines`) and ``keys`` (see :func:`active_keys`)."""
        super().__init__()
        self._page, self._keys = page, tuple(keys)

    def compose(self) -> ComposeResult:
        """Yield head and page."""
        yield _HelpHead(id="help-head")
        with KeyScroll():
            yield _Page(self._page, self._keys)


class _HelpHead(Widget):
    ALLOW_SELECT = False

    def render(self) -> Content:
        """Return the title."""
        return lines_to_content([section_title("Help", "Esc closes", self.size.width)], styles_for(self.app))
