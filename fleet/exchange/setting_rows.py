"""Settings of an import: rows of settings.csv, and columns of systems.csv and boxes.csv.

A column is a first as-found, dated ``installed``, or before every dated record. It has a record of
its own, so it can correct itself and never what was recorded later.
"""

from collections.abc import Mapping
from datetime import date

from fleet.dictionary import SETTING_BY_CODE, PartKind
from fleet.dictionary.words import Stage
from fleet.errors import InputError
from fleet.exchange.cells import Cell, TypedSetting
from fleet.exchange.directory import Directory
from fleet.exchange.history import SETTING_COMPARED, Candidate, HistoryComparison
from fleet.exchange.outcome import Difference
from fleet.exchange.parts import check_setting_part, group_of_column
from fleet.exchange.pressures import setting_pa
from fleet.exchange.problems import Problems
from fleet.exchange.reading import Row, Table
from fleet.exchange.state import RegisterTable
from fleet.exchange.storage import Key, Stored, shown_key
from fleet.units import Quantity


class SettingsComparison:
    """Compares all settings of an import with those of the register."""

    def __init__(self, register: RegisterTable, directory: Directory, problems: Problems) -> None:
        self._history = HistoryComparison("settings", register, SETTING_COMPARED)
        self._directory, self._problems = directory, problems
        self._rows: dict[Key, tuple[str, int, TypedSetting]] = {}
        """The records of settings.csv, to hold columns against them."""

    @property
    def inserts(self) -> list[dict[str, Stored]]:
        """The records to append."""
        return self._history.inserts

    @property
    def differences(self) -> list[Difference]:
        """The corrections."""
        return self._history.differences

    def compare_row(self, table: Table, row: Row, key: Key) -> str:
        """Compare one row of settings.csv."""
        number, cells = row
        named = {column.name: cell for column, cell in zip(table.columns, cells, strict=True)}
        value, code, part = named["value"], str(named["setting"]), str(key[3])
        if not isinstance(value, TypedSetting):
            return "new"  # it could not be read, and that was named
        field = "part"
        try:
            check_setting_part(SETTING_BY_CODE[code], key[:3], part, self._directory)
            field = "value"
            value = self._as_shown(code, value, key[:3])
        except InputError as error:
            shown = part if field == "part" else value.text
            self._problems.add_error(table.file, number, field, shown, error)
            return "new"
        self._check_person(table, number, named.get("recorded_by"))
        self._rows[key] = (table.file, number, value)
        return self._history.compare(key, _candidate(key, value, named))

    def compare_columns(self, table: Table, row: Row, key: Key, columns: Mapping[str, int]) -> set[str]:
        """Compare the settings that stand as columns in one row of systems.csv or boxes.csv."""
        number, cells = row
        statuses = set()
        for code, place in columns.items():
            value = cells[place]
            if not isinstance(value, TypedSetting):
                continue
            try:
                part = self._part_of_column(code, key)
                value = self._as_shown(code, value, key[:3])
            except InputError as error:
                self._problems.add_error(table.file, number, code, value.text, error)
                continue
            installed = self._directory.fact(table.kind.name, key, "installed")
            statuses.add(self._compare_column(table, number, (*key[:3], part, code), value, installed))
        return statuses

    def _compare_column(
        self, table: Table, row: int, start: Key, value: TypedSetting, installed: Stored
    ) -> str:
        undated = (*start, Stage.AS_FOUND.value, None)
        key = (*start, Stage.AS_FOUND.value, installed)
        in_rows = self._rows.get(key)
        if in_rows is not None:
            self._check_same(table, row, str(start[-1]), value, in_rows)
            return "unchanged"
        return self._history.compare(key, _candidate(key, value, {}), instead=undated)

    def _check_same(
        self, table: Table, row: int, code: str, value: TypedSetting, in_rows: tuple[str, int, TypedSetting]
    ) -> None:
        file, other_row, other_value = in_rows
        if (value.value_si, value.dimension) != (other_value.value_si, other_value.dimension):
            expected = f"{file}, row {other_row} has another value of that day and stage; expected one value"
            self._problems.add(table.file, row, code, value.text, expected)

    def _part_of_column(self, code: str, key: Key) -> str:
        part = SETTING_BY_CODE[code].part
        if part is PartKind.BOX:
            return str(key[3])
        return group_of_column(key, self._directory) if part is PartKind.GROUP else ""

    def _as_shown(self, code: str, value: TypedSetting, system: Key) -> TypedSetting:
        """Return a pressure as its control shows it; its dimension stays the one that was typed."""
        if value.dimension is None:
            return value
        quantity = Quantity(value.value_si, value.dimension, value.text)
        shown = setting_pa(code, quantity, system, self._directory)
        return TypedSetting(shown, value.dimension, value.text)

    def _check_person(self, table: Table, row: int, person: Cell) -> None:
        if isinstance(person, str) and not self._directory.knows("people", (person,)):
            sentence = self._directory.sentence_for_unknown("people", (person,))
            self._problems.add(table.file, row, "recorded_by", person, sentence)


def _candidate(key: Key, value: TypedSetting, named: Mapping[str, Cell]) -> Candidate:
    *_, part, code, stage, recorded_on = key
    assert recorded_on is None or isinstance(recorded_on, date), shown_key(key)
    values: dict[str, Stored] = {
        "system_id": key[:3],
        "part": part,
        "setting": code,
        "value_si": value.value_si,
        "dimension": value.dimension.value if value.dimension else "",
        "typed": value.text,
        "stage": stage,
        "recorded_on": recorded_on,
        "recorded_by_id": named.get("recorded_by"),
        "confirmed": named.get("confirmed"),
        "note": named.get("note"),
    }
    return Candidate(values, {**named, "value": value})
