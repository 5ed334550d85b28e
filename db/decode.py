"""From the driver's rows to NumPy columns: words to positions in their lists, days to numbers.

The rows are turned by ``zip(*rows)`` and each column converted as a whole; a word is one look-up in a
dictionary, and NULL is one of its keys.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import date
from functools import cache
from itertools import chain
from typing import Any, Generic, TypeVar

import numpy as np
import numpy.typing as npt

from db.driver import EPOCH_ORDINAL
from fleet.dictionary.words import UNRECORDED, Word, YesNo
from fleet.errors import UnknownNameError
from fleet.properties.catalogue import UNKNOWN, refrigerant_index


class _Codes(dict[Any, int]):
    """Positions of words; a word that this version does not know reads as not recorded."""

    def __missing__(self, word: Any) -> int:
        return UNRECORDED


@cache
def codes_of(words: type[Word]) -> _Codes:
    """Return the position of each word of a list; yes and no may come as booleans."""
    codes = _Codes({word.value: word.code for word in words})
    codes[None] = UNRECORDED
    if words is YesNo:
        codes.update({0: YesNo.NO.code, 1: YesNo.YES.code})
    return codes


class _Refrigerants(dict[Any, int]):
    """Positions in the catalogue, looked up once for each spelling."""

    def __missing__(self, name: Any) -> int:
        try:
            position = UNKNOWN if name is None else refrigerant_index(name)
        except UnknownNameError:
            position = UNKNOWN
        self[name] = position
        return position


class _Days(dict[Any, float]):
    """Days since 1970-01-01 of dates, which SQLite's driver gives as text."""

    def __missing__(self, day: Any) -> float:
        made = date.fromisoformat(day) if isinstance(day, str) else day
        number = float(made.toordinal() - EPOCH_ORDINAL)
        self[day] = number
        return number


_refrigerants = _Refrigerants()
_days = _Days({None: float("nan")})


Made = TypeVar("Made")


@dataclass(frozen=True, slots=True)
class Reader(Generic[Made]):
    """Makes one column of values: piece by piece, then joined."""

    read: Callable[[Sequence[Any]], Made]
    joined: Callable[[list[Made]], Made]


def _array_reader(kind: npt.DTypeLike, read: Callable[[Sequence[Any]], npt.NDArray[Any]]) -> Reader[Any]:
    def joined(pieces: list[npt.NDArray[Any]]) -> npt.NDArray[Any]:
        return np.concatenate(pieces) if pieces else np.empty(0, dtype=kind)

    return Reader(read, joined)


def _looked_up(codes: dict[Any, Any], kind: npt.DTypeLike) -> Reader[Any]:
    """Return a reader of values that are found in a dictionary."""
    find = codes.__getitem__
    return _array_reader(kind, lambda values: np.fromiter(map(find, values), dtype=kind, count=len(values)))


float_reader = _array_reader(np.float64, lambda values: np.array(values, dtype=np.float64))
"""Numbers; NULL becomes NaN."""
whole_reader = _array_reader(np.int64, lambda values: np.array(values, dtype=np.int64))
text_reader: Reader[Any] = Reader(list, lambda pieces: list(chain.from_iterable(pieces)))
day_reader = _looked_up(_days, np.float64)
refrigerant_reader = _looked_up(_refrigerants, np.int16)


def reader_of(name: str, words: type[Word] | None) -> Reader[Any]:
    """Return the reader for a column of the fleet by its name; ``words`` is the list of a word's column."""
    if words is not None:
        return _looked_up(codes_of(words), np.int8)
    if name == "refrigerant":
        return refrigerant_reader
    if name.endswith("_day"):
        return day_reader
    return whole_reader if name in {"system_id", "box_id", "position"} else float_reader


def code_reader(codes: Sequence[str]) -> Reader[Any]:
    """Return the reader for text out of a list: its position, -1 for text that is not in it."""
    return _looked_up(_Codes({code: position for position, code in enumerate(codes)}), np.int16)
