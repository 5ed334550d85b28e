"""The demo looks the same whenever it is made, only later."""

from datetime import date, datetime, timedelta

import pytest

from seeds_demo import demo_files

Files = dict[str, list[dict[str, str]]]

DAY_COLUMNS = frozenset(
    {
        "review_due",
        "records_since",
        "installed",
        "in_service",
        "out_of_service",
        "recorded_on",
        "happened_on",
        "done_on",
        "called_at",
        "arrived_at",
        "restored_at",
        "closed",
    }
)


def _moved(column: str, cell: str, days: int) -> str:
    if column not in DAY_COLUMNS:
        return cell
    if "T" in cell:
        return (datetime.fromisoformat(cell) + timedelta(days=days)).isoformat(timespec="minutes")
    parts = [date.fromisoformat(part) + timedelta(days=days) for part in cell.split("/")]
    return "/".join(part.isoformat() for part in parts)


def test_same_day_same_rows(demo: Files, today: date) -> None:
    assert demo_files(today) == demo


@pytest.mark.parametrize("later", [1, 44, 400])
def test_another_day_moves_every_date_and_nothing_else(demo: Files, today: date, later: int) -> None:
    moved = {
        name: [{column: _moved(column, cell, later) for column, cell in row.items()} for row in rows]
        for name, rows in demo.items()
    }
    assert demo_files(today + timedelta(days=later)) == moved
