"""The last row: the keys that work now, at most eight, ending with the one for help."""

from collections.abc import Sequence

from textual.app import ComposeResult
from textual.widgets import Footer

from fleet.text import cell_width

PADDING, GAP = 1, 2


def keys_that_fit(cells: Sequence[int], room: int) -> list[int]:
    """Return which keys fit beside each other; the last, which leads to all others, is kept longest.

    >>> keys_that_fit([11, 9, 8, 7], 41), keys_that_fit([11, 9, 8, 7], 33)
    ([0, 1, 2, 3], [0, 1, 3])
    """
    kept = list(range(len(cells)))
    while len(kept) > 1 and sum(cells[number] for number in kept) + GAP * (len(kept) - 1) > room:
        del kept[-2]
    return kept


class FrameFooter(Footer):
    """The keys that work now."""

    DEFAULT_CSS = """
    FrameFooter {
        dock: none; background: $background; padding: 0 1; height: 1;
        FooterKey, FooterLabel { background: $background; }
        FooterKey .footer-key--key { color: $text-primary; background: $background; text-style: bold; }
        FooterKey .footer-key--description { color: $foreground 74%; background: $background; }
        &.-compact FooterKey { margin-right: 2; }
        &:nocolor FooterKey .footer-key--key { color: $foreground; }
    }
    """

    def __init__(self) -> None:
        super().__init__(compact=True, show_command_palette=False)

    def compose(self) -> ComposeResult:
        """Yield the keys for which there is room."""
        keys = list(super().compose())
        cells = [
            cell_width(f"{getattr(key, 'key_display', '')} {getattr(key, 'description', '')}") for key in keys
        ]
        for number in keys_that_fit(cells, self.app.size.width - 2 * PADDING):
            yield keys[number]

    def on_resize(self) -> None:
        """There is room for more keys, or for fewer."""
        if self._bindings_ready:
            self.call_after_refresh(self.recompose)
