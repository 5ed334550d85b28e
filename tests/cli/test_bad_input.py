"""What a clumsy or a hostile hand gives the commands: a sentence, exit code 2, and nothing changed."""

import json
import os
import sqlite3
import subprocess
import sys
from contextlib import closing
from pathlib import Path

import pytest

from tests.cli.running import refused, refused_in_words, run, said

pytestmark = pytest.mark.independent

TODAY = ("--today", "2026-11-25")
SETTING_HEAD = "customer,site,system,part,setting,value,stage,recorded_on\n"
WC_2 = "QUILL,Grain Exchange,WC-2"


@pytest.fixture
def register(demo_file: Path, tmp_path: Path) -> Path:
    """A copy of the demo register."""
    return copied(demo_file, tmp_path / "r.sqlite")


def copied(of: Path, path: Path) -> Path:
    path.write_bytes(of.read_bytes())
    return path


def saved(folder: Path, name: str, content: str | bytes) -> Path:
    path = folder / name
    path.write_bytes(content if isinstance(content, bytes) else content.encode())
    return path


def fetch(register: Path, sql: str) -> list[tuple[object, ...]]:
    with closing(sqlite3.connect(register)) as connection:
        return connection.execute(sql).fetchall()


# --- files -----------------------------------------------------------------------------------------

REFUSED_FILES: list[tuple[str, str | bytes, str]] = [
    ("customers.csv", b"", "is empty; expected a header row"),
    ("customers.csv", b"\n\n\n", "is empty; expected a header row"),
    ("customers.csv", bytes(range(256)), "is no text"),
    ("customers.csv", "customer,name\nA,B\n".encode("utf-16"), "is encoded in UTF-16"),
    (
        "customers.csv",
        "customer,name\nA,Café\n".encode("latin-1"),
        "row 2, name: 'Caf�': holds the byte 0xE9",
    ),
    ("customers.csv", "customer;name\nA;B\n", "has semicolons between the cells; expected commas"),
    ("customers.csv", "customer,name\nA,B\nA,C\n", "'A': this customer stands in row 2 already"),
    ("customers.csv", "name\nB\n", "row 1, customer: the column is missing"),
    ("customers.csv", "customer,phne\nA,1\n", "phne: is not a column of customers.csv; nearest: phone"),
    ("customers.csv", "customer,name\nA,B,C\n", "row 2: 'C': 3 cells, where the header has 2"),
    (
        "customers.csv",
        "customer,name\nA\x1b[31m,B\n",
        "row 2, customer: 'A\\x1b[31m': holds a line break or a",
    ),
    ("customers.csv", "customer,name\n\u202eA,B\n", "row 2, customer: '\\u202eA': holds a line break or a"),
    ("customers.csv", "customer,name\nA,B\x00\n", "row 2, name: 'B\\x00': a NUL character cannot be kept"),
    (
        "custmers.csv",
        "customer,name\nA,B\n",
        "There is no kind of file 'custmers.csv'. Nearest: customers.csv",
    ),
    ("sites.csv", "customer,site\nQUIL,Here\n", "There is no customer 'QUIL'. Nearest: QUILL."),
    (
        "systems.csv",
        "customer,site,system,refrigerant\nQUILL,Grain Exchange,X,R-404B\n",
        "There is no refrigerant 'R-404B'. Nearest: R-404A",
    ),
    (
        "systems.csv",
        "customer,site,system,strategy\nQUILL,Grain Exchange,X,recyclng-pump-down\n",
        "nearest: recycling-pump-down",
    ),
    (
        "systems.csv",
        "customer,site,system,charge\nQUILL,Grain Exchange,X,-5lb\n",
        "'-5lb': is less than nothing",
    ),
    ("systems.csv", "customer,site,system,charge [F]\nQUILL,Grain Exchange,X,5\n", "'[F]': is a temperature"),
    (
        "boxes.csv",
        f"customer,site,system,box,setpoint\n{WC_2},B1,-500F\n",
        "row 2, setpoint: '-500F': is below absolute zero",
    ),
    ("settings.csv", f"{SETTING_HEAD}{WC_2},B7,setpoint,36F,as-left,2026-11-01\n", "WC-2 'B7'. Known: B1"),
    (
        "settings.csv",
        f"{SETTING_HEAD}{WC_2},,low_presure_cut_in,9psig,as-left,2026-11-01\n",
        "nearest: low_pressure_cut_in",
    ),
    (
        "settings.csv",
        f"{SETTING_HEAD}{WC_2},,low_pressure_cut_in,-20psig,as-left,2026-11-01\n",
        "'-20psig': is below a full vacuum",
    ),
    (
        "compressors.csv",
        f"customer,site,system,position,in_service,out_of_service\n{WC_2},1,2026-01-01,2025-01-01\n",
        "'2025-01-01': lies before in_service 2026-01-01",
    ),
]


