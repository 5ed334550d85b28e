"""The demo holds as much, and as much variety, as it promises."""

import re
from collections import Counter
from datetime import date, timedelta
from itertools import pairwise

from fleet.dictionary import FILE_BY_NAME
from fleet.dictionary.words import CAUSES, Strategy

Files = dict[str, list[dict[str, str]]]


def test_sizes(demo: Files) -> None:
    assert len(demo["customers"]) >= 6
    assert len(demo["sites"]) >= 25
    assert len(demo["systems"]) >= 90
    assert len(demo["boxes"]) >= 130


def test_variety(demo: Files) -> None:
    systems, sites = demo["systems"], demo["sites"]
    assert len({row["refrigerant"] for row in systems}) >= 10
    assert {row.get("strategy") for row in systems} >= {strategy.value for strategy in Strategy}
    assert len({row["climate"] for row in sites}) >= 8
    assert {row["jurisdiction"] for row in sites} >= {"US", "US-CA", "EU", "GB-ENG", "GB-SCT", "GB-WLS"}
    kinds = {row["kind"] for row in demo["boxes"]}
    assert {"walk-in-cooler", "walk-in-freezer", "reach-in-cooler", "reach-in-freezer"} <= kinds
    assert {"display-case-medium", "display-case-low", "preparation-room"} <= kinds


def test_three_years_of_history(demo: Files, today: date) -> None:
    for name, column in (("settings", "recorded_on"), ("events", "happened_on"), ("checks", "done_on")):
        days = [date.fromisoformat(row[column]) for row in demo[name]]
        assert min(days) < today - timedelta(days=900), name
        assert today - timedelta(days=60) < max(days) < today, name


def test_compressors_failed_of_several_causes(demo: Files) -> None:
    reasons = Counter(row["reason_out"] for row in demo["compressors"] if "reason_out" in row)
    assert reasons["flooded_start"] >= 5
    assert len(set(reasons) & set(CAUSES)) >= 6
    changes = [row for row in demo["events"] if row["kind"] == "compressor-change"]
    assert len(changes) == sum(reasons.values())


def test_every_change_names_the_compressor_that_was_taken_out(demo: Files) -> None:
    taken_out = {
        (row["customer"], row["site"], row["system"], row["serial"], row["out_of_service"])
        for row in demo["compressors"]
        if "out_of_service" in row
    }
    changed = {
        (row["customer"], row["site"], row["system"], row["compressor_serial"], row["happened_on"])
        for row in demo["events"]
        if row["kind"] == "compressor-change"
    }
    assert changed == taken_out


def test_messy_as_life_is(demo: Files) -> None:
    systems = demo["systems"]
    assert any("charge" not in row for row in systems)
    assert any(row["status"] == "idle" for row in systems)
    assert any(row.get("low_pressure_sensor") == "sealed" for row in systems)
    assert any("latitude" not in row for row in demo["sites"])
    assert any(row.get("confirmed") == "none" for row in demo["settings"])
    boxes = Counter((row["customer"], row["site"], row["system"]) for row in demo["boxes"])
    racks = {(row["customer"], row["site"], row["system"]) for row in systems if row["form"] == "rack"}
    assert sum(1 for system, count in boxes.items() if count == 2 and system not in racks) >= 5
    groups: dict[tuple[str, str, str], set[str]] = {}
    for row in demo["boxes"]:
        if "suction_group" in row:
            groups.setdefault((row["customer"], row["site"], row["system"]), set()).add(row["suction_group"])
    assert sum(1 for found in groups.values() if len(found) == 2) >= 3


def test_an_as_left_contradicts_the_next_as_found(demo: Files) -> None:
    rows = [
        row
        for row in demo["settings"]
        if (row["system"], row["setting"]) == ("WC-2", "low_pressure_cut_in")
        and row["site"] == "Prairie Dock"
    ]
    rows.sort(key=lambda row: (row["recorded_on"], row["stage"] == "as-left"))
    assert any(
        left["stage"] == "as-left" and found["stage"] == "as-found" and left["value"] != found["value"]
        for left, found in pairwise(rows)
    )


def test_text_that_screens_must_survive(demo: Files) -> None:
    names = " ".join(row["name"] for row in demo["systems"] + demo["sites"] + demo["customers"])
    assert "[" in names
    assert "\\" in names
    assert "冷" in names
    assert "ß" in names


def test_odd_units_are_typed(demo: Files) -> None:
    typed = " ".join(
        cell for name in ("systems", "settings", "boxes") for row in demo[name] for cell in row.values()
    )
    for unit in ("psia", "inHg", "kPa", "bar", "psig", "oz", "kg"):
        assert re.search(rf"\d{unit}\b", typed), unit


def test_everybody_is_invented(demo: Files) -> None:
    for row in demo["people"] + demo["customers"]:
        assert row["email"].endswith(".example")
        assert re.fullmatch(r"555 01\d\d", row["phone"])
    assert all("invented" in row["note"] for row in demo["customers"])
    assert all("(invented)" in row["climate"] for row in demo["sites"])


def test_files_are_those_of_the_dictionary(demo: Files) -> None:
    assert set(demo) == set(FILE_BY_NAME)
