"""Compare the files of an import with each other and with the register: what would change?

Every problem of every row is named before the import is refused as a whole.
"""

from collections.abc import Callable, Collection, Iterator

from fleet.dictionary import FILES, SETTING_BY_CODE
from fleet.exchange.cells import Cell
from fleet.exchange.check_rows import ChecksComparison
from fleet.exchange.directory import Directory
from fleet.exchange.gathering import Gathered
from fleet.exchange.keys import Seen, key_reader
from fleet.exchange.outcome import Counts, Difference, Plan, Update
from fleet.exchange.problems import Problems
from fleet.exchange.progress import EVERY_ROWS, Progress, Step, silent
from fleet.exchange.reading import Row, Table
from fleet.exchange.rows import RowComparison, parent_of_event
from fleet.exchange.setting_rows import SettingsComparison
from fleet.exchange.state import RegisterState
from fleet.exchange.storage import PARENT_KINDS, Key, Stored, singular, storage


def make_plan(
    gathered: Gathered,
    state: RegisterState,
    *,
    check_codes: Collection[str],
    progress: Progress = silent,
) -> Plan:
    """Compare the files with the register as it was read.

    Raises:
        ImportRefusedError: something in the files cannot be accepted; all of it is named.
    """
    planner = _Planner(gathered, state, check_codes, progress)
    # Rows of settings.csv go before settings that stand as columns, which are held against them.
    for name in ("settings", *(kind.name for kind in FILES if kind.name != "settings")):
        table = gathered.table(name)
        if table is not None:
            planner.compare_table(table)
    gathered.problems.refuse_if_any()
    return planner.plan()


class _Planner:
    """Goes through the tables and keeps what would be written."""

    def __init__(
        self, gathered: Gathered, state: RegisterState, check_codes: Collection[str], progress: Progress
    ) -> None:
        self.gathered, self.state, self.progress = gathered, state, progress
        self.problems: Problems = gathered.problems
        self.directory = Directory(state, gathered)
        self.settings = SettingsComparison(state.table("settings"), self.directory, self.problems)
        self.checks = ChecksComparison(state.table("checks"), self.directory, self.problems, check_codes)
        self.rows: dict[str, RowComparison] = {}
        self.counts: dict[str, Counts] = {}

    def compare_table(self, table: Table) -> None:
        """Compare all rows of one file."""
        tally = {"new": 0, "changed": 0, "unchanged": 0}
        compare = self._comparison(table)
        for row, key in self._keyed(table):
            tally[compare(row, key)] += 1
        self.counts[table.kind.name] = Counts(**tally)

    def plan(self) -> Plan:
        """Return what was found."""
        differences: list[Difference] = []
        inserts: dict[str, list[dict[str, Stored]]] = {}
        updates: dict[str, list[Update]] = {}
        for kind in FILES:
            if kind.name in self.rows:
                comparison = self.rows[kind.name]
                inserts[kind.name], updates[kind.name] = comparison.inserts, comparison.updates
                differences += comparison.differences
        for name, history in (("settings", self.settings), ("checks", self.checks)):
            inserts[name] = history.inserts
            differences += history.differences
        counts = {kind.name: self.counts[kind.name] for kind in FILES if kind.name in self.counts}
        return Plan(counts, tuple(differences), inserts, updates, self.state.ids(), self.state.stamp)

    def _comparison(self, table: Table) -> Callable[[Row, Key], str]:
        """Return the function that compares one row of a file."""
        name = table.kind.name
        if name == "settings":
            return lambda row, key: self.settings.compare_row(table, row, key)
        if name == "checks":
            return lambda row, key: self.checks.compare_row(table, row, key)
        rows = self.rows[name] = RowComparison(table, self.state, self.directory, self.problems)
        columns = {c.name: place for place, c in enumerate(table.columns) if c.name in SETTING_BY_CODE}

        def compare(row: Row, key: Key) -> str:
            status = rows.compare(row, key)
            if columns:
                settings = self.settings.compare_columns(table, row, key, columns)
                if status == "unchanged" and settings - {"unchanged"}:
                    return "changed"
            return status

        return compare

    def _keyed(self, table: Table) -> Iterator[tuple[Row, Key]]:
        """Yield the rows that can be identified and stand there once; name those that cannot."""
        key_of, seen = key_reader(table), Seen(table, self.problems)
        self._places = {name: place for name in PARENT_KINDS if (place := table.place(name)) is not None}
        for count, row in enumerate(table.rows, 1):
            key = key_of(row[1])
            if key is not None and seen.is_first(key, row[0]):
                self._check_parent(table, row, key)
                yield row, key
            if count % EVERY_ROWS == 0 or count == len(table.rows):
                self.progress(Step(f"comparing {table.file}", count, count, len(table.rows)))

    def _check_parent(self, table: Table, row: Row, key: Key) -> None:
        of = storage(table.kind.name)
        if table.kind.name == "events":
            kind, parent = self._parent_of_event(row[1])
        elif of.parent is None:
            return
        else:
            kind, parent = of.parent, key[: of.parent_key_length]
        unknown = self.directory.first_unknown(kind, parent)
        if unknown is not None and None not in parent:
            sentence = self.directory.sentence_for_unknown(*unknown)
            self.problems.add(table.file, row[0], singular(unknown[0]), str(unknown[1][-1]), sentence)

    def _parent_of_event(self, cells: tuple[Cell, ...]) -> tuple[str, Key]:
        return parent_of_event({name: cells[place] for name, place in self._places.items()})