@pytest.mark.parametrize(("name", "content", "sentence"), REFUSED_FILES)
def test_a_file_that_cannot_be_accepted(
    register: Path, tmp_path: Path, name: str, content: str | bytes, sentence: str
) -> None:
    before = register.read_bytes()
    assert sentence in refused_in_words("import", str(register), str(saved(tmp_path, name, content)), *TODAY)
    assert register.read_bytes() == before
    assert sorted(path.name for path in tmp_path.iterdir()) == sorted([name, "r.sqlite"])


def test_places_that_are_no_file(register: Path, tmp_path: Path) -> None:
    (tmp_path / "boxes.csv").mkdir()
    (tmp_path / "empty").mkdir()
    os.mkfifo(tmp_path / "events.csv")
    saved(tmp_path, "customers.csv", "customer\nA\n")
    for given, sentence in (
        ("sites.csv", "sites.csv: does not exist; expected the path of a CSV file"),
        ("empty", "no CSV file is given; expected some of people.csv, customers.csv"),
        ("events.csv", "events.csv: is a pipe or a device; expected a CSV file"),
    ):
        assert sentence in refused_in_words("import", str(register), str(tmp_path / given))
    assert "boxes.csv: is a folder" in refused_in_words("import", str(register), str(tmp_path))
    twice = str(tmp_path / "customers.csv")
    assert "is given twice; expected each file once" in refused_in_words(
        "import", str(register), twice, twice
    )


@pytest.mark.parametrize(
    ("name", "row", "field"),
    [
        (
            "settings.csv",
            f"{SETTING_HEAD}{WC_2},,low_pressure_cut_in,9psig,as-left,2062-11-01\n",
            "recorded_on",
        ),
        (
            "checks.csv",
            f"customer,site,system,part,check_code,done_on,result\n{WC_2},,condenser_coil,2026-12-01,done\n",
            "done_on",
        ),
        (
            "events.csv",
            f"reference,customer,site,system,kind,happened_on\nE,{WC_2},call,2027-01-01\n",
            "happened_on",
        ),
    ],
)
def test_a_day_that_has_not_come(register: Path, tmp_path: Path, name: str, row: str, field: str) -> None:
    file = saved(tmp_path, name, row)
    sentence = refused_in_words("import", str(register), str(file), *TODAY)
    assert f"{name}, row 2, {field}: " in sentence
    assert "lies ahead of today, 2026-11-25; expected a day that has come" in sentence


def test_tomorrow_has_come_at_a_site_a_day_ahead(register: Path, tmp_path: Path) -> None:
    row = f"{SETTING_HEAD}{WC_2},,low_pressure_cut_in,9psig,as-left,2026-11-26\n"
    assert run("import", str(register), str(saved(tmp_path, "settings.csv", row)), *TODAY)["written"] is True


def test_many_bad_rows_are_counted_and_the_list_is_cut(register: Path, tmp_path: Path) -> None:
    rows = "".join(f"QUILL,Grain Exchange,X{number},R-404B\n" for number in range(10_000))
    file = saved(tmp_path, "systems.csv", "customer,site,system,refrigerant\n" + rows)
    lines = refused_in_words("import", str(register), str(file)).splitlines()
    assert lines[0] == "coldround: Nothing was imported: 10,000 problems."
    assert lines[-1] == "  and 9,960 more."
    assert len(lines) == 42


def test_a_bad_text_is_refused_alike_in_each_row(register: Path, tmp_path: Path) -> None:
    file = saved(tmp_path, "people.csv", "person,role\nA,boss\nB,boss\n")
    first, second = refused_in_words("import", str(register), str(file)).splitlines()[1:]
    assert first.replace("row 2", "row 3") == second


def test_a_cut_out_above_cut_in_is_kept_and_found(register: Path, tmp_path: Path) -> None:
    row = f"{SETTING_HEAD}{WC_2},,low_pressure_cut_out,13psig,as-left,2026-11-20\n"
    assert run("import", str(register), str(saved(tmp_path, "settings.csv", row)), *TODAY)["written"] is True
    found = run("audit", str(register), *TODAY, "--customer", "QUILL", "--site", "Grain Exchange")["findings"]
    conflicts = [f for f in found if f["system"] == "WC-2" and f["verdict"] == "conflicting"]
    assert [f["setting"] for f in conflicts] == ["low_pressure_differential"]
    assert "Cut-out at or above cut-in" in conflicts[0]["reason"]


