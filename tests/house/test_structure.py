"""The house rules that a machine can check: sizes of modules, pages for every place."""

from pathlib import Path
from statistics import median

import pytest

from fleet.handbook import page

pytestmark = pytest.mark.independent

ROOT = Path(__file__).parent.parent.parent
MODULES = [path for part in ("fleet", "db", "seeds_demo") for path in sorted((ROOT / part).rglob("*.py"))]


def lines(path: Path) -> int:
    return len(path.read_text(encoding="utf-8").splitlines())


def test_no_module_has_over_500_lines() -> None:
    assert {str(path): lines(path) for path in MODULES if lines(path) > 500} == {}


def test_the_median_module_has_at_most_150_lines() -> None:
    assert median(lines(path) for path in MODULES) <= 150


def test_nothing_but_the_given_list_stands_at_the_top() -> None:
    allowed = {"README.md", "DEVELOPERS.md", "pyproject.toml", "fleet", "db", "seeds_demo", "tests"}
    shown = {path.name for path in ROOT.iterdir() if not path.name.startswith(".")}
    assert shown - allowed - {"build"} == {name for name in shown if name.endswith(".egg-info")}


@pytest.mark.parametrize("name", ["audit", "sheet", "correct", "rounds", "customers", "register"])
def test_every_place_has_a_page(name: str) -> None:
    assert page(name).startswith("# ")
