"""The key of each row of a file: where it stands, whether it was there before."""

from collections.abc import Callable

from fleet.exchange.cells import Cell
from fleet.exchange.problems import Problems
from fleet.exchange.reading import Table
from fleet.exchange.storage import Key, shown_key, singular

_MAY_BE_EMPTY = {"part": "", "in_service": None}
"""Columns of a key that may be empty, and what an empty one stands for."""


def key_reader(table: Table) -> Callable[[tuple[Cell, ...]], Key | None]:
    """Return a function from the cells of a row to its key, None where the key is incomplete."""
    places = [table.place(column) for column in table.kind.key]
    empty = [_MAY_BE_EMPTY.get(column) for column in table.kind.key]
    optional = [column in _MAY_BE_EMPTY for column in table.kind.key]

    def read(cells: tuple[Cell, ...]) -> Key | None:
        values: list[object] = []
        for place, nothing, may_be_empty in zip(places, empty, optional, strict=True):
            cell = None if place is None else cells[place]
            if cell is None:
                if not may_be_empty:
                    return None
                cell = nothing
            values.append(cell)
        return tuple(values)

    return read


class Seen:
    """The keys of one file so far, with their rows: each may stand once."""

    def __init__(self, table: Table, problems: Problems) -> None:
        self._table, self._problems = table, problems
        self._rows: dict[Key, int] = {}

    def is_first(self, key: Key, row: int) -> bool:
        """Tell whether the key is new; name both rows where it is not."""
        first = self._rows.setdefault(key, row)
        if first == row:
            return True
        name = self._table.kind.name
        self._problems.add(
            self._table.file,
            row,
            self._table.kind.key[-1],
            shown_key(key),
            f"this {_WHAT.get(name, singular(name))} stands in row {first} already; expected each once",
        )
        return False


_WHAT = {"settings": "setting of the same day and stage", "checks": "check of the same day"}
