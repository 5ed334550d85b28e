"""The invented set-ups with a lead technician's verdict (judgement J, no published source)."""

import csv
import json
from pathlib import Path
from typing import Any

from click.testing import CliRunner

from fleet.cli import cli

REFERENCE = Path(__file__).parent.parent / "reference"


def setups(name: str = "setups.csv") -> list[dict[str, str]]:
    """Return the set-ups, one dictionary of options each."""
    with (REFERENCE / name).open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def arguments(setup: dict[str, str]) -> list[str]:
    """Return the set-up as arguments of the command."""
    options = [(key, value) for key, value in setup.items() if key not in {"id", "expected"} and value]
    return [
        "targets",
        "--json",
        *(part for key, value in options for part in ("--" + key.replace("_", "-"), value)),
    ]


def windows(args: list[str]) -> list[dict[str, Any]]:
    """Run the command in this process and return its windows."""
    result = CliRunner().invoke(cli, args)
    assert result.exit_code == 0, result.output + result.stderr
    found: list[dict[str, Any]] = json.loads(result.stdout)["windows"]
    return found


def verdict_of(found: list[dict[str, Any]]) -> str:
    """Return whether every judged window is inside."""
    bad = [w for w in found if w["verdict"] not in {"inside", "not-applicable"}]
    return "some-outside" if bad else "all-inside"
