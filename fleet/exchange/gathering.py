"""All the files of one import, each known by its name."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

from fleet.dictionary import FILE_BY_NAME, FILES, FileKind
from fleet.errors import UnknownNameError
from fleet.exchange.problems import Problems
from fleet.exchange.progress import Progress, silent
from fleet.exchange.reading import Table, read_csv, read_rows


@dataclass(frozen=True, slots=True)
class Gathered:
    """The tables of one import by the name of their kind, and what was wrong with them so far."""

    tables: dict[str, Table]
    problems: Problems

    def table(self, name: str) -> Table | None:
        """Return the table of a kind, None where no file of the import is of that kind."""
        return self.tables.get(name)


def read_files(paths: Sequence[Path], progress: Progress = silent) -> Gathered:
    """Read CSV files, and all CSV files in folders; problems are collected, nothing is raised."""
    gathered = Gathered({}, Problems())
    for path in _with_folders_opened(paths):
        kind = _kind_of(path, gathered.problems)
        if kind is None:
            continue
        if kind.name in gathered.tables:
            gathered.problems.add(path.name, None, None, str(path), "is given twice; expected each file once")
            continue
        gathered.tables[kind.name] = read_csv(path, kind, gathered.problems, progress)
    if not gathered.tables and not gathered.problems:
        names = ", ".join(kind.file_name for kind in FILES)
        gathered.problems.add("import", None, None, None, f"no CSV file is given; expected some of {names}")
    return gathered


def read_row_sets(row_sets: Mapping[str, Sequence[Mapping[str, str]]]) -> Gathered:
    """Read rows that are dictionaries of text, by the name of their kind, like ``systems``."""
    gathered = Gathered({}, Problems())
    for name, rows in row_sets.items():
        kind = _kind_of(Path(f"{name}.csv"), gathered.problems)
        if kind is not None:
            gathered.tables[kind.name] = read_rows(kind, rows, gathered.problems)
    return gathered


def _with_folders_opened(paths: Sequence[Path]) -> list[Path]:
    opened: list[Path] = []
    for path in paths:
        opened.extend(sorted(path.glob("*.csv")) if path.is_dir() else [path])
    return opened


def _kind_of(path: Path, problems: Problems) -> FileKind | None:
    kind = FILE_BY_NAME.get(path.stem.casefold())
    if kind is None or path.suffix.casefold() != ".csv":
        unknown = UnknownNameError("kind of file", path.name, [k.file_name for k in FILES])
        problems.add(path.name, None, None, None, unknown.message)
        return None
    return kind
