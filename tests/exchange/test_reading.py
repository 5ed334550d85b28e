"""One file: whatever is wrong with it is named with its row, its field, its value, and what is expected."""

import csv
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fleet.dictionary import BOXES, COMPRESSORS, FILE_BY_NAME, PEOPLE, SETTINGS_FILE, SYSTEMS, FileKind
from fleet.errors import ImportRefusedError
from fleet.exchange.cells import TypedSetting
from fleet.exchange.gathering import read_files
from fleet.exchange.problems import KEPT, Problems
from fleet.exchange.progress import Step
from fleet.exchange.reading import Table, read_csv, read_rows
from fleet.text import clean
from fleet.units import Quantity

HEADER = "customer,site,system,charge\n"


def read(folder: Path, content: bytes | str, kind: FileKind = SYSTEMS) -> tuple[Table, list[str]]:
    path = folder / kind.file_name
    path.write_bytes(content.encode() if isinstance(content, str) else content)
    problems = Problems()
    table = read_csv(path, kind, problems)
    return table, [str(problem) for problem in problems.kept]


def cells(table: Table, row: int = 0) -> dict[str, object]:
    return {c.name: cell for c, cell in zip(table.columns, table.rows[row][1], strict=True)}


def test_order_of_columns_is_free(tmp_path: Path) -> None:
    table, problems = read(tmp_path, "charge,system,customer,site\n22lb,WC-2,ALDER,Ridge\n")
    assert problems == []
    assert cells(table)["site"] == "Ridge"
    charge = cells(table)["charge"]
    assert isinstance(charge, Quantity)
    # published: NIST SP 811, Appendix B.8: 1 lb is 0.453 592 37 kg exactly
    assert charge.value_si == pytest.approx(22 * 0.45359237, rel=1e-15)
    assert charge.text == "22lb"


@pytest.mark.parametrize("start", [b"", b"\xef\xbb\xbf"])
@pytest.mark.parametrize("end", [b"\n", b"\r\n", b"\r"])
def test_byte_order_mark_and_line_ends_do_not_matter(tmp_path: Path, start: bytes, end: bytes) -> None:
    table, problems = read(tmp_path, start + end.join([b"customer,site,system", b"A,B,C", b"A,B,D", b""]))
    assert problems == []
    assert [row[1] for row in table.rows] == [("A", "B", "C"), ("A", "B", "D")]


def test_header_carries_the_unit_of_bare_numbers(tmp_path: Path) -> None:
    table, problems = read(tmp_path, "customer,site,system,charge [lb]\nA,B,C,22\nA,B,D,10kg\nA,B,E,\n")
    assert problems == []
    texts = [getattr(cells(table, row)["charge"], "text", None) for row in range(3)]
    assert texts == ["22lb", "10kg", None]


def test_header_carries_the_unit_of_settings(tmp_path: Path) -> None:
    header = "customer,site,system,part,setting,value [psig],stage,recorded_on\n"
    content = header + "A,B,C,,low_pressure_cut_in,-2,as-found,2026-01-02\n"
    table, problems = read(tmp_path, content, SETTINGS_FILE)
    assert problems == []
    value = cells(table)["value"]
    assert isinstance(value, TypedSetting)
    assert value.text == "-2psig"


@pytest.mark.parametrize(
    ("heading", "sentence"),
    [
        (
            "nmae",
            "systems.csv, row 1, nmae: is not a column of systems.csv; nearest: name, make",
        ),
        (
            "zzzz",
            "systems.csv, row 1, zzzz: is not a column of systems.csv; expected columns of systems.csv",
        ),
        (
            "customer",
            "systems.csv, row 1, customer: stands twice in the header; expected each column once",
        ),
        (
            "charge [ft]",
            "systems.csv, row 1, charge: '[ft]': is a length; expected a mass like 12lb or 5.4kg.",
        ),
        (
            "name [ft]",
            "systems.csv, row 1, name: carries the unit 'ft', but holds text of up to 200 characters; "
            "expected no unit",
        ),
    ],
)
def test_header_sentences(tmp_path: Path, heading: str, sentence: str) -> None:
    _, problems = read(tmp_path, f"customer,site,system,{heading}\nA,B,C,\n")
    assert problems == [sentence]


def test_missing_required_columns_are_each_named(tmp_path: Path) -> None:
    _, problems = read(tmp_path, "customer,name\nA,x\n")
    assert problems == [
        f"systems.csv, row 1, {name}: the column is missing; every row needs text of up to 80 characters"
        for name in ("site", "system")
    ]


