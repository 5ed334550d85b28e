"""The last row: the keys that work now, at most eight, ending with the one for help."""

from textual.widgets import Footer


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
