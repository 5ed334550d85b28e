"""A scrolling text by itself: the keys have ids and words of their own, for the help."""

from typing import ClassVar

from textual.binding import Binding, BindingType
from textual.containers import VerticalScroll


def _scroll(key: str, action: str, tooltip: str) -> Binding:
    return Binding(key, action, key, show=False, id=f"scroll.{key}", tooltip=tooltip)


class KeyScroll(VerticalScroll):
    """Scrolls by keys."""

    DEFAULT_CSS = "KeyScroll { height: 1fr; background: $background; scrollbar-size-vertical: 1; }"
    BINDINGS: ClassVar[list[BindingType]] = [
        _scroll("up", "scroll_up", "Scroll up"),
        _scroll("down", "scroll_down", "Scroll down"),
        _scroll("pageup", "page_up", "Scroll a page up"),
        _scroll("pagedown", "page_down", "Scroll a page down"),
        _scroll("home", "scroll_home", "Scroll to the top"),
        _scroll("end", "scroll_end", "Scroll to the end"),
    ]
