"""Which revision of the schema a register has, read without Alembic (its import costs half a second)."""

from sqlalchemy import Connection, inspect

from db.place import RegisterPlace
from fleet.errors import NotARegisterError, RegisterError, RegisterNewerError

REVISIONS = ("0001",)
"""Every revision there was, in order."""
HEAD = REVISIONS[-1]
_OURS = {"customers", "systems", "setting_records"}


def read_revision(connection: Connection) -> str | None:
    """Return the register's revision, None where the database has never been a register."""
    tables = set(inspect(connection).get_table_names())
    if "alembic_version" not in tables or not tables >= _OURS:
        return None
    return connection.exec_driver_sql("SELECT version_num FROM alembic_version").scalar()


def check_revision(connection: Connection, place: RegisterPlace) -> None:
    """Refuse a register of another revision than this version's.

    Raises:
        NotARegisterError: no register at all.
        RegisterNewerError: from a newer version.
        RegisterError: from an older one; it has to be upgraded.
    """
    found = read_revision(connection)
    if found == HEAD:
        return
    if found is None:
        raise NotARegisterError(f"{place.name} holds no register: its tables are missing.", where=place.name)
    if found in REVISIONS:
        raise RegisterError(
            f"{place.name} has revision {found}, this version expects {HEAD}: it must be upgraded first.",
            where=place.name,
        )
    raise RegisterNewerError(
        f"{place.name} has revision {found}, this version knows up to {HEAD}: it was written by a newer "
        "version of Coldround. Nothing was changed; install that version to open it.",
        where=place.name,
    )
