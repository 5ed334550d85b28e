"""The developer's own terminal must not leak into what the screens look like."""

import shutil
from pathlib import Path

import pytest
from textual import constants
from textual.app import App

from tests.desk.conftest import demo_file

__all__ = ["demo_file"]


@pytest.fixture(autouse=True)
def plain_terminal(monkeypatch: pytest.MonkeyPatch) -> None:
    for name in ("NO_COLOR", "TEXTUAL_THEME", "TEXTUAL", "COLORTERM"):
        monkeypatch.delenv(name, raising=False)
    monkeypatch.setenv("TERM", "xterm-256color")
    monkeypatch.setenv("LC_ALL", "C.UTF-8")
    monkeypatch.setattr(constants, "TEXTUAL_ANIMATIONS", "none")
    monkeypatch.setattr(App, "animation_level", "none", raising=False)


@pytest.fixture(autouse=True)
def crash_folder(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> Path:
    monkeypatch.setattr("fleet.tui.guard.log_folder", lambda: tmp_path / "log")
    return tmp_path / "log"


@pytest.fixture
def register(demo_file: Path, tmp_path: Path) -> Path:
    """A copy of the demo register, to be written to."""
    return Path(shutil.copyfile(demo_file, tmp_path / "demo.sqlite"))
