"""The demo register for commands."""

from tests.desk.conftest import demo, demo_file

__all__ = ["demo", "demo_file"]
