"""Empty files to fill in: each with its header and one example row, and what each column accepts.

A CSV file has no place for comments, so what the cells may hold stands beside them in README.txt,
which an import of the folder passes over. The example rows fit together and import as they are.
"""

from collections.abc import Collection, Iterator, Mapping, Sequence
from pathlib import Path

from fleet.dictionary import FILES, SETTINGS, FileKind
from fleet.dictionary.kinds import Choice
from fleet.errors import UsageError
from fleet.exchange.header import is_mandatory
from fleet.exchange.writing import write_csv, write_text

README = "README.txt"
_MANAGER: Mapping[str, str] = {
    "person": "E. Ruiz",
    "name": "Elena Ruiz",
    "role": "account-manager",
    "phone": "555 0103",
    "email": "elena@service.example",
}
"""The account manager of the example customer, who has to be known too."""


def example_rows(kind: FileKind) -> list[dict[str, str]]:
    """Return the example rows of a file as a person would type them.

    People have two: the technician of the records and the customer's account manager.
    """
    rows = [{column.name: column.example for column in kind.columns}]
    if kind.name == "people":
        rows.append({**rows[0], **_MANAGER})
    return rows


def write_templates(directory: Path, *, check_codes: Collection[str]) -> list[Path]:
    """Write every file with its header and example row, and README.txt; return what was written.

    ``check_codes`` are the checks that README.txt lists for checks.csv.

    Raises:
        UsageError: one of the files exists already (none is written), or the folder cannot be made.
    """
    paths = [directory / kind.file_name for kind in FILES] + [directory / README]
    try:
        directory.mkdir(parents=True, exist_ok=True)
        existing = [path.name for path in paths if path.exists()]
        if existing:
            raise UsageError(
                f"{', '.join(existing)} exist{'s' if len(existing) == 1 else ''} in {directory} already, and "
                "nothing was written; expected an empty or a new folder.",
                where=str(directory),
            )
        for kind in FILES:
            names = [column.name for column in kind.columns]
            rows = [[row[name] for name in names] for row in example_rows(kind)]
            write_csv(directory / kind.file_name, names, rows)
        write_text(directory / README, "\n".join(_explanation(check_codes)) + "\n")
    except OSError as error:
        raise UsageError(
            f"The files cannot be written to {directory}: {error.strerror or error}.", where=str(directory)
        ) from error
    return paths


def _explanation(check_codes: Collection[str]) -> Iterator[str]:
    yield "Files of a Coldround register, with one example row each."
    yield ""
    yield "Replace the example rows, then import the folder or single files. CSV in UTF-8, commas between"
    yield "the cells, dates like 2026-11-25. The order of columns and rows is free, columns that are not"
    yield "needed may be left out, and an empty cell means: not recorded. A quantity carries its unit, in the"
    yield "cell (22lb) or for the whole column in the header (charge [lb])."
    for kind in FILES:
        yield from _file_explanation(kind)
    yield ""
    yield "Settings: codes of settings.csv, what each belongs to, and what its value looks like"
    yield "A setting that is not of a group or a compressor may also stand as a column: of a system in"
    yield "systems.csv, of a box in boxes.csv. It is then the value first found."
    for setting in SETTINGS:
        yield f"  {setting.code} ({setting.part.value}): {setting.kind.accepted}"
    yield ""
    yield "Checks: codes of checks.csv"
    yield from (f"  {code}" for code in check_codes)


def _file_explanation(kind: FileKind) -> Sequence[str]:
    lines = ["", f"{kind.file_name}: {kind.about}", f"  one row for each {', '.join(kind.key)}"]
    for column in kind.columns:
        needed = " (needed)" if is_mandatory(kind, column) else ""
        accepted = column.kind.accepted
        if isinstance(column.kind, Choice) and column.name == "setting":
            accepted = "one of the settings below"
        elif column.name == "check_code":
            accepted = "one of the checks below"
        lines.append(f"  {column.name}{needed}: {accepted}")
    return lines
