"""Engines on a register: checked before use, with the pragmas that every connection needs.

A reader begins with ``BEGIN`` and sees one snapshot; a writer (`writer`) begins with
``BEGIN IMMEDIATE``, because a transaction that reads first and writes later fails at once, whatever
the busy timeout, when another has written in between.
"""

import os
import sqlite3
from collections.abc import Callable
from contextlib import closing
from pathlib import Path

from sqlalchemy import Connection, Engine, create_engine, event
from sqlalchemy.engine import ExceptionContext
from sqlalchemy.exc import ArgumentError

from db.failures import read_only as read_only_error
from db.failures import register_failure
from db.place import RegisterPlace, Where, place_of
from db.revisions import check_revision
from fleet.errors import NotARegisterError, RegisterError, RegisterMissingError

APPLICATION_ID = 0x434F4C44
"""Marks the file as a register in its header (SQLite's ``application_id``): the letters COLD."""
BUSY_SECONDS = 5.0
_HEADER = b"SQLite format 3\x00"
_BEGIN = "coldround_begin"
_CACHE_KIB = 16 * 1024
_MMAP_BYTES = 0


def open_register(where: Where, *, read_only: bool = False, busy_seconds: float = BUSY_SECONDS) -> Engine:
    """Return an engine on a register that exists and has this version's schema.

    A file that may not be written is opened for reading, and so is one in a folder that may not be
    written; a write then raises `RegisterReadOnlyError`.

    Raises:
        RegisterMissingError: there is no such file.
        NotARegisterError: the file is something else.
        RegisterNewerError: it was written by a newer version.
        RegisterError: it was written by an older version and has to be upgraded first.
        RegisterLockedError: another program holds it.
    """
    engine = connect_register(where, read_only=read_only, busy_seconds=busy_seconds)
    try:
        with engine.connect() as connection:
            check_revision(connection, place_of(where))
    except BaseException:
        engine.dispose()
        raise
    return engine


def connect_register(
    where: Where, *, read_only: bool = False, busy_seconds: float = BUSY_SECONDS, create: bool = False
) -> Engine:
    """Return an engine on a register of any revision; ``create`` makes an empty file."""
    place = place_of(where)
    if place.path is None:
        engine = _server_engine(place)
    else:
        if not create:
            check_file(place)
        uri = place.file_uri("rwc") if create else _uri(place, read_only=read_only, busy_seconds=busy_seconds)
        engine = create_engine(place.url, creator=_creator(uri, busy_seconds))
        event.listen(engine, "begin", _beginner(place, may_write="mode=ro" not in uri))
    _say_failures(engine, place)
    return engine


def writer(engine: Engine) -> Engine:
    """Return the same engine for writing: its transactions take the write lock when they begin."""
    return engine.execution_options(**{_BEGIN: "BEGIN IMMEDIATE"})


def check_file(place: RegisterPlace) -> None:
    """Refuse a file that is missing, or that its header shows to be something else."""
    path = place.path
    assert path is not None
    try:
        with path.open("rb") as file:
            head = file.read(100)
    except FileNotFoundError:
        raise RegisterMissingError(f"There is no register {place.name}.", where=place.name) from None
    except IsADirectoryError:
        raise NotARegisterError(f"{place.name} is a folder, not a register.", where=place.name) from None
    except PermissionError:
        raise RegisterMissingError(f"{place.name} may not be read by you.", where=place.name) from None
    except OSError as error:
        raise RegisterMissingError(
            f"{place.name} cannot be opened: {error.strerror or error}.", where=place.name
        ) from None
    if not head.startswith(_HEADER):
        raise NotARegisterError(f"{place.name} is not a register but something else.", where=place.name)
    if int.from_bytes(head[68:72], "big") != APPLICATION_ID:
        raise NotARegisterError(
            f"{place.name} is a database of another program, not a register.", where=place.name
        )


def _server_engine(place: RegisterPlace) -> Engine:
    try:
        return create_engine(place.url)
    except ArgumentError:
        raise NotARegisterError(
            f"{place.name} names a kind of database that is not known here; expected a path, or a URL like "
            "postgresql://host/name.",
            where=place.name,
        ) from None
    except ImportError as error:
        raise RegisterError(
            f"{place.name} cannot be opened: the driver {error.name} for this kind of database is not "
            "installed. Nothing was changed.",
            where=place.name,
        ) from None


def _uri(place: RegisterPlace, *, read_only: bool, busy_seconds: float) -> str:
    """Choose how to open: for writing, for reading, or as a file that nothing can change."""
    path = place.path
    assert path is not None
    if not read_only and _writable(path) and _writable(path.absolute().parent):
        return place.file_uri("rw")
    uri = place.file_uri("ro")
    if _readable(uri, place, busy_seconds):
        return uri
    # Without a place for its side files SQLite reads a WAL database only as immutable, and then it
    # would not see what a side file still holds.
    side = path.with_name(path.name + "-wal")
    if side.exists() and side.stat().st_size:
        raise read_only_error(place)
    return place.file_uri("ro", immutable=True)


def _writable(path: Path) -> bool:
    return os.access(path, os.W_OK, effective_ids=os.access in os.supports_effective_ids)


def _readable(uri: str, place: RegisterPlace, busy_seconds: float) -> bool:
    """Tell whether SQLite can read the file with its side files.

    Raises:
        RegisterError: it cannot for another reason than a missing place for them.
    """
    with closing(sqlite3.connect(uri, uri=True, timeout=busy_seconds)) as connection:
        try:
            connection.execute("SELECT count(*) FROM sqlite_master").fetchone()
        except sqlite3.DatabaseError as error:
            if error.sqlite_errorcode & 0xFF in {sqlite3.SQLITE_CANTOPEN, sqlite3.SQLITE_READONLY}:
                return False
            # A register that is locked or damaged must not be opened as a file that nothing can change.
            failure = register_failure(error, place)
            if failure is None:
                raise
            raise failure from error
    return True


def _creator(uri: str, busy_seconds: float) -> Callable[[], sqlite3.Connection]:
    def connect() -> sqlite3.Connection:
        connection = sqlite3.connect(
            uri, uri=True, timeout=busy_seconds, isolation_level=None, check_same_thread=False
        )
        connection.execute("PRAGMA foreign_keys = ON")
        connection.execute("PRAGMA synchronous = NORMAL")
        connection.execute(f"PRAGMA cache_size = -{_CACHE_KIB}")
        connection.execute(f"PRAGMA mmap_size = {_MMAP_BYTES}")
        connection.execute("PRAGMA temp_store = MEMORY")
        return connection

    return connect


def _beginner(place: RegisterPlace, *, may_write: bool) -> Callable[[Connection], None]:
    def begin(connection: Connection) -> None:
        how = connection.get_execution_options().get(_BEGIN, "BEGIN")
        if how != "BEGIN" and not may_write:
            # SQLite itself would begin a reading transaction and refuse only the first write.
            raise read_only_error(place)
        connection.exec_driver_sql(how)

    return begin


def _say_failures(engine: Engine, place: RegisterPlace) -> None:
    def say(context: ExceptionContext) -> None:
        failure = register_failure(context.original_exception, place)
        if failure is not None:
            raise failure from context.original_exception

    event.listen(engine, "handle_error", say)
