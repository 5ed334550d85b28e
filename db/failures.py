"""What the database driver reports, said in the words of the project's own errors."""

import sqlite3

from db.place import RegisterPlace
from fleet.errors import (
    NotARegisterError,
    RegisterError,
    RegisterLockedError,
    RegisterMissingError,
    RegisterReadOnlyError,
)

_BUSY = {sqlite3.SQLITE_BUSY, sqlite3.SQLITE_LOCKED}
_NO_SUCH = ("no such table", "no such column")
_DAMAGED = {sqlite3.SQLITE_NOTADB, sqlite3.SQLITE_CORRUPT, sqlite3.SQLITE_FORMAT}


def register_failure(error: BaseException | None, place: RegisterPlace) -> RegisterError | None:
    """Return the error to raise in place of the driver's, None where it is no failure of the register."""
    if not isinstance(error, sqlite3.DatabaseError):
        return None
    code = getattr(error, "sqlite_errorcode", 0) & 0xFF
    if code == sqlite3.SQLITE_ERROR and str(error).startswith(_NO_SUCH):
        return NotARegisterError(
            f"{place.name} has other tables than this version's ({error}). Nothing was changed.",
            where=place.name,
        )
    if code in _BUSY:
        return locked(place)
    if code in _DAMAGED:
        return NotARegisterError(
            f"{place.name} is no register, or is damaged ({error}). Nothing was changed.", where=place.name
        )
    if code == sqlite3.SQLITE_READONLY:
        return read_only(place)
    if code == sqlite3.SQLITE_CANTOPEN:
        return RegisterMissingError(
            f"{place.name} cannot be opened: it is not there, or may not be read.", where=place.name
        )
    if code in {sqlite3.SQLITE_FULL, sqlite3.SQLITE_IOERR}:
        return RegisterError(
            f"{place.name} cannot be written: {error}. Nothing was changed.", where=place.name
        )
    return None


def locked(place: RegisterPlace) -> RegisterLockedError:
    """Return the error for a register that another program is writing."""
    return RegisterLockedError(
        f"{place.name} is being written by another program. Nothing was changed; try again in a moment.",
        where=place.name,
    )


def read_only(place: RegisterPlace) -> RegisterReadOnlyError:
    """Return the error for a register that may be read only."""
    return RegisterReadOnlyError(
        f"{place.name} may only be read: the file or its folder is write-protected. Nothing was changed.",
        where=place.name,
    )