HOSTILE = [
    "[bold]x[/]",
    "[/]",
    "\\",
    "a\\b",
    "=cmd|calc",
    "+1+1",
    "-x",
    "@x",
    "宽宽",
    "a\u0301",
    '"q"',
    "'=x",
]


def test_hostile_tags_are_kept_as_typed(register: Path, tmp_path: Path) -> None:
    quoted = ['"' + tag.replace('"', '""') + '"' for tag in HOSTILE]
    file = saved(tmp_path, "customers.csv", "customer,name\n" + "".join(f"{tag},n\n" for tag in quoted))
    assert run("import", str(register), str(file), *TODAY)["counts"]["customers"]["new"] == len(HOSTILE)
    # the apostrophe in front of a formula is the guard of spreadsheets, and comes off
    kept = [row[0] for row in fetch(register, "SELECT customer FROM customers WHERE name = 'n' ORDER BY id")]
    assert kept == [*HOSTILE[:-1], "=x"]
    assert run("import", str(register), str(file), *TODAY)["written"] is False


def test_a_terminal_only_prints_what_people_typed(register: Path, tmp_path: Path) -> None:
    name = "\x1b[31mred\u202e\x07"
    site = f'customer,site,name\nQUILL,[/]New,"{name}"\n'
    assert run("import", str(register), str(saved(tmp_path, "sites.csv", site)), *TODAY)["written"] is True
    for sentence in (
        refused_in_words("audit", str(register), "--site", "\x1b[31m[/]Nw"),
        refused_in_words("audit", "none\x1b[31m.sqlite"),
        said("audit", str(register), *TODAY, "--site", "[/]New"),
    ):
        assert not {"\x1b", "\u202e", "\x07"} & set(sentence)


def test_absolute_pressures_become_what_the_control_shows(register: Path, tmp_path: Path) -> None:
    # published: US Standard Atmosphere 1976, 12.228 psi at 5,000 ft and 14.696 psi at sea level
    saved(tmp_path, "sites.csv", "customer,site,elevation\nQUILL,High,5000ft\n")
    head = "customer,site,system,low_pressure_sensor,low_pressure_cut_in\n"
    rows = "".join(f"QUILL,High,{sensor},{sensor},30psia\n" for sensor in ("vented", "sealed", "absolute"))
    saved(tmp_path, "systems.csv", head + rows)
    run("import", str(register), str(tmp_path / "sites.csv"), str(tmp_path / "systems.csv"), *TODAY)
    found = fetch(
        register,
        "SELECT system, value_si / 6894.757, r.typed FROM setting_records r "
        "JOIN systems s ON s.id = system_id JOIN sites t ON t.id = site_id "
        "WHERE t.site = 'High' ORDER BY r.id",
    )
    assert [row[0] for row in found] == ["vented", "sealed", "absolute"]
    assert [row[1] for row in found] == pytest.approx([30 - 12.228, 30 - 14.696, 30.0], abs=0.002)
    assert {row[2] for row in found} == {"30psia"}


def test_units_in_the_header_and_settings_as_columns_again(register: Path, tmp_path: Path) -> None:
    head = "customer,site,system,charge [lb],low_pressure_cut_in [psig]\n"
    file = str(saved(tmp_path, "systems.csv", f"{head}QUILL,Grain Exchange,N,12,15\n"))
    assert run("import", str(register), file, *TODAY)["settings_recorded"] == 1
    later = f"{SETTING_HEAD}QUILL,Grain Exchange,N,,low_pressure_cut_in,22psig,as-left,2026-05-01\n"
    run("import", str(register), str(saved(tmp_path, "settings.csv", later)), *TODAY)
    assert run("import", str(register), file, *TODAY)["written"] is False
    current = (
        "SELECT low_pressure_cut_in_pa_gauge / 6894.757 FROM current_settings JOIN systems ON id = system_id "
        "WHERE system = 'N'"
    )
    assert fetch(register, current)[0][0] == pytest.approx(22)
    back = f"{SETTING_HEAD}QUILL,Grain Exchange,N,,low_pressure_cut_in,9psig,as-left,2025-05-01\n"
    run("import", str(register), str(saved(tmp_path, "settings.csv", back)), *TODAY)
    assert fetch(register, current)[0][0] == pytest.approx(22)


def test_the_first_import_is_signed_or_refused(tmp_path: Path) -> None:
    file, new = (
        str(saved(tmp_path, "people.csv", "person,role\nR. Osei,technician\n")),
        tmp_path / "n.sqlite",
    )
    error = refused("import", str(new), file, "--by", "R. Ossei")
    assert (error["kind"], error["where"]) == ("unknown-name", "--by")
    assert error["message"] == "There is no person 'R. Ossei'. Nearest: R. Osei."
    assert [path.name for path in tmp_path.iterdir()] == ["people.csv"]
    run("import", str(new), file, "--by", "R. Osei")
    assert fetch(new, "SELECT person FROM acts JOIN people ON people.id = by_id") == [("R. Osei",)]


