"""A field of one line that holds only what a terminal prints, whatever is typed or pasted into it."""

from textual.widgets import Input

from fleet.text import clean


class TypedField(Input):
    """A compact field without control characters, overrides and invisible signs."""

    DEFAULT_CSS = """
    TypedField {
        & > .input--placeholder, & > .input--suggestion { color: $foreground 68%; }
    }
    """

    def __init__(
        self,
        value: str = "",
        *,
        placeholder: str = "",
        id: str | None = None,  # noqa: A002
        classes: str | None = None,
    ) -> None:
        super().__init__(clean(value), placeholder=clean(placeholder), compact=True, id=id, classes=classes)

    def validate_value(self, value: str) -> str:
        """Take out what must not reach the terminal."""
        return clean(value)
