"""The header row: which column stands where, and the unit that bare numbers get."""

import re
from collections.abc import Sequence
from dataclasses import dataclass

from fleet.dictionary import SETTINGS_FILE, Column, FileKind
from fleet.dictionary.kinds import Kind, Measure, Number, Value
from fleet.errors import InputError, nearest_names
from fleet.exchange.cells import CellReader, column_reader, refuse_wrong_encoding, setting_readers
from fleet.exchange.problems import Problems
from fleet.exchange.writing import unguarded

_HEADING = re.compile(r"(?P<name>[^\[\]]*?)\s*(\[(?P<unit>[^\[\]]*)\])?")


class _Ignored(Kind):
    """The cells under a heading that was refused already."""

    accepted = ""

    def read(self, text: str) -> Value:
        return text


class _Unheaded(Kind):
    """The cells under an empty heading: they may only be empty."""

    accepted = "no cell under an empty heading"

    def read(self, text: str) -> Value:
        raise InputError("stands under an empty heading; expected the name of a column above it")


@dataclass(frozen=True, slots=True)
class Header:
    """The columns of one file in its own order, with the reader of each."""

    names: tuple[str, ...]
    readers: tuple[CellReader, ...]
    columns: tuple[tuple[int, Column], ...]
    """Each known column with its place in the row, in the order of the dictionary."""
    value_readers: dict[str, CellReader]
    """Readers of the column ``value`` of settings.csv."""

    def __len__(self) -> int:
        return len(self.readers)


def is_mandatory(kind: FileKind, column: Column) -> bool:
    """Tell whether each row needs the cell: required ones, and a number that is part of the key."""
    return column.required or (column.name in kind.key and isinstance(column.kind, Number))


def read_header(
    cells: Sequence[str], kind: FileKind, file: str, problems: Problems, *, from_file: bool = True
) -> Header:
    """Read the header row; what is wrong with it is named, and the columns that are right are kept."""
    names: list[str] = []
    readers: list[CellReader] = []
    places: dict[str, int] = {}
    value_unit = ""
    for place, cell in enumerate(cells):
        name, unit = _name_and_unit(cell)
        try:
            refuse_wrong_encoding(cell)
        except InputError as error:
            problems.add(file, 1, f"column {place + 1}", name, error.message)
            names.append(name)
            readers.append(CellReader(_Ignored()))
            continue
        column = kind.column(name)
        names.append(name)
        if column is None or name in places:
            readers.append(_reader_of_stranger(name, column, kind, file, problems))
            continue
        places[name] = place
        if unit:
            _check_unit(column, unit, kind, file, problems)
        if kind is SETTINGS_FILE and name == "value":
            value_unit, unit = unit, ""
        readers.append(column_reader(column, unit, from_file=from_file))
    _name_missing_columns(places, kind, file, problems)
    columns = tuple((places[c.name], c) for c in kind.all_columns if c.name in places)
    return Header(tuple(names), tuple(readers), columns, setting_readers(value_unit))


def _name_and_unit(cell: str) -> tuple[str, str]:
    heading = unguarded(cell.strip()).strip()
    match = _HEADING.fullmatch(heading)
    if match is None:
        return heading, ""
    return match["name"].strip(), (match["unit"] or "").strip()


def _reader_of_stranger(
    name: str, column: Column | None, kind: FileKind, file: str, problems: Problems
) -> CellReader:
    if not name:
        return CellReader(_Unheaded())
    if column is not None:
        problems.add(file, 1, name, None, "stands twice in the header; expected each column once")
    else:
        near = nearest_names(name, [c.name for c in kind.all_columns])
        hint = f"nearest: {', '.join(near)}" if near else f"expected columns of {kind.file_name}"
        problems.add(file, 1, name, None, f"is not a column of {kind.file_name}; {hint}")
    return CellReader(_Ignored())


def _check_unit(column: Column, unit: str, kind: FileKind, file: str, problems: Problems) -> None:
    if kind is SETTINGS_FILE and column.name == "value":
        return  # which unit fits depends on the setting of each row
    if isinstance(column.kind, Number) and column.kind.unit == unit:
        return
    if not isinstance(column.kind, Measure):
        expected = f"carries the unit {unit!r}, but holds {column.kind.accepted}; expected no unit"
        problems.add(file, 1, column.name, None, expected)
        return
    try:
        # Only the unit is asked here: 20 of anything exists in every unit.
        Measure(column.kind.dimensions).read(f"20{unit}")
    except InputError as error:
        message = error.message.removeprefix(f"{f'20{unit}'!r}").lstrip(": ")
        problems.add(file, 1, column.name, f"[{unit}]", message)


def _name_missing_columns(places: dict[str, int], kind: FileKind, file: str, problems: Problems) -> None:
    for column in kind.columns:
        if is_mandatory(kind, column) and column.name not in places:
            expected = f"the column is missing; every row needs {column.kind.accepted}"
            problems.add(file, 1, column.name, None, expected)
