"""Writing a list as CSV: all of its rows, in the order shown, whole or not at all."""

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import Generic, TypeVar

from fleet.desk.paging import PageSource, every_page
from fleet.errors import UsageError
from fleet.exchange.writing import write_csv

Row = TypeVar("Row")
Tell = Callable[[int, int], None]
"""Told how many rows are written, of how many."""
Stop = Callable[[], bool]
"""Asked between pages whether to stop; a stopped file is not left behind."""

_NAMES_TRIED = 1_000


@dataclass(frozen=True, slots=True)
class CsvColumn(Generic[Row]):
    """One column of a file."""

    title: str
    cell: Callable[[Row], str]


@dataclass(frozen=True, slots=True)
class CsvList(Generic[Row]):
    """What is to be written: a list with its filters and order, and the cells of its rows, page by page."""

    what: str
    """What the rows are, in the plural: systems, findings."""
    source: PageSource[Row]
    header: tuple[str, ...]
    cells: Callable[[Sequence[Row]], Iterable[Sequence[str]]]


@dataclass(frozen=True, slots=True)
class Written:
    """A file that was written, or was not because it was stopped."""

    path: Path
    rows: int
    stopped: bool = False


class _StoppedError(Exception):
    """Leaves the writer, which then takes its temporary file away; never leaves this module."""


def csv_list(what: str, source: PageSource[Row], columns: Sequence[CsvColumn[Row]]) -> CsvList[Row]:
    """Return a list whose cells are made column by column."""

    def cells(rows: Sequence[Row]) -> Iterator[list[str]]:
        for row in rows:
            yield [column.cell(row) for column in columns]

    return CsvList(what, source, tuple(column.title for column in columns), cells)


def proposed_file(what: str, today: date, folder: Path | None = None) -> Path:
    """Return a name for a list that no file of the folder bears yet.

    >>> proposed_file("systems", date(2026, 11, 25), Path("/nowhere")).name
    'systems-2026-11-25.csv'
    """
    where = folder or Path.cwd()
    stem = f"{what.replace(' ', '-')}-{today.isoformat()}"
    names = (f"{stem}.csv", *(f"{stem}-{number}.csv" for number in range(2, _NAMES_TRIED)))
    return next((where / name for name in names if not (where / name).exists()), where / names[0])


def is_there(path: Path) -> bool:
    """Say whether writing would replace a file."""
    try:
        return path.is_file()
    except OSError:  # a name the system refuses is no file; writing says why
        return False


def write_list(
    path: Path,
    listed: CsvList[Row],
    *,
    tell: Tell = lambda done, total: None,
    stop: Stop = lambda: False,
) -> Written:
    """Write every row of a list.

    Raises:
        UsageError: the file cannot be written there; nothing was changed.
        RegisterError: the register cannot be read.
    """
    try:
        if path.is_dir():
            raise IsADirectoryError
        return Written(path, write_csv(path, listed.header, _rows(listed, tell, stop)))
    except _StoppedError:
        return Written(path, 0, stopped=True)
    except OSError as error:
        raise UsageError(f"{path}: {_reason(path, error)}", where=str(path)) from None


def _rows(listed: CsvList[Row], tell: Tell, stop: Stop) -> Iterator[Sequence[str]]:
    anchors = listed.source.anchors()
    done = 0
    for rows in every_page(listed.source, anchors):
        if stop():
            raise _StoppedError
        yield from listed.cells(rows)
        done += len(rows)
        tell(done, anchors.total)


def _reason(path: Path, error: OSError) -> str:
    if isinstance(error, FileNotFoundError):
        return f"there is no folder {path.parent}. Name one that exists."
    if isinstance(error, IsADirectoryError):
        return "this is a folder. Add a file name."
    if isinstance(error, PermissionError):
        return "the folder may not be written. Name another one."
    return f"{(error.strerror or 'it cannot be written').lower()}. Name another file."
