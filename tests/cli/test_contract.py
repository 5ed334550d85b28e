"""The commands' documents: their keys, plain numbers, exit codes, and errors of a closed list."""

import json
import subprocess
import sys
from pathlib import Path

import pytest

from fleet import errors
from tests.cli.running import refused, refused_in_words, run, said
from tests.cli.setups import arguments, setups, verdict_of

pytestmark = pytest.mark.independent

TODAY = ("--today", "2026-11-25")


def test_saturation_at_a_temperature() -> None:
    # published: refrigerant supplier bulletin for R-407C, 20 °F: bubble 51.6, dew 38.0 psig
    document = run("saturation", "R-407C", "--at", "20F")
    assert set(document) >= {
        "refrigerant",
        "temperature",
        "dew_pressure",
        "bubble_pressure",
        "glide",
        "estimated",
    }
    assert document["bubble_pressure"] == pytest.approx(51.6, abs=1.5)
    assert document["dew_pressure"] == pytest.approx(38.0, abs=1.0)
    assert document["units"]["pressure"] == "psig"


def test_saturation_at_a_pressure_and_elevation() -> None:
    sea = run("saturation", "R-404A", "--at", "55psig")
    high = run("saturation", "R-404A", "--at", "55psig", "--elevation", "5000ft")
    assert set(sea) >= {"refrigerant", "pressure", "dew_temperature", "bubble_temperature"}
    # the same gauge pressure is a lower absolute one where the air is thinner
    assert high["dew_temperature"] < sea["dew_temperature"] - 1


def test_saturation_in_metric_units() -> None:
    document = run("saturation", "R-717", "--at", "-30C", "--units", "metric")
    # published: International Institute of Refrigeration, R-717 at -30 °C: 119.46 kPa absolute
    assert document["dew_pressure"] == pytest.approx((119.46 - 101.325) / 100, abs=0.003)
    assert document["units"]["pressure"] == "bar(g)"


def test_no_saturation_above_critical_or_below_triple() -> None:
    assert refused("saturation", "R-744", "--at", "90F")["kind"] == "out-of-range"
    assert "critical" in refused_in_words("saturation", "R-744", "--at", "90F")
    assert "triple" in refused_in_words("saturation", "R-744", "--at", "-80F")


def test_an_unknown_refrigerant_is_answered_with_the_nearest() -> None:
    error = refused("saturation", "R-404B", "--at", "20F")
    assert error["kind"] == "unknown-name"
    assert "R-404A" in error["message"]


def test_a_bare_number_is_refused_with_what_is_expected() -> None:
    error = refused(
        "targets", "--refrigerant", "R-404A", "--strategy", "recycling-pump-down", "--setpoint", "38"
    )
    assert error["kind"] == "quantity"
    assert error["where"] == "--setpoint"
    assert "'38' has no unit; expected a temperature like 36F or 2.2C" in error["message"]


def test_keys_of_targets() -> None:
    document = run(*arguments(setups()[0])[:1], *arguments(setups()[0])[2:])
    wanted = {
        *("setting", "part", "unit", "low", "high", "preferred", "recorded", "verdict", "severity", "out_by"),
        *("out_by_saturation", "low_reason", "high_reason", "conflict", "sources"),
    }
    assert all(wanted <= set(window) for window in document["windows"])
    differential = next(w for w in document["windows"] if w["setting"] == "low_pressure_differential")
    assert differential["out_by_saturation"] is None


@pytest.mark.parametrize("number", ["1", "43", "79"])
def test_a_setup_as_a_real_command(number: str) -> None:
    setup = next(one for one in setups() if one["id"] == number)
    ran = subprocess.run(
        [sys.executable, "-m", "fleet", *arguments(setup)], capture_output=True, text=True, check=True
    )
    assert verdict_of(json.loads(ran.stdout)["windows"]) == setup["expected"]


def test_keys_of_audit(demo_file: Path) -> None:
    document = run("audit", str(demo_file), *TODAY)
    wanted = {
        *("customer", "site", "system", "part", "rule", "setting", "severity", "verdict", "recorded"),
        *("low", "high", "unit", "out_by", "out_by_saturation", "reason"),
    }
    assert all(wanted <= set(finding) for finding in document["findings"])
    assert all(finding["reason"] for finding in document["findings"])
    assert sum(document["counts"].values()) == len(document["findings"])
    assert {"temperature", "pressure", "difference"} <= set(document["units"])


