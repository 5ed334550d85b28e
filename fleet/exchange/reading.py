"""One file of the register, or the same rows as dictionaries of text, read and checked cell by cell.

What may be wrong inside one row is found here; what rows say about each other and about the
register is found in `fleet.exchange.plan`.
"""

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path

from fleet.dictionary import SETTINGS_FILE, Column, FileKind
from fleet.errors import InputError
from fleet.exchange.cells import Cell
from fleet.exchange.decoding import check_delimiter, numbered_records, opened
from fleet.exchange.header import Header, is_mandatory, read_header
from fleet.exchange.problems import Problems
from fleet.exchange.progress import EVERY_ROWS, Progress, Step, silent

Row = tuple[int, tuple[Cell, ...]]
"""The number of a row as a spreadsheet shows it, and its cells in the order of `Table.columns`."""


@dataclass(slots=True)
class Table:
    """The rows of one file; cells that could not be read are None and were named."""

    kind: FileKind
    file: str
    columns: tuple[Column, ...] = ()
    rows: list[Row] = field(default_factory=list)
    complete: bool = True
    """False where the file as a whole could not be read, so that its rows are not known."""

    def place(self, name: str) -> int | None:
        """Return where a column stands in the rows, None where the file lacks it."""
        return next((place for place, column in enumerate(self.columns) if column.name == name), None)


def read_csv(path: Path, kind: FileKind, problems: Problems, progress: Progress = silent) -> Table:
    """Read a CSV file; whatever is wrong with it is named in ``problems``."""
    table = Table(kind, path.name)
    try:
        with opened(path) as (stream, raw, size):
            records = numbered_records(stream, table.file, problems)
            header = _first_record(records, kind)

            def tell(rows: int) -> None:
                progress(Step(f"reading {table.file}", rows, raw.tell(), size))

            _read_rows(table, header, records, problems, tell, from_file=True)
    except InputError as error:
        problems.add(table.file, None, None, None, error.message)
        table.complete = False
    return table


def read_rows(kind: FileKind, rows: Sequence[Mapping[str, str]], problems: Problems) -> Table:
    """Read rows that are dictionaries of text, as if they stood in a CSV file of that kind."""
    table = Table(kind, kind.file_name)
    names = list(dict.fromkeys(name for row in rows for name in row))
    if names:
        records = ((number, [row.get(name, "") for name in names]) for number, row in enumerate(rows, 2))
        _read_rows(table, names, records, problems, lambda _: None, from_file=False)
    return table


def _first_record(records: Iterator[tuple[int, list[str]]], kind: FileKind) -> list[str]:
    for number, record in records:
        if any(cell.strip() for cell in record):
            if number > 1:
                raise InputError("begins with an empty row; expected the header row first")
            check_delimiter(record, kind)
            return record
    raise InputError("is empty; expected a header row with the names of the columns")


class _RowReader:
    """Reads the rows of one file: the fast way, and cell by cell where that fails."""

    def __init__(self, table: Table, header: Header, problems: Problems) -> None:
        self.table, self.header, self.problems = table, header, problems
        self.places = tuple(place for place, _ in header.columns)
        names = [column.name for column in table.columns]
        self.mandatory = tuple(
            (place, column) for place, column in enumerate(table.columns) if is_mandatory(table.kind, column)
        )
        settings = table.kind is SETTINGS_FILE and {"setting", "value"} <= set(names)
        self.setting_place = names.index("setting") if settings else -1
        self.value_place = names.index("value") if settings else -1

    def read(self, number: int, record: list[str]) -> None:
        """Read one row into the table."""
        header, failed = self.header, set[int]()
        if len(record) > len(header):
            self._check_surplus(number, record)
        elif len(record) < len(header):
            record = record + [""] * (len(header) - len(record))  # spreadsheets leave off empty ends
        try:
            pairs = zip(header.readers, record, strict=False)
            cells = [reader[text] if text else None for reader, text in pairs]
        except InputError:
            cells, failed = self._read_each(number, record)
        row = [cells[place] for place in self.places]
        failed_columns = {name for place, name in enumerate(header.names) if place in failed}
        if self.value_place >= 0:
            self._read_value(number, row, failed_columns)
        for place, column in self.mandatory:
            if row[place] is None and column.name not in failed_columns:
                self.problems.add(
                    self.table.file, number, column.name, None, f"is empty; expected {column.kind.accepted}"
                )
        self.table.rows.append((number, tuple(row)))

    def _read_each(self, number: int, record: list[str]) -> tuple[list[Cell], set[int]]:
        cells: list[Cell] = []
        failed: set[int] = set()
        for place, (reader, text) in enumerate(zip(self.header.readers, record, strict=False)):
            try:
                cells.append(reader[text])
            except InputError as error:
                cells.append(None)
                failed.add(place)
                name = self.header.names[place] or f"column {place + 1}"
                self.problems.add_error(self.table.file, number, name, text.strip(), error)
        return cells, failed

    def _check_surplus(self, number: int, record: list[str]) -> None:
        width = len(self.header)
        surplus = [cell for cell in record[width:] if cell.strip()]
        if surplus:
            expected = (
                f"{len(record)} cells, where the header has {width}; expected {width} "
                "(a text with a comma in it stands between quotation marks)"
            )
            self.problems.add(self.table.file, number, None, surplus[0], expected)

    def _read_value(self, number: int, row: list[Cell], failed_columns: set[str]) -> None:
        """Read the value of a settings row as its setting asks."""
        setting, text = row[self.setting_place], row[self.value_place]
        row[self.value_place] = None
        if not isinstance(setting, str) or not isinstance(text, str):
            failed_columns |= {"value"} if isinstance(text, str) else set()
            return
        try:
            row[self.value_place] = self.header.value_readers[setting][text]
        except InputError as error:
            failed_columns.add("value")
            self.problems.add_error(self.table.file, number, "value", text, error)


def _read_rows(
    table: Table,
    header_cells: Sequence[str],
    records: Iterable[tuple[int, list[str]]],
    problems: Problems,
    tell: Callable[[int], None],
    *,
    from_file: bool,
) -> None:
    header = read_header(header_cells, table.kind, table.file, problems, from_file=from_file)
    table.columns = tuple(column for _, column in header.columns)
    reader = _RowReader(table, header, problems)
    for number, record in records:
        if any(record):
            reader.read(number, record)
        if number % EVERY_ROWS == 0:
            tell(number)
    tell(len(table.rows))
