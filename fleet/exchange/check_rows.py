"""Checks of an import."""

from collections.abc import Collection

from fleet.errors import InputError, UnknownNameError
from fleet.exchange.cells import Cell, as_text
from fleet.exchange.directory import Directory
from fleet.exchange.history import CHECK_COMPARED, Candidate, HistoryComparison
from fleet.exchange.impossible import contradictions
from fleet.exchange.outcome import Difference
from fleet.exchange.parts import check_part
from fleet.exchange.problems import Problems
from fleet.exchange.reading import Row, Table
from fleet.exchange.state import RegisterTable
from fleet.exchange.storage import Key, Stored, stored
from fleet.units import Quantity


class ChecksComparison:
    """Compares the rows of checks.csv with the checks of the register."""

    def __init__(
        self,
        register: RegisterTable,
        directory: Directory,
        problems: Problems,
        check_codes: Collection[str],
    ) -> None:
        self._history = HistoryComparison("checks", register, CHECK_COMPARED)
        self._directory, self._problems = directory, problems
        self._codes = frozenset(check_codes)

    @property
    def inserts(self) -> list[dict[str, Stored]]:
        """The records to append."""
        return self._history.inserts

    @property
    def differences(self) -> list[Difference]:
        """The corrections."""
        return self._history.differences

    def compare_row(self, table: Table, row: Row, key: Key) -> str:
        """Compare one row of checks.csv."""
        number, cells = row
        named = {column.name: cell for column, cell in zip(table.columns, cells, strict=True)}
        self._check_names(table, number, key, named)
        for field, text, sentence in contradictions(
            "checks", lambda name: stored(named.get(name)), lambda name: as_text(named[name])
        ):
            self._problems.add(table.file, number, field, text, sentence)
        return self._history.compare(key, _candidate(key, named))

    def _check_names(self, table: Table, row: int, key: Key, named: dict[str, Cell]) -> None:
        part, code, person = str(key[3]), str(key[4]), named.get("done_by")
        try:
            check_part(key[:3], part, self._directory)
        except InputError as error:
            self._problems.add_error(table.file, row, "part", part, error)
        if code not in self._codes:
            sentence = UnknownNameError("check", code, self._codes).message
            self._problems.add(table.file, row, "check_code", code, sentence)
        if isinstance(person, str) and not self._directory.knows("people", (person,)):
            sentence = self._directory.sentence_for_unknown("people", (person,))
            self._problems.add(table.file, row, "done_by", person, sentence)


def _candidate(key: Key, named: dict[str, Cell]) -> Candidate:
    *_, part, code, done_on = key
    minutes = named.get("minutes")
    values: dict[str, Stored] = {
        "system_id": key[:3],
        "part": part,
        "check_code": code,
        "done_on": done_on,
        "done_by_id": named.get("done_by"),
        "result": named.get("result"),
        "reason": named.get("reason"),
        "until": named.get("until"),
        "found": named.get("found"),
        "minutes_s": stored(minutes),
        "typed": {"minutes": minutes.text} if isinstance(minutes, Quantity) else {},
    }
    return Candidate(values, named)