def test_a_number_of_the_key_is_needed(tmp_path: Path) -> None:
    _, problems = read(tmp_path, "customer,site,system,position\nA,B,C,\n", COMPRESSORS)
    assert problems == ["compressors.csv, row 2, position: is empty; expected a whole number from 1 to 99"]


def test_every_bad_cell_of_every_row_is_named_in_one_pass(tmp_path: Path) -> None:
    content = (
        "customer,site,system,charge,strategy,installed,grease,voltage\n"
        "A,B,C,22,recycling,2020-13-01,maybe,208V\n"
        ",B,D,-1lb,remote-rack,,no,208F\n"
    )
    _, problems = read(tmp_path, content)
    assert problems == [
        "systems.csv, row 2, charge: '22': has no unit; expected a mass like 12lb or 5.4kg.",
        "systems.csv, row 2, strategy: 'recycling': expected one of recycling-pump-down, one-time-pump-down, "
        "pressure-cycling, thermostat-cycling, remote-rack; nearest: pressure-cycling, recycling-pump-down",
        "systems.csv, row 2, installed: '2020-13-01': expected a date like 2026-11-25",
        "systems.csv, row 2, grease: 'maybe': expected yes or no",
        "systems.csv, row 3, charge: '-1lb': is less than nothing; a mass like 12lb or 5.4kg is expected.",
        "systems.csv, row 3, voltage: '208F': is a temperature; expected a voltage like 208V.",
        "systems.csv, row 3, customer: is empty; expected text of up to 80 characters",
    ]


def test_a_setting_is_read_as_its_own_kind(tmp_path: Path) -> None:
    header = "customer,site,system,part,setting,value,stage,recorded_on\n"
    content = (
        header
        + "A,B,C,B1,setpoint,36psig,as-found,2026-01-02\n"
        + "A,B,C,B1,setpont,36F,as-found,2026-01-02\n"
        + "A,B,C,B1,defrosts_per_day,4/day,as-found,2026-01-02\n"
        + "A,B,C,B1,setpoint,,as-found,2026-01-02\n"
    )
    table, problems = read(tmp_path, content, SETTINGS_FILE)
    assert problems[0] == (
        "settings.csv, row 2, value: '36psig': is a gauge pressure; expected a temperature like 36F or 2.2C."
    )
    assert problems[1].startswith("settings.csv, row 3, setting: 'setpont': expected one of ")
    assert problems[1].endswith("; nearest: setpoint")
    assert problems[2:] == ["settings.csv, row 5, value: is empty; expected text of up to 60 characters"]
    assert cells(table, 2)["value"] == TypedSetting(4.0, None, "4/day")


@pytest.mark.parametrize(
    ("content", "sentence"),
    [
        (b"", "systems.csv: is empty; expected a header row with the names of the columns"),
        (b"\xef\xbb\xbf", "systems.csv: is empty; expected a header row with the names of the columns"),
        (b"\r\n\r\n", "systems.csv: is empty; expected a header row with the names of the columns"),
        (b"\ncustomer\n", "systems.csv: begins with an empty row; expected the header row first"),
        (
            b"PK\x03\x04rest",
            "systems.csv: is a spreadsheet workbook or an archive; expected a CSV file in UTF-8, "
            "as spreadsheets save it",
        ),
        (b"SQLite format 3\x00", "systems.csv: is a database; expected a CSV file in UTF-8"),
        (
            "customer,site".encode("utf-16"),
            "systems.csv: is encoded in UTF-16; expected a CSV file in UTF-8",
        ),
        (
            b"\x7fELF\x02\x01\x01\x00",
            "systems.csv: is no text: its first line holds control characters; expected a CSV file in UTF-8",
        ),
        (
            b"customer;site;system\r\nA;B;C\r\n",
            "systems.csv: has semicolons between the cells; expected commas "
            "(save it as 'CSV, comma separated')",
        ),
        (
            b"customer\tsite\tsystem\nA\tB\tC\n",
            "systems.csv: has tabs between the cells; expected commas (save it as 'CSV, comma separated')",
        ),
    ],
)
def test_what_is_no_csv_file(tmp_path: Path, content: bytes, sentence: str) -> None:
    table, problems = read(tmp_path, content)
    assert problems == [sentence]
    assert not table.complete


def test_wrong_encoding_names_byte_and_row_and_goes_on(tmp_path: Path) -> None:
    content = "customer,site,system\nA,Café,C\nA,B,C\nA,Maß,D\n".encode("cp1252")
    table, problems = read(tmp_path, content)
    assert problems == [
        "systems.csv, row 2, site: 'Caf�': holds the byte 0xE9, which is not UTF-8 "
        "(in Windows-1252 it is 'é'); expected the file saved as 'CSV UTF-8'",
        "systems.csv, row 4, site: 'Ma�': holds the byte 0xDF, which is not UTF-8 "
        "(in Windows-1252 it is 'ß'); expected the file saved as 'CSV UTF-8'",
    ]
    assert len(table.rows) == 3


