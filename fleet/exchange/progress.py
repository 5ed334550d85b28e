"""How far an import has come, told to whoever asked."""

from collections.abc import Callable
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Step:
    """A stage of an import and how far it has come.

    While a file is read, ``done`` and ``total`` are bytes; afterwards they are rows.
    """

    stage: str
    rows: int
    done: int
    total: int


Progress = Callable[[Step], None]
"""Called every few thousand rows; what it raises stops the import, and nothing is written."""

EVERY_ROWS = 2_000


def silent(step: Step) -> None:
    """Tell nobody."""
