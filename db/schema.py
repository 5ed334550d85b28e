"""Making a register and bringing an older one up to this version; the only module that runs Alembic."""

import os
import sqlite3
import tempfile
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING

from sqlalchemy import Connection, Engine

from db.backup import make_backup
from db.engine import APPLICATION_ID, connect_register, writer
from db.place import RegisterPlace, Where, place_of
from db.revisions import HEAD, REVISIONS, check_revision, read_revision
from fleet.errors import ChangedMeanwhileError, RegisterError, RegisterReadOnlyError, UsageError

if TYPE_CHECKING:
    from alembic.config import Config

MIGRATIONS = Path(__file__).parent / "migrations"


def create(where: Where) -> None:
    """Make an empty register; a file appears only when it is complete, and never over another.

    Raises:
        UsageError: something of that name exists.
        RegisterReadOnlyError: the folder may not be written.
    """
    place = place_of(where)
    if place.path is None:
        _create_on_server(where, place)
        return
    if place.path.exists():
        raise UsageError(f"{place.name} exists already; it was not touched.", where=place.name)
    try:
        place.path.parent.mkdir(parents=True, exist_ok=True)
        with tempfile.TemporaryDirectory(prefix=".new-register-", dir=place.path.parent) as folder:
            made = Path(folder) / "register"
            _create_file(made)
            publish(made, place.path)
    except (OSError, sqlite3.OperationalError) as error:  # a folder that may not be written, a full disk
        raise RegisterReadOnlyError(
            f"{place.name} cannot be made: {getattr(error, 'strerror', None) or error}.", where=place.name
        ) from error


def publish(finished: Path, path: Path) -> None:
    """Give a finished register its name, never over one that another program made meanwhile.

    Raises:
        ChangedMeanwhileError: there is one by now.
    """
    try:
        os.link(finished, path)
    except FileExistsError:
        raise ChangedMeanwhileError(
            f"{path} was made by another program meanwhile; nothing was imported. Import again.",
            where=str(path),
        ) from None
    except OSError:  # a file system without links
        os.replace(finished, path)


def upgrade(where: Where, *, now: datetime, to: str = HEAD) -> Path | None:
    """Bring a register up to this version; return the backup made before, None where nothing was due.

    Raises:
        RegisterNewerError, NotARegisterError, RegisterLockedError, RegisterReadOnlyError: nothing was
            changed.
    """
    place = place_of(where)
    engine = connect_register(where)
    try:
        with engine.connect() as connection:
            found = read_revision(connection)
            if found == to:
                return None
            if found not in REVISIONS:
                check_revision(connection, place)
        backup = make_backup(where, now=now, why=f"before-{to}")
        _migrate(engine, to)
    finally:
        engine.dispose()
    return backup


def alembic_config() -> "Config":
    """Return Alembic's configuration, as pyproject.toml gives it to Alembic's own command."""
    from alembic.config import Config

    config = Config()
    config.set_main_option("script_location", str(MIGRATIONS).replace("%", "%%"))
    return config


def _create_file(path: Path) -> None:
    engine = connect_register(path, create=True)
    try:
        with engine.connect() as connection:
            driver = connection.connection.driver_connection
            assert driver is not None
            driver.execute(f"PRAGMA application_id = {APPLICATION_ID}")
            driver.execute("PRAGMA journal_mode = WAL")
        _migrate(engine, HEAD)
    finally:
        engine.dispose()


def _create_on_server(where: Where, place: RegisterPlace) -> None:
    engine = connect_register(where)
    try:
        with engine.connect() as connection:
            if read_revision(connection) is not None:
                raise UsageError(f"{place.name} is a register already; it was not touched.", where=place.name)
        _migrate(engine, HEAD)
    finally:
        engine.dispose()


def _migrate(engine: Engine, to: str) -> None:
    """Run the migrations in one transaction, foreign keys off while tables are rebuilt."""
    from alembic import command

    config = alembic_config()
    with writer(engine).connect() as connection:
        on_sqlite = connection.dialect.name == "sqlite"
        if on_sqlite:
            _foreign_keys(connection, on=False)
        try:
            with connection.begin():
                config.attributes["connection"] = connection
                command.upgrade(config, to)
                if on_sqlite:
                    _refuse_orphans(connection)
        finally:
            if on_sqlite:
                _foreign_keys(connection, on=True)


def _foreign_keys(connection: Connection, *, on: bool) -> None:
    """Switch outside a transaction: inside one the pragma does nothing."""
    driver = connection.connection.driver_connection
    assert driver is not None
    driver.execute(f"PRAGMA foreign_keys = {'ON' if on else 'OFF'}")


def _refuse_orphans(connection: Connection) -> None:
    orphans = connection.exec_driver_sql("PRAGMA foreign_key_check").fetchall()
    if orphans:
        tables = ", ".join(sorted({row[0] for row in orphans}))
        raise RegisterError(f"The upgrade would lose rows that {tables} refer to; nothing was changed.")
