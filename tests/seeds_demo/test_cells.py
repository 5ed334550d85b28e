"""Every cell is one that the dictionary accepts, and every reference leads somewhere."""

from datetime import date

import pytest

from fleet.dictionary import FILES, SETTING_BY_CODE, FileKind
from fleet.dictionary.kinds import Reference
from fleet.units import PSI_PA, Quantity
from seeds_demo.generator import generate_files

Files = dict[str, list[dict[str, str]]]


@pytest.fixture(scope="module", params=["demo", "generated"])
def files(request: pytest.FixtureRequest, demo: Files, today: date) -> Files:
    return demo if request.param == "demo" else generate_files(600, seed=5, today=today)


@pytest.mark.parametrize("file", FILES, ids=lambda file: file.name)
def test_cells_parse(files: Files, file: FileKind) -> None:
    assert files[file.name]
    for row in files[file.name]:
        for name, cell in row.items():
            column = file.column(name)
            assert column is not None, f"{file.name}: {name}"
            assert cell == cell.strip() != "", f"{file.name}: {row}"
            column.kind.read(cell)
        for column in file.columns:
            assert not column.required or column.name in row, f"{file.name}: {column.name} of {row}"


def test_values_of_settings_parse(files: Files) -> None:
    for row in files["settings"]:
        SETTING_BY_CODE[row["setting"]].kind.read(row["value"])


@pytest.mark.parametrize("file", FILES, ids=lambda file: file.name)
def test_no_row_twice(files: Files, file: FileKind) -> None:
    keys = [tuple(row.get(name, "") for name in file.key) for row in files[file.name]]
    assert len(keys) == len(set(keys))


def test_people_exist(files: Files) -> None:
    people = {row["person"] for row in files["people"]}
    for file in FILES:
        for column in file.columns:
            if isinstance(column.kind, Reference) and column.kind.to == "person":
                named = {row[column.name] for row in files[file.name] if column.name in row}
                assert named <= people, f"{file.name}.{column.name}"


def test_places_and_systems_exist(files: Files) -> None:
    customers = {row["customer"] for row in files["customers"]}
    sites = {(row["customer"], row["site"]) for row in files["sites"]}
    systems = {(row["customer"], row["site"], row["system"]) for row in files["systems"]}
    assert {customer for customer, _ in sites} <= customers
    assert {system[:2] for system in systems} == sites
    for name in ("boxes", "compressors", "settings", "checks"):
        assert {(row["customer"], row["site"], row["system"]) for row in files[name]} <= systems
    for row in files["events"]:
        assert (row["customer"], row["site"]) in sites
        assert "system" not in row or (row["customer"], row["site"], row["system"]) in systems


def test_parts_exist(files: Files) -> None:
    parts = {(row["customer"], row["site"], row["system"], row["box"]) for row in files["boxes"]}
    parts |= {
        (row["customer"], row["site"], row["system"], f"group {row['suction_group']}")
        for row in files["boxes"]
        if "suction_group" in row
    }
    parts |= {
        (row["customer"], row["site"], row["system"], f"compressor {row['position']}")
        for row in files["compressors"]
    }
    for name in ("settings", "events", "checks"):
        for row in files[name]:
            if "part" in row:
                assert (row["customer"], row["site"], row["system"], row["part"]) in parts, row


def test_pairs_of_the_outside_checks_stay_out(files: Files) -> None:
    # These two pairs are what outsiders try by hand; the demo must not seem to be made for them.
    values: dict[tuple[str, ...], set[tuple[str, float]]] = {}
    for row in files["systems"] + files["settings"]:
        where = (row["customer"], row["site"], row["system"], row.get("part", ""))
        cells = {row["setting"]: row["value"]} if "setting" in row else row
        for name in ("low_pressure_cut_in", "low_pressure_cut_out"):
            if name in cells:
                value = SETTING_BY_CODE[name].kind.read(cells[name])
                assert isinstance(value, Quantity)
                values.setdefault(where, set()).add((name, value.value_si / PSI_PA))
    for found in values.values():
        cut_ins = [value for name, value in found if name == "low_pressure_cut_in"]
        cut_outs = [value for name, value in found if name == "low_pressure_cut_out"]
        for high, low in ((15.0, 5.0), (33.0, 15.0)):
            near_in = any(abs(value - high) < 0.2 for value in cut_ins)
            near_out = any(abs(value - low) < 0.2 for value in cut_outs)
            assert not (near_in and near_out), found


def test_nothing_happens_in_the_future_or_before_the_installation(files: Files, today: date) -> None:
    installed = {(r["customer"], r["site"], r["system"]): r["installed"] for r in files["systems"]}
    for name, column in (("settings", "recorded_on"), ("events", "happened_on"), ("checks", "done_on")):
        for row in files[name]:
            assert row[column] <= today.isoformat()
            if "system" in row:
                assert row[column] >= installed[row["customer"], row["site"], row["system"]], row


def test_one_compressor_at_a_time_in_a_place(files: Files) -> None:
    lives: dict[tuple[str, ...], list[tuple[str, str]]] = {}
    for row in files["compressors"]:
        place = (row["customer"], row["site"], row["system"], row["position"])
        lives.setdefault(place, []).append((row["in_service"], row.get("out_of_service", "")))
    for ends in lives.values():
        ends.sort()
        assert ends[-1][1] == ""
        assert [out for _, out in ends[:-1]] == [since for since, _ in ends[1:]]
