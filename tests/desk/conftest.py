"""A demo register, made once and copied for each test that writes."""

import shutil
from collections.abc import Iterator
from datetime import date
from pathlib import Path

import pytest

from fleet.desk.demo import make_demo
from fleet.desk.opened import Desk, open_desk

TODAY = date(2026, 11, 25)


@pytest.fixture(scope="session")
def demo_file(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demo register as it is made."""
    return make_demo(TODAY, tmp_path_factory.mktemp("demo") / "demo.sqlite")[0]


@pytest.fixture
def demo(demo_file: Path, tmp_path: Path) -> Iterator[Desk]:
    """A copy of the demo register, open."""
    copy = tmp_path / "demo.sqlite"
    shutil.copyfile(demo_file, copy)
    desk = open_desk(copy, today=TODAY, by="A. Petrov")
    yield desk
    desk.close()
