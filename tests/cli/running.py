"""Running a command in this process."""

import json
from typing import Any

from click.testing import CliRunner

from fleet.cli import cli


def run(*words: str) -> Any:
    """Run a command that should succeed, and return its JSON document."""
    result = CliRunner().invoke(cli, [*words, "--json"])
    assert result.exit_code == 0, result.stderr
    return json.loads(result.stdout)


def said(*words: str) -> str:
    """Run a command that should succeed, and return what it prints."""
    result = CliRunner().invoke(cli, list(words))
    assert result.exit_code == 0, result.stderr
    return result.stdout


def refused(*words: str) -> dict[str, Any]:
    """Run a command that should be refused, and return its error."""
    result = CliRunner().invoke(cli, [*words, "--json"])
    assert result.exit_code == 2, (result.exit_code, result.stdout, result.exception)
    assert result.stdout == ""
    error: dict[str, Any] = json.loads(result.stderr)["error"]
    return error


def refused_in_words(*words: str) -> str:
    """Run a command that should be refused, and return its sentence."""
    result = CliRunner().invoke(cli, list(words))
    assert result.exit_code == 2, (result.exit_code, result.stdout, result.exception)
    return result.stderr.strip()
