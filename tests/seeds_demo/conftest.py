"""The demo as of one fixed day, shared by these tests."""

from datetime import date

import pytest

from seeds_demo import demo_files

TODAY = date(2027, 1, 15)


@pytest.fixture(scope="session")
def today() -> date:
    return TODAY


@pytest.fixture(scope="session")
def demo() -> dict[str, list[dict[str, str]]]:
    return demo_files(TODAY)