def test_wrong_encoding_of_the_header(tmp_path: Path) -> None:
    _, problems = read(tmp_path, "customer,site,system,Größe\nA,B,C,1\n".encode("latin-1"))
    assert len(problems) == 1
    assert "row 1, column 4: 'Gr��e': holds the byte 0xF6" in problems[0]


def test_rows_with_too_many_cells(tmp_path: Path) -> None:
    table, problems = read(tmp_path, HEADER + "A,B,C,1,000lb\nA,B,D,1lb,,\nA,B,E\n")
    assert problems == [
        "systems.csv, row 2: '000lb': 5 cells, where the header has 4; expected 4 "
        "(a text with a comma in it stands between quotation marks)",
        "systems.csv, row 2, charge: '1': has no unit; expected a mass like 12lb or 5.4kg.",
    ]
    assert cells(table, 2) == {"customer": "A", "site": "B", "system": "E", "charge": None}


def test_cells_under_an_empty_heading(tmp_path: Path) -> None:
    _, problems = read(tmp_path, "customer,site,system,,\nA,B,C,,\nA,B,D,,x\n")
    assert problems == [
        "systems.csv, row 3, column 5: 'x': stands under an empty heading; "
        "expected the name of a column above it"
    ]


def test_line_breaks_inside_text_are_kept_and_rows_counted_as_a_spreadsheet_does(tmp_path: Path) -> None:
    content = 'customer,site,system,manual_note,charge\nA,B,C,"one\ntwo",1lb\n\nA,B,D,,1\n'
    table, problems = read(tmp_path, content)
    assert cells(table)["manual_note"] == "one\ntwo"
    assert problems == ["systems.csv, row 4, charge: '1': has no unit; expected a mass like 12lb or 5.4kg."]


def test_a_tag_is_one_line(tmp_path: Path) -> None:
    _, problems = read(tmp_path, 'customer,site,system\n"A\nB",B,C\n')
    assert problems == [
        "systems.csv, row 2, customer: 'A\\nB': holds a line break or a control character; "
        "expected a tag of one line"
    ]


def test_nul_is_refused_where_it_stands(tmp_path: Path) -> None:
    _, problems = read(tmp_path, "customer,site,system,name\nA,B,C,x\x00y\n")
    assert problems == [
        "systems.csv, row 2, name: 'x\\x00y': a NUL character cannot be kept; expected plain text"
    ]


def test_quotation_marks_that_do_not_pair_up(tmp_path: Path) -> None:
    _, problems = read(tmp_path, 'customer,site,system\nA,"B"x,C\nA,B,\nA,"B,C\n')
    assert len(problems) == 3
    assert problems[0].startswith("systems.csv, row 2: the quotation marks do not pair up; expected text")
    assert problems[1] == "systems.csv, row 3, system: is empty; expected text of up to 80 characters"
    assert problems[2].startswith("systems.csv, row 4: the quotation marks do not pair up; expected text")


def test_a_cell_beyond_the_limit_of_the_csv_module(tmp_path: Path) -> None:
    long = "x" * (csv.field_size_limit() + 1)
    table, problems = read(tmp_path, f"customer,site,system,name\nA,B,C,{long}\nA,B,D,y\n")
    assert problems == [
        "systems.csv, row 2: a cell is longer than 131,072 characters; expected text cells of up to 2,000 "
        "(perhaps a quotation mark is never closed)"
    ]
    assert cells(table)["system"] == "D"


def test_text_of_too_many_characters(tmp_path: Path) -> None:
    _, problems = read(tmp_path, f"customer,site,system\n{'x' * 91},B,C\n")
    assert problems == [
        f"systems.csv, row 2, customer: '{'x' * 80}…': 91 characters; expected text of up to 80 characters"
    ]


def test_a_quantity_beyond_all_numbers(tmp_path: Path) -> None:
    _, problems = read(tmp_path, HEADER + f"A,B,C,{'9' * 400}lb\n")
    assert problems == [
        f"systems.csv, row 2, charge: '{'9' * 80}…': is larger than any quantity; "
        "expected a mass like 12lb or 5.4kg."
    ]


