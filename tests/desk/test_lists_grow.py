"""The first rows of a list cost the same in a small and a large register, in steps of the database."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from fleet.desk.auditing import run_audit
from fleet.desk.importing import import_rows
from fleet.desk.lists import Listed, RegisterSort, asked, register_source
from fleet.desk.opened import Desk, open_desk
from seeds_demo.generator import generate_files
from tests.desk.conftest import TODAY

pytestmark = pytest.mark.independent

SMALL, LARGE = 300, 3_000
EVERY = 10
ROWS = 5


def generated(folder: Path, boxes: int) -> Desk:
    rows = {name: list(cells) for name, cells in generate_files(boxes, 1, TODAY).items()}
    path = folder / f"{boxes}.sqlite"
    import_rows(path, rows, today=TODAY)
    desk = open_desk(path, today=TODAY)
    run_audit(desk)
    return desk


@pytest.fixture(scope="module")
def desks(tmp_path_factory: pytest.TempPathFactory) -> Iterator[tuple[Desk, Desk]]:
    folder = tmp_path_factory.mktemp("grow")
    both = generated(folder, SMALL), generated(folder, LARGE)
    yield both
    for desk in both:
        desk.close()


def steps(desk: Desk, listed: Listed, sort: RegisterSort) -> int:
    """Return how many steps SQLite takes for the first rows, in units of ``EVERY``."""
    counted = 0

    def count() -> int:
        nonlocal counted
        counted += 1
        return 0

    with desk.engine.connect() as connection:
        driver = connection.connection.driver_connection
        assert driver is not None
    driver.set_progress_handler(count, EVERY)
    try:
        page = register_source(desk, asked(listed, {}, "", sort)).first(ROWS)
    finally:
        driver.set_progress_handler(None, 0)
    assert page.rows
    return counted


@pytest.mark.parametrize("listed", [Listed.SYSTEMS, Listed.BOXES, Listed.SITES])
def test_by_place(desks: tuple[Desk, Desk], listed: Listed) -> None:
    small, large = (steps(desk, listed, RegisterSort.PLACE) for desk in desks)
    assert small > 20, "the database was asked through another connection"
    assert large < 2 * small


@pytest.mark.parametrize("listed", [Listed.SYSTEMS, Listed.BOXES])
def test_worst_first(desks: tuple[Desk, Desk], listed: Listed) -> None:
    small, large = (steps(desk, listed, RegisterSort.WORST) for desk in desks)
    assert small > 20
    assert large < 3 * small
