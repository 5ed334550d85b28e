"""An open register with who is at the desk, which day it is, and in which units."""

from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import date, datetime
from pathlib import Path

from sqlalchemy import Engine, select
from sqlalchemy.orm import Session

from db.driver import day_number
from db.engine import open_register
from db.models import Person
from db.place import Where, place_of
from db.revisions import REVISIONS
from db.schema import upgrade
from fleet.errors import RegisterError, RegisterMissingError, UnknownNameError
from fleet.units import UnitSystem


@dataclass(slots=True)
class Desk:
    """What every use case is given: the register, the day, the person, the units."""

    where: Where
    engine: Engine
    today: date
    units: UnitSystem = UnitSystem.US
    by: str | None = None
    """The tag of the person at the desk, chosen once and kept until changed."""
    now: Callable[[], datetime] = field(default=datetime.now)
    _file: tuple[int, int] | None = field(init=False, default=None, repr=False)

    def __post_init__(self) -> None:
        """Remember which file was opened."""
        self._file = self._file_now()

    def _file_now(self) -> tuple[int, int] | None:
        path = place_of(self.where).path
        try:
            found = None if path is None else path.stat()
        except OSError:
            return None
        return None if found is None else (found.st_dev, found.st_ino)

    def require_file(self) -> None:
        """Refuse to write into a file that has another name, or none, since it was opened: it would be lost.

        Raises:
            RegisterMissingError: the file was deleted, moved, or another one was put in its place.
        """
        if self._file_now() != self._file:
            name = place_of(self.where).name
            raise RegisterMissingError(
                f"{name} was deleted, moved or replaced while it was open. Nothing was changed; "
                "put it back, or open the register again.",
                where=name,
            )

    @property
    def today_day(self) -> int:
        """Today in days since 1970-01-01."""
        return day_number(self.today)

    @property
    def name(self) -> str:
        """The register as the first row of the screen names it."""
        path = place_of(self.where).path
        return path.stem if path else place_of(self.where).name

    def close(self) -> None:
        """Give the register back."""
        self.engine.dispose()

    def person_id(self, tag: str | None = None) -> int | None:
        """Return the key of a person, of the one at the desk without a tag; None where nobody is.

        Raises:
            UnknownNameError: the register knows no such person.
        """
        wanted = tag or self.by
        if not wanted:
            return None
        with Session(self.engine) as session:
            people = {person.person: person.id for person in session.scalars(select(Person))}
        if wanted not in people:
            raise UnknownNameError("person", wanted, people, where="--by")
        return people[wanted]

    def people(self) -> tuple[str, ...]:
        """Return the tags of everybody in the register."""
        with Session(self.engine) as session:
            return tuple(session.scalars(select(Person.person).order_by(Person.person)))


def open_desk(
    where: Where,
    *,
    today: date,
    units: UnitSystem = UnitSystem.US,
    by: str | None = None,
    read_only: bool = False,
) -> Desk:
    """Open a register, first bringing an older one up to this version with a backup.

    Raises:
        RegisterError: it is missing, something else, locked, newer; nothing is changed.
        UnknownNameError: `by` is nobody in the register.
    """
    try:
        engine = open_register(where, read_only=read_only)
    except RegisterMissingError as error:
        raise RegisterMissingError(
            f"{error.message} 'coldround import {where} FILES' makes one; 'coldround demo' shows one.",
            where=error.where,
        ) from None
    except RegisterError as error:
        if type(error) is not RegisterError or not REVISIONS:
            raise
        upgrade(where, now=datetime.now())
        engine = open_register(where, read_only=read_only)
    desk = Desk(where, engine, today, units, by)
    desk.person_id()
    return desk


def default_register() -> Path:
    """Return where the register lives when none is named."""
    from platformdirs import user_data_path

    return user_data_path("coldround", appauthor=False) / "register.sqlite"


def demo_register() -> Path:
    """Return where the demo register lives."""
    from platformdirs import user_data_path

    return user_data_path("coldround", appauthor=False) / "demo.sqlite"
