"""Records that are only ever appended: the settings and the checks of a system.

The same record again changes nothing. A differing one is appended beside the former, as its
correction; what the file leaves empty is taken over from the record that is corrected.
"""

from collections.abc import Mapping
from dataclasses import dataclass

from fleet.exchange.cells import Cell, as_text
from fleet.exchange.outcome import Difference
from fleet.exchange.rows import typed_texts
from fleet.exchange.state import Existing, RegisterTable
from fleet.exchange.storage import Key, Stored, key_texts


@dataclass(frozen=True, slots=True)
class Candidate:
    """A record as a file has it, by attribute, and its cells by column."""

    values: dict[str, Stored]
    cells: Mapping[str, Cell]


class HistoryComparison:
    """Compares the records of files with the latest records of the register under the same key."""

    def __init__(self, kind_name: str, register: RegisterTable, compared: Mapping[str, str]) -> None:
        self.kind_name, self.register = kind_name, register
        self.compared = compared
        """Column by attribute: what makes two records under one key differ."""
        self.inserts: list[dict[str, Stored]] = []
        self.differences: list[Difference] = []

    def compare(self, key: Key, candidate: Candidate, *, instead: Key | None = None) -> str:
        """Compare one record; return ``new``, ``changed`` or ``unchanged``.

        ``instead`` is a second key under which an equal record is as good.
        """
        existing = self.register.rows.get(key)
        if existing is None:
            other = self.register.rows.get(instead) if instead else None
            if other is not None and not self._differing(candidate, other):
                return "unchanged"
            self.inserts.append(candidate.values)
            return "new"
        differing = self._differing(candidate, existing)
        if not differing:
            return "unchanged"
        self.inserts.append(self._completed(candidate, existing))
        for column, attribute in {self.compared[name]: name for name in reversed(differing)}.items():
            self._name_difference(key, column, attribute, candidate, existing)
        return "changed"

    def _differing(self, candidate: Candidate, existing: Existing) -> list[str]:
        return [
            attribute
            for attribute in self.compared
            if (value := candidate.values[attribute]) is not None
            and value != self._former(existing, attribute)
        ]

    def _former(self, existing: Existing, attribute: str) -> Stored:
        """Return a former value; a reference to a person is its tag."""
        return self.register.value(existing, attribute)

    def _completed(self, candidate: Candidate, existing: Existing) -> dict[str, Stored]:
        completed = dict(candidate.values)
        for attribute in self.compared:
            if completed[attribute] is None:
                completed[attribute] = self._former(existing, attribute)
                if attribute == "minutes_s":
                    completed["typed"] = dict(typed_texts(existing))
        return completed

    def _name_difference(
        self, key: Key, column: str, attribute: str, candidate: Candidate, existing: Existing
    ) -> None:
        self.differences.append(
            Difference(
                self.kind_name,
                key_texts(key),
                column,
                self._text_before(existing, attribute),
                as_text(candidate.cells[column]),
            )
        )

    def _text_before(self, existing: Existing, attribute: str) -> str:
        former = self._former(existing, attribute)
        if attribute == "value_si":
            return "" if former is None else str(existing.typed)
        if attribute == "minutes_s":
            return "" if former is None else typed_texts(existing).get("minutes", str(former))
        return as_text(former)  # type: ignore[arg-type]


SETTING_COMPARED = {
    "value_si": "value",
    "dimension": "value",
    "recorded_by_id": "recorded_by",
    "confirmed": "confirmed",
    "note": "note",
}
CHECK_COMPARED = {
    "done_by_id": "done_by",
    "result": "result",
    "reason": "reason",
    "until": "until",
    "found": "found",
    "minutes_s": "minutes",
}