def test_a_header_alone_makes_a_register_and_says_so(tmp_path: Path) -> None:
    file, new = str(saved(tmp_path, "customers.csv", "customer,name\n")), tmp_path / "n.sqlite"
    assert f"Imported into {new}." in said("import", str(new), file)
    assert run("check-register", str(new))["sound"] is True


# --- options ---------------------------------------------------------------------------------------

TARGETS = (
    "targets",
    "--refrigerant",
    "R-404A",
    "--strategy",
    "recycling-pump-down",
    "--kind",
    "walk-in-cooler",
)
TEMPERATURE = "a temperature like 36F or 2.2C"
REFUSED_OPTIONS: list[tuple[str, str, str]] = [
    ("--setpoint", "38", f"'38' has no unit; expected {TEMPERATURE}"),
    ("--setpoint", "38psig", f"'38psig' is a gauge pressure; expected {TEMPERATURE}"),
    ("--setpoint", "", f"'' is not a quantity; expected {TEMPERATURE}"),
    ("--setpoint", "nanF", f"'nanF' is not a quantity; expected {TEMPERATURE}"),
    ("--setpoint", "infF", f"'infF' is not a quantity; expected {TEMPERATURE}"),
    ("--setpoint", "38,5F", f"'38,5F' is not a quantity; expected {TEMPERATURE}"),
    ("--setpoint", "-500F", "'-500F' is below absolute zero"),
    ("--cut-in", "1e300psig", "the unit 'e300psig' is not known; expected a gauge pressure like 15psig"),
    ("--cut-in", "-20psig", "'-20psig' is below a full vacuum"),
    ("--cut-in", "40inHg", "'40inHg' is below a full vacuum"),
    ("--td", "-3F", "expected a temperature difference like 2F or 1.1K, from 0 to 100 K"),
    ("--elevation", "-5000ft", "from −500 m to 6,000 m"),
    ("--strategy", "pump", "expected one of recycling-pump-down, one-time-pump-down"),
    ("--kind", "walkin", "nearest: walk-in-cooler"),
    ("--refrigerant", "R404", "There is no refrigerant 'R404'. Nearest: R-404A"),
    ("--units", "kelvin", "'kelvin' is not one of 'us', 'metric'"),
    ("--setpnt", "38F", "No such option '--setpnt'. Did you mean '--setpoint'?"),
]


@pytest.mark.parametrize(("option", "text", "sentence"), REFUSED_OPTIONS)
def test_an_option_that_cannot_be_accepted(option: str, text: str, sentence: str) -> None:
    assert sentence in refused_in_words(*TARGETS, f"{option}={text}")
    assert sentence in refused(*TARGETS, f"{option}={text}")["message"]


def test_the_sign_of_printed_tables_is_a_minus_too() -> None:
    typed, printed = run("saturation", "R-404A", "--at=-10F"), run("saturation", "R-404A", "--at", "−10F")
    assert typed == printed


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        ("nonsense", "'nonsense' is no date; expected one like 2026-11-25."),
        ("", "'' is no date; expected one like 2026-11-25."),
        ("2026-02-30", "'2026-02-30' is no date"),
        ("9999-12-31", "'9999-12-31' is out of range; expected a date between 1900 and 2200."),
        ("0001-01-01", "'0001-01-01' is out of range; expected a date between 1900 and 2200."),
    ],
)
def test_a_day_that_is_none(demo_file: Path, text: str, sentence: str) -> None:
    for option, command in (
        ("--today", "audit"),
        ("--today", "checks"),
        ("--from", "checks"),
        ("--to", "checks"),
    ):
        error = refused(command, str(demo_file), f"{option}={text}")
        assert (error["kind"], error["where"]) == ("usage", option)
        assert sentence in error["message"]


def test_a_register_whose_name_begins_with_a_dash() -> None:
    assert refused("checks", "-x") == {"kind": "usage", "message": "No such option '-x'.", "where": None}
    assert refused_in_words("checks", "--", "-x").startswith("coldround: There is no register -x.")


def test_errors_are_one_document_on_standard_error() -> None:
    ran = subprocess.run(
        [sys.executable, "-m", "fleet", "checks", "--json", "--", "-x"],
        capture_output=True,
        text=True,
        check=False,
    )
    assert (ran.returncode, ran.stdout) == (2, "")
    assert json.loads(ran.stderr)["error"]["message"].startswith("There is no register -x.")
