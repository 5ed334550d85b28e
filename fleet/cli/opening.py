"""Opening the interface, or saying why not."""

import sys
from datetime import date
from typing import Any, NoReturn

import click

from fleet.cli.options import read_day
from fleet.units import UnitSystem


def open_default(register: str | None, today: str | None, by: str | None, units: str, **_: Any) -> None:
    """Open the named register, else the default one, else offer the demo."""
    from fleet.desk.opened import default_register

    day = read_day(today, "--today") if today else date.today()
    where = register or str(default_register())
    if register is None and not default_register().exists():
        from fleet.desk.importing import make_empty

        make_empty(where)
    open_screen(where, today=day, units=UnitSystem(units), by=by)


def open_screen(where: str, *, today: date, units: UnitSystem, by: str | None) -> NoReturn:
    """Open the interface on a register; ends the process with its exit code."""
    from fleet.tui.guard import NO_SCREEN_CODE, why_no_screen

    reason = why_no_screen()
    if reason is not None:
        click.echo(reason, err=True)
        sys.exit(NO_SCREEN_CODE)
    from fleet.desk.opened import open_desk

    desk = open_desk(where, today=today, units=units, by=by)
    from fleet.tui.app import ColdroundApp

    app = ColdroundApp(desk)
    app.run()
    sys.exit(app.return_code or 0)
