"""Lists of findings: filtered, ordered, page by page, each finding ready to be shown."""

from collections.abc import Sequence

from db.pages import FindingFilter, FindingRow, FindingSort, anchors, counts, page, page_at
from fleet.audit.rules import RULES
from fleet.desk.finding_views import Bar, FindingView, dimension_of, finding_view
from fleet.desk.opened import Desk
from fleet.desk.paging import PAGE_ROWS, Anchors, Page


class FindingSource:
    """The pages of one list of findings; made anew when a filter changes."""

    def __init__(self, desk: Desk, narrowed: FindingFilter, sort: FindingSort = FindingSort.WORST) -> None:
        self.desk, self.narrowed, self.sort = desk, narrowed, sort

    def first(self, limit: int) -> Page[FindingView]:
        """Return the first rows, without counting anything."""
        with self.desk.engine.connect() as connection:
            found = page(connection, self.narrowed, self.sort, self.desk.today_day, limit=limit + 1)
        rows = found.rows[:limit]
        return Page(tuple(finding_view(row, self.desk) for row in rows), len(found.rows) > limit)

    def anchors(self) -> Anchors:
        """Count the rows and note the first key of each page."""
        with self.desk.engine.connect() as connection:
            found = anchors(connection, self.narrowed, self.sort, self.desk.today_day, step=PAGE_ROWS)
        return Anchors(found.total, found.keys)

    def page(self, index: int, anchors: Anchors) -> Sequence[FindingView]:
        """Return one page."""
        key = anchors.keys[index]
        assert isinstance(key, tuple)
        with self.desk.engine.connect() as connection:
            found = page_at(connection, self.narrowed, self.sort, self.desk.today_day, key, limit=PAGE_ROWS)
        return tuple(finding_view(row, self.desk) for row in found.rows)


def severity_counts(desk: Desk, narrowed: FindingFilter) -> dict[int, int]:
    """Return how many findings of each severity there are, the filter's own severity aside."""
    with desk.engine.connect() as connection:
        return counts(connection, narrowed, desk.today_day)


def all_findings(
    desk: Desk, narrowed: FindingFilter, sort: FindingSort = FindingSort.WORST
) -> list[FindingRow]:
    """Return every finding of a list, for the command line and for files."""
    rows: list[FindingRow] = []
    after = None
    with desk.engine.connect() as connection:
        while True:
            found = page(connection, narrowed, sort, desk.today_day, after=after, limit=5_000)
            rows.extend(found.rows)
            if len(found.rows) < 5_000:
                return rows
            after = found.keys[-1]


def rule_choices() -> tuple[tuple[str, str], ...]:
    """Return the rules by which lists may be narrowed: code and label."""
    return tuple((one.code, one.label) for one in RULES)


__all__ = [
    "Bar",
    "FindingFilter",
    "FindingRow",
    "FindingSort",
    "FindingSource",
    "FindingView",
    "all_findings",
    "dimension_of",
    "finding_view",
    "rule_choices",
    "severity_counts",
]
