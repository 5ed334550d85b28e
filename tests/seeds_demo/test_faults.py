"""The list of planted faults speaks of things that are there, and covers what the audit can find."""

from collections import Counter
from datetime import date

from fleet.dictionary.words import Severity, Verdict
from seeds_demo.faults import PLANTED

Files = dict[str, list[dict[str, str]]]


def test_every_rule_and_severity_is_covered() -> None:
    rules = Counter(fault.rule for fault in PLANTED)
    assert set(rules) == {
        "low_pressure_window",
        "low_pressure_conflict",
        "boxes_apart",
        "fans_cycle",
        "not_recorded",
        "check_overdue",
        "flooded_starts",
    }
    assert {fault.severity for fault in PLANTED} == {Severity.ACT_NOW, Severity.NEXT_VISIT, Severity.WATCH}
    for rule in ("not_recorded", "check_overdue"):
        assert {f.severity for f in PLANTED if f.rule == rule} == {Severity.NEXT_VISIT, Severity.WATCH}
    flooded = {fault.severity for fault in PLANTED if fault.rule == "flooded_starts"}
    assert flooded == {Severity.NEXT_VISIT, Severity.ACT_NOW}


def test_cut_ins_above_reach_are_of_several_refrigerants_and_elevations(demo: Files) -> None:
    above = [
        (fault.customer, fault.site, fault.system)
        for fault in PLANTED
        if (fault.setting, fault.severity, fault.verdict)
        == ("low_pressure_cut_in", Severity.ACT_NOW, Verdict.ABOVE)
    ]
    rows = {(row["customer"], row["site"], row["system"]): row for row in demo["systems"]}
    assert len(above) >= 4
    assert len({rows[key]["refrigerant"] for key in above}) >= 4
    assert ("QUILL", "Cutbank", "WC-1") in above


def test_no_fault_twice() -> None:
    keys = [(f.customer, f.site, f.system, f.part, f.rule, f.setting) for f in PLANTED]
    assert len(keys) == len(set(keys))


def test_faults_speak_of_what_exists(demo: Files) -> None:
    systems = {(row["customer"], row["site"], row["system"]): row for row in demo["systems"]}
    boxes = {(row["customer"], row["site"], row["system"], row["box"]) for row in demo["boxes"]}
    for fault in PLANTED:
        key = (fault.customer, fault.site, fault.system)
        assert systems[key]["status"] == "in-service", fault
        if fault.part.startswith("group "):
            groups = {row.get("suction_group") for row in demo["boxes"] if _key(row) == key}
            assert fault.part.removeprefix("group ") in groups
        elif fault.part.startswith("compressor "):
            positions = {row["position"] for row in demo["compressors"] if _key(row) == key}
            assert fault.part.removeprefix("compressor ") in positions
        elif fault.part:
            assert (*key, fault.part) in boxes


def test_flooded_starts_are_listed_exactly(demo: Files) -> None:
    failed = {_key(row) for row in demo["compressors"] if row.get("reason_out") == "flooded_start"}
    assert failed == {(f.customer, f.site, f.system) for f in PLANTED if f.rule == "flooded_starts"}


def test_two_flooded_starts_within_24_months_where_the_cut_in_is_bad(demo: Files) -> None:
    out = sorted(
        date.fromisoformat(row["out_of_service"])
        for row in demo["compressors"]
        if _key(row) == ("QUILL", "Fern Hollow", "WC-2") and row.get("reason_out") == "flooded_start"
    )
    assert len(out) == 2
    assert (out[1] - out[0]).days < 730


def test_empty_cells_are_listed_exactly(demo: Files) -> None:
    listed = {(f.customer, f.site, f.system) for f in PLANTED if f.rule == "not_recorded"}
    assert listed == set(_with_empty_cells(demo))


def _with_empty_cells(demo: Files) -> list[tuple[str, str, str]]:
    found = []
    for row in demo["systems"]:
        needed = ["refrigerant", "strategy", "placement"]
        if row.get("strategy") != "remote-rack" and row["low_pressure_control"] != "none":
            needed += ["low_pressure_cut_in", "low_pressure_cut_out"]
        if any(name not in row for name in needed):
            found.append(_key(row))
    found += [_key(row) for row in demo["boxes"] if not {"kind", "setpoint", "differential"} <= set(row)]
    return found


def _key(row: dict[str, str]) -> tuple[str, str, str]:
    return row["customer"], row["site"], row["system"]