def test_a_box_may_not_be_called_like_a_compressor(tmp_path: Path) -> None:
    _, problems = read(tmp_path, "customer,site,system,box\nA,B,C,Compressor 1\n", BOXES)
    assert problems == [
        "boxes.csv, row 2, box: 'Compressor 1': a box's tag may not begin with 'compressor ' or 'group '; "
        "expected another tag"
    ]


def test_an_unknown_refrigerant_is_refused_with_the_nearest(tmp_path: Path) -> None:
    _, problems = read(tmp_path, "customer,site,system,refrigerant\nA,B,C,R-404B\n")
    assert len(problems) == 1
    start = "systems.csv, row 2, refrigerant: 'R-404B': There is no refrigerant 'R-404B'. Nearest: "
    assert problems[0].startswith(start)
    assert "R-404A" in problems[0]


def test_rows_given_as_dictionaries_go_through_the_same_checks() -> None:
    problems = Problems()
    rows = [{"person": "R. Osei", "role": "technician"}, {"person": "X", "role": "cook", "shoe": "44"}]
    table = read_rows(PEOPLE, rows, problems)
    assert len(table.rows) == 2
    sentences = [str(problem) for problem in problems.kept]
    assert sentences[0].startswith("people.csv, row 1, shoe: is not a column of people.csv")
    assert sentences[1].startswith("people.csv, row 3, role: 'cook': expected one of planner, ")


def test_progress_tells_rows_and_bytes(tmp_path: Path) -> None:
    path = tmp_path / "people.csv"
    path.write_text("person,role\n" + "".join(f"P{number},technician\n" for number in range(30_000)))
    steps: list[Step] = []
    read_csv(path, PEOPLE, Problems(), steps.append)
    size = path.stat().st_size
    assert len(steps) > 10
    assert [step.done for step in steps] == sorted(step.done for step in steps)
    assert steps[-1] == Step("reading people.csv", 30_000, size, size)
    assert 0 < steps[0].done < size


def test_progress_can_stop_the_reading(tmp_path: Path) -> None:
    path = tmp_path / "people.csv"
    path.write_text("person,role\n" + "P,technician\n" * 10_000)

    def stop(step: Step) -> None:
        raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        read_csv(path, PEOPLE, Problems(), stop)


def test_a_long_list_of_problems_keeps_its_count(tmp_path: Path) -> None:
    path = tmp_path / "people.csv"
    path.write_text("person,role\n" + "P,cook\n" * 5_000)
    problems = Problems()
    read_csv(path, PEOPLE, problems)
    error = problems.refusal()
    lines = str(error).splitlines()
    assert lines[0] == "Nothing was imported: 5,000 problems."
    assert lines[-1] == "  and 4,960 more."
    assert len(lines) == ImportRefusedError.PRINTED + 2
    assert len(error.problems) == KEPT
    assert error.where == "people.csv"


def test_files_are_known_by_their_names(tmp_path: Path) -> None:
    (tmp_path / "more").mkdir()
    for path in (tmp_path / "people.csv", tmp_path / "more" / "People.CSV", tmp_path / "systms.csv"):
        path.write_text("person,role\nP,technician\n")
    gathered = read_files([tmp_path, tmp_path / "more" / "People.CSV", tmp_path / "gone" / "sites.csv"])
    assert list(gathered.tables) == ["people", "sites"]
    assert [problem.expected for problem in gathered.problems.kept] == [
        "There is no kind of file 'systms.csv'. Nearest: systems.csv, sites.csv, customers.csv.",
        "is given twice; expected each file once",
        "does not exist; expected the path of a CSV file",
    ]


def test_a_folder_without_files(tmp_path: Path) -> None:
    gathered = read_files([tmp_path])
    sentence = str(gathered.problems.kept[0])
    assert sentence.startswith("import: no CSV file is given; expected some of people.csv")


def test_every_kind_reads_its_own_examples() -> None:
    for kind in FILE_BY_NAME.values():
        problems = Problems()
        read_rows(kind, [{c.name: c.example for c in kind.all_columns}], problems)
        assert [str(problem) for problem in problems.kept] == []


@given(st.binary(max_size=400), st.sampled_from([b"", b"customer,site,system,charge [lb],note\n"]))
def test_no_bytes_raise_anything_but_a_problem(content: bytes, start: bytes) -> None:
    with TemporaryDirectory() as folder:
        path = Path(folder) / "systems.csv"
        path.write_bytes(start + content)
        problems = Problems()
        table = read_csv(path, SYSTEMS, problems)
        assert table.complete or problems
        sentences = [str(problem) for problem in problems.kept]
        assert sentences == [clean(sentence) for sentence in sentences]  # a terminal obeys nothing in it