def test_audit_of_one_customer_and_one_severity(demo_file: Path) -> None:
    document = run("audit", str(demo_file), *TODAY, "--customer", "QUILL", "--severity", "act-now")
    assert {(f["customer"], f["severity"]) for f in document["findings"]} == {("QUILL", "act-now")}


def test_audit_of_an_unknown_customer_offers_the_nearest(demo_file: Path) -> None:
    error = refused("audit", str(demo_file), *TODAY, "--customer", "QUIL")
    assert (error["kind"], error["where"]) == ("unknown-name", "--customer")
    assert "QUILL" in error["message"]


def test_keys_of_checks(demo_file: Path) -> None:
    document = run("checks", str(demo_file), *TODAY, "--from", "2026-12-01", "--to", "2027-02-28")
    wanted = {
        "customer",
        "site",
        "system",
        "part",
        "check",
        "due_from",
        "due_by",
        "overdue_days",
        "minutes",
        "because",
    }
    assert document["due"]
    assert all(set(line) == wanted for line in document["due"])
    assert all(line["due_from"] <= "2027-02-28" for line in document["due"])


def test_checks_between_days_in_the_wrong_order(demo_file: Path) -> None:
    error = refused("checks", str(demo_file), *TODAY, "--from", "2027-01-01", "--to", "2026-01-01")
    assert error["message"] == "The period ends on 2026-01-01, before it begins on 2027-01-01."


def test_import_template_and_again(tmp_path: Path) -> None:
    folder, register = tmp_path / "files", tmp_path / "new.sqlite"
    said("template", str(folder))
    dry = run("import", str(register), str(folder), "--dry-run", *TODAY)
    assert dry["written"] is False
    assert not register.exists()
    assert run("import", str(register), str(folder), *TODAY)["written"] is True
    before = register.read_bytes()
    again = run("import", str(register), str(folder), *TODAY)
    assert again["written"] is False
    assert {counts["new"] + counts["changed"] for counts in again["counts"].values()} == {0}
    assert register.read_bytes() == before


def test_a_refused_import_leaves_no_register(tmp_path: Path) -> None:
    bad = tmp_path / "people.csv"
    bad.write_text("person,role\nA,technican\n", encoding="utf-8")
    error = refused("import", str(tmp_path / "r.sqlite"), str(bad), *TODAY)
    assert error["kind"] == "import"
    assert "people.csv, row 2, role: 'technican': expected one of planner" in error["message"]
    assert "nearest: technician" in error["message"]
    assert not (tmp_path / "r.sqlite").exists()


def test_check_register(demo_file: Path) -> None:
    assert run("check-register", str(demo_file))["sound"] is True
    assert "✓ file: whole" in said("check-register", str(demo_file))


def test_demo_without_a_terminal_prints_its_overview(tmp_path: Path) -> None:
    printed = said("demo", "--at", str(tmp_path / "d.sqlite"), *TODAY)
    assert "12 act now, 23 next visit, 7 watch, 0 note" in printed


@pytest.mark.parametrize(
    ("words", "kind"),
    [
        (("audit", "no-such.sqlite"), "register-missing"),
        (("audit",), "usage"),
        (("audit", "x", "--no-such-option"), "usage"),
        (("targts",), "usage"),
        (("audit", __file__), "not-a-register"),
        (("saturation", "R-404A", "--at", "20F", "--elevation", "90000ft"), "out-of-range"),
    ],
)
def test_errors_have_a_kind_and_exit_code_two(words: tuple[str, ...], kind: str) -> None:
    assert refused(*words)["kind"] == kind


def test_every_error_has_a_kind_of_its_own() -> None:
    kinds = [
        one.kind
        for one in vars(errors).values()
        if isinstance(one, type) and issubclass(one, errors.ColdroundError)
    ]
    assert len(set(kinds)) == len(kinds)


def test_help_names_every_command() -> None:
    printed = said("--help")
    assert all(
        name in printed
        for name in (
            "demo",
            "saturation",
            "targets",
            "audit",
            "checks",
            "import",
            "template",
            "check-register",
        )
    )
