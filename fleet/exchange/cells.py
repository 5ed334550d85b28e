"""Cells of a file, read once for each text: equipment lists repeat themselves.

Blanks around a cell are dropped; what is left is kept as it was typed.
"""

import re
from dataclasses import dataclass
from datetime import date, datetime

from fleet.dictionary import SETTING_BY_CODE, Column
from fleet.dictionary.kinds import BoxTag, Kind, TagText, Value
from fleet.errors import InputError
from fleet.exchange.writing import unguarded
from fleet.units import Dimension, Quantity

_BARE_NUMBER = re.compile(r"[-+−]?(\d[\d,]*)?(\.\d+)?")
_NOT_UTF8 = re.compile("[\udc80-\udcff]")
_MOST_REMEMBERED = 50_000
_MOST_REFUSED = 1_000


@dataclass(frozen=True, slots=True)
class TypedSetting:
    """The value of a setting: in SI, what it is (None for a plain count), and the text typed for it."""

    value_si: float
    dimension: Dimension | None
    text: str


Cell = Value | TypedSetting | None
"""A read cell; None where it is empty."""


class CellReader(dict[str, Cell]):
    """The texts of one column and what they were read as; looking up an unknown text reads it.

    Raises:
        InputError: from the look-up, if the column cannot hold the text.
    """

    def __init__(self, kind: Kind, *, unit: str = "", setting: bool = False, from_file: bool = True) -> None:
        super().__init__()
        self.kind = kind
        self.unit = unit
        self._setting = setting
        self._refused: dict[str, InputError] = {}
        self._from_file = from_file
        """Only cells of files carry the apostrophe that guards against formulas."""

    def __missing__(self, text: str) -> Cell:
        if text in self._refused:  # the nearest names are dear to find, and a bad text stands in many rows
            raise self._refused[text].with_traceback(None)
        try:
            cell = self._read(text)
        except InputError as error:
            if len(self._refused) < _MOST_REFUSED:
                self._refused[text] = error
            raise
        if len(self) >= _MOST_REMEMBERED:
            self.clear()
        self[text] = cell
        return cell

    def _read(self, text: str) -> Cell:
        refuse_wrong_encoding(text)
        typed = text.strip()
        if self._from_file:
            typed = unguarded(typed).strip()
        if not typed:
            return None
        if self.unit and _BARE_NUMBER.fullmatch(typed):
            typed += self.unit
        if isinstance(self.kind, TagText | BoxTag) and not typed.isprintable():
            raise InputError("holds a line break or a control character; expected a tag of one line")
        value = self.kind.read(typed)
        return _as_setting(value, typed) if self._setting else value


def column_reader(column: Column, unit: str = "", *, from_file: bool = True) -> CellReader:
    """Return the reader of a column; a setting that stands as a column is read as a setting."""
    setting = column.name in SETTING_BY_CODE
    return CellReader(column.kind, unit=unit, setting=setting, from_file=from_file)


def setting_readers(unit: str = "") -> dict[str, CellReader]:
    """Return the readers of the column ``value`` of settings.csv, by setting."""
    # The apostrophe came off when the cell was read as text.
    return {
        code: CellReader(setting.kind, unit=unit, setting=True, from_file=False)
        for code, setting in SETTING_BY_CODE.items()
    }


def _as_setting(value: Value, typed: str) -> TypedSetting:
    if isinstance(value, Quantity):
        return TypedSetting(value.value_si, value.dimension, value.text)
    assert isinstance(value, int | float)
    return TypedSetting(float(value), None, typed)


def refuse_wrong_encoding(text: str) -> None:
    """Refuse text that was decoded from something else than UTF-8.

    Raises:
        InputError: the first bad byte, and what it would be in the usual other encoding.
    """
    found = _NOT_UTF8.search(text)
    if found is not None:
        byte = ord(found.group()) - 0xDC00
        raise InputError(
            f"holds the byte 0x{byte:02X}, which is not UTF-8{_guess(byte)}; "
            "expected the file saved as 'CSV UTF-8'"
        )


def _guess(byte: int) -> str:
    """Say what the byte would be in the encoding that older spreadsheets write."""
    try:
        return f" (in Windows-1252 it is {bytes([byte]).decode('cp1252')!r})"
    except UnicodeDecodeError:
        return ""


def as_text(cell: Cell) -> str:
    """Return a cell as a sentence shows it."""
    if cell is None:
        return ""
    if isinstance(cell, Quantity | TypedSetting):
        return cell.text
    if isinstance(cell, bool):
        return "yes" if cell else "no"
    if isinstance(cell, tuple):
        return ";".join(cell)
    if isinstance(cell, datetime):
        return cell.isoformat().removesuffix(":00")
    return cell.isoformat() if isinstance(cell, date) else str(cell)
