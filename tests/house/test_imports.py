"""Heavy libraries stay out of what must come at once: looked up in a clean interpreter."""

import subprocess
import sys

import pytest

pytestmark = pytest.mark.independent

HEAVY = {"CoolProp", "alembic", "numpy", "scipy", "sqlalchemy", "textual", "rich"}


def loaded_after(code: str) -> set[str]:
    """Return which heavy packages a clean interpreter holds after running some code."""
    probe = f"{code}\nimport sys\nprint(*sorted({{name.split('.')[0] for name in sys.modules}}))"
    ran = subprocess.run([sys.executable, "-c", probe], capture_output=True, text=True, check=True)
    return HEAVY & set(ran.stdout.splitlines()[-1].split())


def help_of(*arguments: str) -> str:
    words = ", ".join(repr(word) for word in arguments)
    return f"from fleet.cli import cli\ntry:\n    cli.main([{words}])\nexcept SystemExit:\n    pass"


def test_help_imports_nothing_heavy() -> None:
    assert loaded_after(help_of("--help")) == set()


def test_saturation_needs_neither_coolprop_nor_a_register() -> None:
    assert loaded_after(help_of("saturation", "R-404A", "--at", "20F")) == {"numpy"}


def test_targets_need_neither_coolprop_nor_a_register() -> None:
    assert loaded_after(help_of("targets", "--help")) == {"numpy"}


@pytest.mark.parametrize(
    "package",
    ["fleet.units", "fleet.dictionary", "fleet.properties", "fleet.targets.lowpressure", "fleet.audit.run"],
)
def test_calculations_import_neither_register_nor_screen(package: str) -> None:
    assert loaded_after(f"import {package}") <= {"numpy"}


def test_the_register_package_is_cheap_to_name() -> None:
    assert loaded_after("import db") == set()
