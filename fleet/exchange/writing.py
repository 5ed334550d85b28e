"""CSV files written whole or not at all, and safe to open in a spreadsheet.

A cell that a spreadsheet would run as a formula gets an apostrophe in front; `unguarded` takes it
off again when the file is read, so a register goes out and comes back as it was.
"""

import csv
import os
import re
import stat
import tempfile
from collections.abc import Iterable, Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import IO

_RUNS = re.compile(r"'*\s*[=+\-@＝＋－＠]|'*[\t\r\n]")
_GUARDED = re.compile(r"'+\s*[=+\-@＝＋－＠]|'+[\t\r\n]")
# A signed number with its unit, like -11F or −0.5 kPa(g)/h, is no formula.
_FIGURE = re.compile(r"[-+]?\d[\d,]*(\.\d+)?\s?°?[A-Za-z]{0,7}[23²³]?(\([ag]\))?(/[a-z]{1,3})?")


def guarded(text: str) -> str:
    """Return a cell so that no spreadsheet runs it as a formula.

    >>> guarded("=1+1"), guarded("-11F"), guarded("Ridge Street")
    ("'=1+1", '-11F', 'Ridge Street')
    """
    if _RUNS.match(text) is None or _FIGURE.fullmatch(text) is not None:
        return text
    return "'" + text


def unguarded(text: str) -> str:
    """Return a cell without the apostrophe that `guarded` put there.

    >>> unguarded(guarded("@lead")), unguarded("'quoted'")
    ('@lead', "'quoted'")
    """
    return text[1:] if _GUARDED.match(text) else text


def write_csv(path: Path, header: Sequence[str], rows: Iterable[Sequence[str]]) -> int:
    """Write a CSV file in UTF-8 and return the number of rows below the header.

    An error or a full disk leaves the former file as it was.
    """
    count = 0
    with _replacing(path) as stream:
        writer = csv.writer(stream)
        writer.writerow([guarded(cell) for cell in header])
        for row in rows:
            writer.writerow([guarded(cell) for cell in row])
            count += 1
    return count


def write_text(path: Path, text: str) -> None:
    """Write a text file in UTF-8, whole or not at all."""
    with _replacing(path) as stream:
        stream.write(text)


@contextmanager
def _replacing(path: Path) -> Iterator[IO[str]]:
    """Give a temporary file beside ``path``, which takes its name only when it is complete."""
    number, temporary = tempfile.mkstemp(prefix=f".{path.name}.", suffix=".part", dir=path.parent)
    try:
        with open(number, "w", encoding="utf-8", newline="") as stream:
            yield stream
            stream.flush()
            os.fsync(stream.fileno())
        os.chmod(temporary, _permissions(path))
        os.replace(temporary, path)
    except BaseException:  # also when stopped by hand: no half file stays behind
        Path(temporary).unlink(missing_ok=True)
        raise


def _permissions(path: Path) -> int:
    """Return those of the file that is replaced, or those that any new file gets."""
    if path.exists():
        return stat.S_IMODE(path.stat().st_mode)
    mask = os.umask(0o077)  # the system tells the mask only by setting it
    os.umask(mask)
    return 0o666 & ~mask
