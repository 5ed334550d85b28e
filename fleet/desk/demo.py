"""The demo register: an invented company's customers, made when it is first asked for."""

from datetime import date
from pathlib import Path

from fleet.desk.auditing import run_audit
from fleet.desk.importing import import_rows
from fleet.desk.opened import demo_register, open_desk
from seeds_demo import demo_files


def make_demo(today: date, path: Path | None = None) -> tuple[Path, bool]:
    """Make the demo register if it is absent, audit it, and return its place and whether it was made."""
    place = path or demo_register()
    if place.exists():
        return place, False
    import_rows(place, demo_files(today), today=today)
    desk = open_desk(place, today=today)
    run_audit(desk)
    desk.close()
    return place, True
