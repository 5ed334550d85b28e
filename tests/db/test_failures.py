"""A register that cannot be used says so in one sentence that names it, and stays as it was."""

import os
import sqlite3
import tempfile
from collections.abc import Iterator
from contextlib import closing, contextmanager
from pathlib import Path

import pytest
from sqlalchemy.orm import Session

from db.engine import connect_register, open_register, writer
from db.models import Person, System
from fleet.errors import (
    NotARegisterError,
    RegisterError,
    RegisterLockedError,
    RegisterMissingError,
    RegisterNewerError,
    RegisterReadOnlyError,
)
from tests.db.support import add_system, work

pytestmark = pytest.mark.independent


def test_a_missing_file_is_named_and_not_made(tmp_path: Path) -> None:
    path = tmp_path / "none.register"
    with pytest.raises(RegisterMissingError, match=r"There is no register .*none\.register\."):
        open_register(path)
    assert list(tmp_path.iterdir()) == []


def test_a_folder_is_no_register(tmp_path: Path) -> None:
    with pytest.raises(NotARegisterError, match="is a folder, not a register"):
        open_register(tmp_path)


@pytest.mark.parametrize("content", [b"", b"customer,name\nALDER,Alder\n", b"SQLite format 3"])
def test_another_file_is_no_register(tmp_path: Path, content: bytes) -> None:
    path = tmp_path / "customers.csv"
    path.write_bytes(content)
    with pytest.raises(NotARegisterError, match=r"customers\.csv is not a register but something else"):
        open_register(path)
    assert path.read_bytes() == content


def test_a_database_of_another_program_is_refused(tmp_path: Path) -> None:
    path = tmp_path / "other.db"
    with closing(sqlite3.connect(path)) as other:
        other.execute("CREATE TABLE t (a)")
    with pytest.raises(NotARegisterError, match=r"other\.db is a database of another program"):
        open_register(path)


def test_a_register_without_its_tables_is_refused(register: Path) -> None:
    with closing(sqlite3.connect(register)) as spoiled:
        spoiled.execute("DROP TABLE alembic_version")
    with pytest.raises(NotARegisterError, match=r"test\.register holds no register: its tables are missing"):
        open_register(register)


def test_a_damaged_register_is_refused(register: Path) -> None:
    content = bytearray(register.read_bytes())
    content[100:4096] = b"\xff" * 3996
    register.write_bytes(bytes(content))
    with pytest.raises(NotARegisterError, match=r"test\.register is no register, or is damaged"):
        open_register(register)
    assert register.read_bytes() == bytes(content)


def test_a_newer_register_names_both_revisions(register: Path) -> None:
    _set_revision(register, "0999")
    with pytest.raises(RegisterNewerError, match="has revision 0999, this version knows up to 0001"):
        open_register(register)


def test_a_locked_register_says_so_after_the_timeout(register: Path) -> None:
    engine = open_register(register, busy_seconds=0.05)
    with closing(sqlite3.connect(register, isolation_level=None)) as other:
        other.execute("BEGIN IMMEDIATE")
        message = r"test\.register is being written by another program\. Nothing was changed"
        with pytest.raises(RegisterLockedError, match=message), work(engine):
            pass
        with Session(engine) as session:  # a reader is not kept out
            assert session.query(Person).count() == 0
    engine.dispose()


def test_opened_for_reading_it_cannot_be_written(register: Path) -> None:
    engine = open_register(register, read_only=True)
    message = r"test\.register may only be read"
    with pytest.raises(RegisterReadOnlyError, match=message), work(engine):
        pass
    with pytest.raises(RegisterReadOnlyError, match=message), writer(engine).begin() as connection:
        connection.exec_driver_sql("DELETE FROM people")
    engine.dispose()


def test_in_a_folder_that_may_not_be_written_it_can_be_read(register: Path) -> None:
    engine = open_register(register)
    keys = add_system(engine)
    engine.dispose()
    with _protected_copy(register) as copy, _ordinary_person():
        before = copy.read_bytes()
        protected = open_register(copy)
        with Session(protected) as session:
            assert session.get_one(System, keys.system).system == "WC-1"
        with pytest.raises(RegisterReadOnlyError, match=r"copy\.register may only be read"), work(protected):
            pass
        protected.dispose()
        assert copy.read_bytes() == before
        assert [path.name for path in copy.parent.iterdir()] == ["copy.register"]


def test_an_older_register_has_to_be_upgraded_first(register: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("db.revisions.REVISIONS", ("0001", "0002"))
    monkeypatch.setattr("db.revisions.HEAD", "0002")
    with pytest.raises(RegisterError, match=r"has revision 0001, .* expects 0002: it must be upgraded first"):
        open_register(register)


def test_a_bad_url_is_named() -> None:
    with pytest.raises(NotARegisterError, match="is no database URL"):
        connect_register("no scheme://")


def _set_revision(register: Path, revision: str) -> None:
    with closing(sqlite3.connect(register)) as changed:
        changed.execute("UPDATE alembic_version SET version_num = ?", (revision,))
        changed.commit()


@contextmanager
def _protected_copy(register: Path) -> Iterator[Path]:
    """A register in a folder that nobody may write."""
    with tempfile.TemporaryDirectory() as folder:
        copy = Path(folder) / "copy.register"
        copy.write_bytes(register.read_bytes())
        copy.chmod(0o444)
        Path(folder).chmod(0o555)
        yield copy
        Path(folder).chmod(0o755)


@contextmanager
def _ordinary_person() -> Iterator[None]:
    """The administrator may write everywhere: become somebody who may not."""
    if os.geteuid() != 0:
        yield
        return
    os.seteuid(65534)
    try:
        yield
    finally:
        os.seteuid(0)
