"""CSV files written: whole or not at all, and nothing in them that a spreadsheet would run."""

import csv
import os
from collections.abc import Iterator
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fleet.dictionary import CUSTOMERS
from fleet.exchange.problems import Problems
from fleet.exchange.reading import read_csv
from fleet.exchange.writing import guarded, unguarded, write_csv, write_text

FORMULAS = [
    "=1+1",
    "+1+1",
    "-1+1",
    "@SUM(A1)",
    "\t=1",
    "\r=1",
    " =1",
    "＝1+1",
    "-2+3+cmd|' /C calc'!A0",
    "-A1",
    "+A1",
    "'=1",
    '=HYPERLINK("http://x.example";"y")',
]


@pytest.mark.parametrize("text", FORMULAS)
def test_a_formula_gets_an_apostrophe_and_comes_back(text: str) -> None:
    assert guarded(text) == "'" + text
    assert unguarded(guarded(text)) == text


@pytest.mark.parametrize(
    "text", ["-11F", "-93.10", "+5", "-1,000ft", "-0.5bar(g)", "-3ft2", "Ridge Street", "'quoted'", "", "a=b"]
)
def test_figures_and_plain_text_stay_as_they_are(text: str) -> None:
    assert guarded(text) == text
    assert unguarded(text) == text


@given(st.text())
def test_the_guard_can_always_be_taken_off(text: str) -> None:
    assert unguarded(guarded(text)) == text


@given(st.text(alphabet="=+-@'\t\r\n 1AaF.(/)"))
def test_no_written_cell_begins_like_a_formula(text: str) -> None:
    written = guarded(text)
    if written.lstrip()[:1] in set("=@") or (written.lstrip()[:1] in set("+-") and written != text):
        raise AssertionError(written)
    if written[:1] in set("+-"):
        assert written.lstrip("+-")[:1].isdigit()
        assert not set(written[1:]) & set("=+-@'\t\r\n")


def test_what_was_written_is_read_back(tmp_path: Path) -> None:
    notes = [*(text.strip() for text in FORMULAS), 'a "quoted", text', "two\nlines", "ünï 冷"]
    rows = [[f"C{number}", "Name", note] for number, note in enumerate(notes)]
    path = tmp_path / "customers.csv"
    assert write_csv(path, ["customer", "name", "note"], rows) == len(notes)
    problems = Problems()
    table = read_csv(path, CUSTOMERS, problems)
    assert not problems
    assert [cells[2] for _, cells in table.rows] == notes


def test_an_error_leaves_the_former_file(tmp_path: Path) -> None:
    path = tmp_path / "list.csv"
    write_csv(path, ["a"], [["1"]])

    def broken() -> Iterator[list[str]]:
        yield ["2"]
        raise RuntimeError("no more")

    with pytest.raises(RuntimeError, match="no more"):
        write_csv(path, ["a"], broken())
    with path.open(newline="") as stream:
        assert list(csv.reader(stream)) == [["a"], ["1"]]
    assert os.listdir(tmp_path) == ["list.csv"]


def test_a_file_keeps_its_permissions(tmp_path: Path) -> None:
    path = tmp_path / "list.txt"
    write_text(path, "one")
    path.chmod(0o640)
    write_text(path, "two")
    assert path.read_text() == "two"
    assert path.stat().st_mode & 0o777 == 0o640
