"""A fresh register for each test, copied from one that is made once."""

import shutil
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from sqlalchemy import Engine

from db import schema
from db.engine import open_register
from tests.exchange.support import Importer


@pytest.fixture(scope="session")
def empty_register(tmp_path_factory: pytest.TempPathFactory) -> Path:
    path = tmp_path_factory.mktemp("registers") / "empty.db"
    schema.create(path)
    return path


@pytest.fixture
def new_register(empty_register: Path, tmp_path: Path) -> Iterator[Callable[[], Importer]]:
    engines: list[Engine] = []

    def make() -> Importer:
        path = tmp_path / f"register-{len(engines)}.db"
        shutil.copyfile(empty_register, path)
        engines.append(open_register(path))
        return Importer(engines[-1], path)

    yield make
    for engine in engines:
        engine.dispose()


@pytest.fixture
def register(new_register: Callable[[], Importer]) -> Importer:
    return new_register()
