"""The problems of an import: every one is named, and a list too long to read keeps its count."""

import re

from fleet.errors import ImportRefusedError, InputError, Problem
from fleet.text import clean

KEPT = 2_000
"""How many problems are kept for a list on a screen; the rest is only counted."""
_VALUE_SHOWN = 80
_UNDECODED = re.compile("[\ud800-\udfff]")


class Problems:
    """Collects problems while files are read and compared; nothing stops at the first."""

    __slots__ = ("count", "kept")

    def __init__(self) -> None:
        self.count = 0
        self.kept: list[Problem] = []

    def __bool__(self) -> bool:
        return self.count > 0

    def add(self, file: str, row: int | None, field: str | None, value: str | None, expected: str) -> None:
        """Name one problem."""
        self.count += 1
        if len(self.kept) < KEPT:
            shown_field = None if field is None else clean(field) or "?"
            self.kept.append(Problem(clean(file), row, shown_field, _shortened(value), expected))

    def add_error(self, file: str, row: int, field: str, value: str, error: InputError) -> None:
        """Name what the reading of a cell said, without the value twice."""
        message = error.message
        for start in (f"{value!r}: ", f"{value!r} "):
            message = message.removeprefix(start)
        self.add(file, row, field, value, message)

    def refusal(self) -> ImportRefusedError:
        """Return the error that names the problems, the first ones in full."""
        return ImportRefusedError(self.kept, total=self.count)

    def refuse_if_any(self) -> None:
        """Refuse the import if anything was named.

        Raises:
            ImportRefusedError: at least one problem was named.
        """
        if self:
            raise self.refusal()


def _shortened(value: str | None) -> str | None:
    if value is None:
        return None
    value = _UNDECODED.sub("\ufffd", value)
    return value if len(value) <= _VALUE_SHOWN else value[:_VALUE_SHOWN] + "…"
