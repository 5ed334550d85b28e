"""The screen as text, to be compared with a stored file.

Stored texts are our own earlier output (``regression``): they show what changed, they prove nothing. Set
``COLDROUND_UPDATE_SNAPSHOTS=1`` to write them anew, then read the difference before keeping it.
"""

from os import environ
from pathlib import Path
from typing import Any

from textual.app import App

FOLDER = Path(__file__).parent / "snapshots"
UPDATE = "COLDROUND_UPDATE_SNAPSHOTS"


def screen_text(app: App[Any]) -> str:
    """Return what is seen now, one line per row, blanks at the end of lines left out."""
    width, height = app.size
    lines = app.screen._compositor.render_strips(app.size)
    return "\n".join(strip.text[:width].rstrip() for strip in lines[:height])


def check_snapshot(app: App[Any], name: str) -> None:
    """Compare the screen with ``snapshots/<name>.txt``."""
    seen = screen_text(app) + "\n"
    path = FOLDER / f"{name}.txt"
    if environ.get(UPDATE):
        FOLDER.mkdir(exist_ok=True)
        path.write_text(seen, encoding="utf-8")
        return
    assert path.exists(), f"no snapshot {path.name}: set {UPDATE}=1 once and read what it writes"
    assert seen == path.read_text(encoding="utf-8")
