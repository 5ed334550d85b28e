"""Opening the interface, or saying why not."""

import sys
from datetime import date
from typing import Any, NoReturn

import click

from fleet.cli.options import read_day
from fleet.units import UnitSystem


def open_default(register: str | None, today: str | None, by: str | None, units: str, **_: Any) -> None:
    """Open the named register, else the default one, which is made empty when it is absent."""
    day = read_day(today, "--today") if today is not None else date.today()
    open_screen(register, today=day, units=UnitSystem(units), by=by)


def open_screen(where: str | None, *, today: date, units: UnitSystem, by: str | None) -> NoReturn:
    """Open the interface on a register; ends the process with its exit code."""
    from fleet.tui.guard import NO_SCREEN_CODE, why_no_screen

    reason = why_no_screen()
    if reason is not None:
        click.echo(reason, err=True)
        sys.exit(NO_SCREEN_CODE)
    from fleet.desk.opened import open_desk

    desk = open_desk(where or _default(), today=today, units=units, by=by)
    from fleet.tui.app import ColdroundApp

    app = ColdroundApp(desk)
    app.run()
    sys.exit(app.return_code or 0)


def _default() -> str:
    """Return where the default register is, making an empty one where there is none."""
    from fleet.desk.importing import make_empty
    from fleet.desk.opened import default_register

    if not default_register().exists():
        make_empty(default_register())
    return str(default_register())
