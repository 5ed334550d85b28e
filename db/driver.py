"""Small helpers for text that goes to the driver as it is."""

import sqlite3
from collections.abc import Iterable, Iterator, Sequence
from datetime import date
from itertools import islice
from pathlib import Path
from typing import Any, TypeVar

from sqlalchemy import Connection

from db.failures import register_failure
from db.place import RegisterPlace

Item = TypeVar("Item")
EPOCH_ORDINAL = date(1970, 1, 1).toordinal()
_CHUNK = 500


def day_number(day: date) -> int:
    """Return the days since 1970-01-01.

    >>> day_number(date(1970, 1, 2))
    1
    """
    return day.toordinal() - EPOCH_ORDINAL


def day_of(number: int) -> date:
    """Return the date of a day number."""
    return date.fromordinal(number + EPOCH_ORDINAL)


def marks(connection: Connection, count: int) -> str:
    """Return ``count`` places for values in the driver's own spelling, with commas between."""
    mark = "?" if connection.dialect.paramstyle == "qmark" else "%s"
    return ", ".join([mark] * count)


def id_list(ids: Iterable[int]) -> str:
    """Return integer keys as an SQL list; they are our own integers, so no quoting is needed."""
    return ", ".join(str(int(key)) for key in ids)


def chunks(items: Sequence[Item], size: int = _CHUNK) -> Iterator[Sequence[Item]]:
    """Cut a sequence into pieces that fit one statement."""
    return (items[start : start + size] for start in range(0, len(items), size))


def batches(items: Iterable[Item], size: int) -> Iterator[list[Item]]:
    """Gather items of a stream into lists of at most ``size``."""
    stream = iter(items)
    while gathered := list(islice(stream, size)):
        yield gathered


def row_blocks(connection: Connection, cursor: Any, size: int) -> Iterator[list[tuple[Any, ...]]]:
    """Yield the rows of the driver's own cursor in blocks; what fails is said as everywhere else.

    Raises:
        RegisterError: the register cannot be read, as far as its driver can tell.
    """
    while True:
        try:
            rows = cursor.fetchmany(size)
        except sqlite3.DatabaseError as error:
            url = connection.engine.url
            failure = register_failure(error, RegisterPlace(url, Path(url.database or "")))
            if failure is None:
                raise
            raise failure from error
        if not rows:
            return
        yield rows
