"""A fresh register for each test, made by the migrations."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from sqlalchemy import Engine

from db.engine import open_register
from db.schema import create


@pytest.fixture(scope="session")
def empty_register(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """One empty register, to be copied."""
    path = tmp_path_factory.mktemp("registers") / "empty.register"
    create(path)
    return path


@pytest.fixture
def register(empty_register: Path, tmp_path: Path) -> Path:
    """An empty register of one's own."""
    path = tmp_path / "test.register"
    path.write_bytes(empty_register.read_bytes())
    return path


@pytest.fixture
def engine(register: Path) -> Iterator[Engine]:
    """An engine on it."""
    made = open_register(register)
    yield made
    made.dispose()
