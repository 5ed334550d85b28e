"""Files of lists: all rows in their order, safe in a spreadsheet, whole or not at all."""

import csv
import os
from collections.abc import Sequence
from datetime import date
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from fleet.desk.csv_files import CsvColumn, CsvList, csv_list, is_there, proposed_file, write_list
from fleet.desk.findings import FindingFilter, FindingSort, all_findings
from fleet.desk.findings_csv import findings_csv
from fleet.desk.lists import Listed, RegisterSort, asked, register_source
from fleet.desk.lists_csv import register_csv
from fleet.desk.opened import Desk
from fleet.desk.paging import PAGE_ROWS, Anchors, Page, TupleSource, every_page
from fleet.errors import RegisterLockedError, UsageError
from fleet.exchange.writing import unguarded

pytestmark = pytest.mark.independent


def read(path: Path) -> list[list[str]]:
    with path.open(encoding="utf-8", newline="") as stream:
        return list(csv.reader(stream))


def numbers(count: int) -> CsvList[int]:
    return csv_list("numbers", TupleSource(range(count)), [CsvColumn("number", str)])


@pytest.mark.parametrize("count", [0, 1, PAGE_ROWS, PAGE_ROWS + 1, 3 * PAGE_ROWS + 7])
def test_every_row_is_written_once_in_order(tmp_path: Path, count: int) -> None:
    told: list[tuple[int, int]] = []
    written = write_list(
        tmp_path / "a.csv", numbers(count), tell=lambda done, total: told.append((done, total))
    )
    assert (written.rows, written.stopped) == (count, False)
    assert read(tmp_path / "a.csv") == [["number"], *([str(number)] for number in range(count))]
    assert [done for done, _ in told] == sorted({done for done, _ in told})
    assert not told or told[-1] == (count, count)


@pytest.mark.parametrize("what", Listed)
@pytest.mark.parametrize("sort", RegisterSort)
def test_a_file_holds_the_rows_of_the_list(
    demo: Desk, tmp_path: Path, what: Listed, sort: RegisterSort
) -> None:
    source = register_source(demo, asked(what, {}, "r", sort))
    lines = [line for page in every_page(source, source.anchors()) for line in page]
    write_list(tmp_path / "a.csv", register_csv(what, source))
    header, *rows = read(tmp_path / "a.csv")
    assert len(rows) == len(lines) > 0
    names = {
        "customer name": "customer_name",
        "act now": None,
        "next visit": None,
        "watch": None,
        "note": None,
    }
    for row, line in zip(rows, lines, strict=True):
        told = dict(zip(header, row, strict=True))
        for title in ("site", "system", "box", "refrigerant", "strategy", "kind", "setpoint", "customer"):
            if title in told:
                assert unguarded(told[title]) == getattr(line, title)
        assert [told[title] for title in list(names)[1:]] == [str(count) for count in line.found]


def test_findings_are_written_with_their_reasons(demo: Desk, tmp_path: Path) -> None:
    write_list(tmp_path / "f.csv", findings_csv(demo, FindingFilter(), FindingSort.WORST))
    header, *rows = read(tmp_path / "f.csv")
    found = all_findings(demo, FindingFilter())
    told = [dict(zip(header, row, strict=True)) for row in rows]
    assert [(row["site"], row["system"], row["setting"]) for row in told] == [
        (one.site, one.system, one.setting) for one in found
    ]
    assert all(row["reason"] for row in told)
    assert all(row["unit"] == "psig" for row in told if row["setting"] == "low_pressure_cut_in")


NASTY = st.text(st.characters(codec="utf-8", exclude_characters="\x00"), max_size=12)
STARTS = st.sampled_from(["", "=", "+", "-", "@", "'=", " =", "\t", "\r", "[/]", "[@click=app.quit]", "冷"])


@settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(cells=st.lists(st.builds(str.__add__, STARTS, NASTY), min_size=1, max_size=5))
def test_no_cell_runs_as_a_formula_and_all_come_back(tmp_path: Path, cells: list[str]) -> None:
    path = tmp_path / "n.csv"
    path.unlink(missing_ok=True)
    write_list(
        path, csv_list("names", TupleSource(cells), [CsvColumn("name", str), CsvColumn("x", lambda _: "x")])
    )
    with path.open(encoding="utf-8", newline="") as stream:
        first = [row[0] for row in csv.reader(stream)][1:]
    assert [unguarded(cell) for cell in first] == cells
    assert not any(cell.lstrip()[:1] in {"=", "@"} for cell in first)


class Failing:
    """A list whose second page cannot be read."""

    def first(self, limit: int) -> Page[int]:
        raise AssertionError("not asked for")

    def anchors(self) -> Anchors:
        return Anchors(400, (0, 200))

    def page(self, index: int, anchors: Anchors) -> Sequence[int]:
        if index:
            raise RegisterLockedError("The register is locked.")
        return range(200)


def test_a_failure_half_way_leaves_the_former_file(tmp_path: Path) -> None:
    path = tmp_path / "a.csv"
    path.write_text("before")
    with pytest.raises(RegisterLockedError, match="locked"):
        write_list(path, csv_list("numbers", Failing(), [CsvColumn("number", str)]))
    assert path.read_text() == "before"
    assert os.listdir(tmp_path) == ["a.csv"]


def test_a_stopped_file_is_not_left_behind(tmp_path: Path) -> None:
    asked_often = iter([False, False, True])
    written = write_list(tmp_path / "a.csv", numbers(1000), stop=lambda: next(asked_often))
    assert written.stopped
    assert written.rows == 0
    assert os.listdir(tmp_path) == []


def test_where_nothing_can_be_written_it_says_so(tmp_path: Path) -> None:
    with pytest.raises(UsageError, match=r"there is no folder .*nowhere\. Name one that exists\."):
        write_list(tmp_path / "nowhere" / "a.csv", numbers(1))
    (tmp_path / "folder").mkdir()
    with pytest.raises(UsageError, match=r"this is a folder\. Add a file name\."):
        write_list(tmp_path / "folder", numbers(1))
    with pytest.raises(UsageError, match="file name too long"):
        write_list(tmp_path / ("x" * 400), numbers(1))
    assert os.listdir(tmp_path) == ["folder"]


def test_a_name_is_proposed_that_is_free(tmp_path: Path) -> None:
    day = date(2026, 11, 25)
    first = proposed_file("due checks", day, tmp_path)
    assert first.name == "due-checks-2026-11-25.csv"
    assert not is_there(first)
    first.touch()
    assert is_there(first)
    assert proposed_file("due checks", day, tmp_path).name == "due-checks-2026-11-25-2.csv"
    assert not is_there(tmp_path / ("x" * 400))
