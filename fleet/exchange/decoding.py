"""The first look at a file: is it text, in the right encoding, with commas between the cells?"""

import csv
import io
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import IO, BinaryIO

from fleet.dictionary import FileKind
from fleet.errors import InputError
from fleet.exchange.problems import Problems

_LOOKED_AT = 4096
_EXPECTED = "expected a CSV file in UTF-8"
_STARTS: tuple[tuple[bytes, str], ...] = (
    (b"PK\x03\x04", f"is a spreadsheet workbook or an archive; {_EXPECTED}, as spreadsheets save it"),
    (b"\xd0\xcf\x11\xe0", f"is a spreadsheet workbook of the old kind; {_EXPECTED}"),
    (b"SQLite format 3\x00", f"is a database; {_EXPECTED}"),
    (b"%PDF", f"is a PDF; {_EXPECTED}"),
    (b"\xff\xfe", f"is encoded in UTF-16; {_EXPECTED}"),
    (b"\xfe\xff", f"is encoded in UTF-16; {_EXPECTED}"),
)


@contextmanager
def opened(path: Path) -> Iterator[tuple[IO[str], BinaryIO, int]]:
    """Open a CSV file: the text, the bytes behind it (to tell how far), and the size in bytes.

    Bytes that are not UTF-8 stay in the text as lone surrogates, so each bad cell can be named.

    Raises:
        InputError: the file cannot be opened, or is no text at all.
    """
    try:
        if path.exists() and not path.is_file() and not path.is_dir():
            raise InputError("is a pipe or a device; expected a CSV file")  # opening one may wait for ever
        raw = path.open("rb")
    except FileNotFoundError:
        raise InputError("does not exist; expected the path of a CSV file") from None
    except IsADirectoryError:
        raise InputError("is a folder; expected a CSV file") from None
    except OSError as error:
        raise InputError(f"cannot be opened: {error.strerror}") from None
    with raw:
        head = raw.read(_LOOKED_AT)
        _refuse_what_is_no_text(head)
        size = raw.seek(0, io.SEEK_END)
        raw.seek(0)
        yield io.TextIOWrapper(raw, "utf-8-sig", errors="surrogateescape", newline=""), raw, size


def _refuse_what_is_no_text(head: bytes) -> None:
    if not head.removeprefix(b"\xef\xbb\xbf").strip():
        raise InputError("is empty; expected a header row with the names of the columns")
    for start, sentence in _STARTS:
        if head.startswith(start):
            raise InputError(sentence)
    first_line = head.splitlines()[0]
    if any(byte < 32 and byte != 9 for byte in first_line):
        raise InputError(f"is no text: its first line holds control characters; {_EXPECTED}")


def numbered_records(stream: Iterator[str], file: str, problems: Problems) -> Iterator[tuple[int, list[str]]]:
    """Yield the rows with their numbers as a spreadsheet shows them: the header is row 1.

    A row whose quotation marks do not pair up is named, and the reading goes on behind it.
    """
    reader = csv.reader(stream, strict=True)
    number = 0
    while True:
        number += 1
        try:
            record = next(reader)
        except StopIteration:
            return
        except csv.Error as error:
            problems.add(file, number, None, None, _quoting_sentence(str(error)))
            continue
        yield number, record


def _quoting_sentence(said: str) -> str:
    if "field limit" in said:
        return (
            f"a cell is longer than {csv.field_size_limit():,} characters; "
            "expected text cells of up to 2,000 (perhaps a quotation mark is never closed)"
        )
    return (
        "the quotation marks do not pair up; expected text with a comma or a line break between two "
        'quotation marks, and each quotation mark inside doubled ("")'
    )


def check_delimiter(header: Sequence[str], kind: FileKind) -> None:
    """Refuse a file whose cells are not separated by commas.

    Raises:
        InputError: the header is one cell that other delimiters would split into known columns.
    """
    if len(header) != 1:
        return
    for delimiter, words in ((";", "semicolons"), ("\t", "tabs"), ("|", "vertical bars")):
        names = [name.strip().strip('"') for name in header[0].split(delimiter)]
        if len(names) > 1 and any(kind.column(name.split("[")[0].strip()) for name in names):
            raise InputError(
                f"has {words} between the cells; expected commas (save it as 'CSV, comma separated')"
            )
