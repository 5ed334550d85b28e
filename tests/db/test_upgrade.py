"""Registers of earlier releases, with rows in them, come through every later migration."""

import shutil
import sqlite3
from contextlib import closing
from pathlib import Path

import pytest
from alembic.autogenerate import compare_metadata
from alembic.migration import MigrationContext

from db import integrity
from db.backup import find_backups, make_backup
from db.engine import open_register
from db.models import Base
from db.revisions import HEAD, REVISIONS
from db.schema import MIGRATIONS, upgrade
from fleet.errors import RegisterError, RegisterNewerError
from tests.db.support import NOW, add_system

pytestmark = pytest.mark.independent
RELEASES = sorted((Path(__file__).parent / "releases").glob("*.sql"))
NEXT = '''
"""A migration that rebuilds a table others refer to."""

import sqlalchemy as sa
from alembic import op

revision = "0002"
down_revision = "0001"


def upgrade() -> None:
    with op.batch_alter_table("systems") as systems:
        systems.add_column(sa.Column("colour", sa.String(20)))
        systems.alter_column("name", type_=sa.String(300))
    {more}
'''


def restored(dump: Path, path: Path) -> dict[str, int]:
    """Make a register from a stored dump; return the number of rows of each table."""
    with closing(sqlite3.connect(path)) as made:
        made.executescript(dump.read_text(encoding="utf-8"))
    return counted(path)


def counted(path: Path) -> dict[str, int]:
    with closing(sqlite3.connect(path)) as opened:
        tables = [row[0] for row in opened.execute("SELECT name FROM sqlite_master WHERE type = 'table'")]
        return {
            table: opened.execute(f'SELECT count(*) FROM "{table}"').fetchone()[0]
            for table in tables
            if table != "alembic_version"
        }


def test_there_is_a_register_of_every_release() -> None:
    assert [dump.stem for dump in RELEASES] == list(REVISIONS)


@pytest.mark.parametrize("dump", RELEASES, ids=lambda dump: dump.stem)
def test_an_earlier_register_comes_up_to_date_with_all_its_rows(dump: Path, tmp_path: Path) -> None:
    path = tmp_path / "old.register"
    before = restored(dump, path)
    assert min(before.values()) > 0
    backup = upgrade(path, now=NOW)
    assert (backup is None) == (dump.stem == HEAD)
    after = counted(path)
    assert {table: after[table] for table in before} == before
    engine = open_register(path)
    assert integrity.check(engine).sound
    with engine.connect() as connection:
        assert compare_metadata(MigrationContext.configure(connection), Base.metadata) == []
    engine.dispose()


@pytest.fixture
def next_release(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A version that knows one migration more; returns where that is written."""
    folder = tmp_path / "migrations"
    shutil.copytree(MIGRATIONS, folder, ignore=shutil.ignore_patterns("__pycache__"))
    for module in ("db.revisions", "db.schema"):
        monkeypatch.setattr(f"{module}.HEAD", "0002")
        monkeypatch.setattr(f"{module}.REVISIONS", ("0001", "0002"))
    monkeypatch.setattr("db.schema.MIGRATIONS", folder)
    return folder / "versions" / "v0002_next.py"


def test_a_migration_keeps_rows_and_makes_a_backup_first(register: Path, next_release: Path) -> None:
    engine = open_register_of_before(register)
    engine.dispose()
    before = counted(register)
    next_release.write_text(NEXT.format(more=""))
    backup = upgrade(register, now=NOW, to="0002")
    assert backup is not None
    assert counted(register) == counted(backup) == before
    with closing(sqlite3.connect(register)) as after, closing(sqlite3.connect(backup)) as kept:
        assert "colour" in {row[1] for row in after.execute("PRAGMA table_info(systems)")}
        assert "colour" not in {row[1] for row in kept.execute("PRAGMA table_info(systems)")}
        assert after.execute("PRAGMA foreign_key_check").fetchall() == []
        assert after.execute("SELECT version_num FROM alembic_version").fetchone() == ("0002",)
    assert upgrade(register, now=NOW, to="0002") is None


@pytest.mark.parametrize("fault", ["1 / 0", 'op.execute("DELETE FROM sites")'])
def test_a_migration_that_fails_changes_nothing(register: Path, next_release: Path, fault: str) -> None:
    engine = open_register_of_before(register)
    engine.dispose()
    before = counted(register)
    next_release.write_text(NEXT.format(more=fault))
    with pytest.raises((ZeroDivisionError, RegisterError)):
        upgrade(register, now=NOW, to="0002")
    assert counted(register) == before
    with closing(sqlite3.connect(register)) as after:
        assert "colour" not in {row[1] for row in after.execute("PRAGMA table_info(systems)")}
        assert after.execute("SELECT version_num FROM alembic_version").fetchone() == ("0001",)


def open_register_of_before(register: Path):  # type: ignore[no-untyped-def]
    """Fill a register while it is still of the revision before."""
    with pytest.MonkeyPatch.context() as patched:
        patched.setattr("db.revisions.HEAD", "0001")
        engine = open_register(register)
    add_system(engine)
    return engine


def test_a_newer_register_is_not_touched(register: Path) -> None:
    with closing(sqlite3.connect(register)) as changed:
        changed.execute("UPDATE alembic_version SET version_num = '0999'")
        changed.commit()
    before = register.read_bytes()
    with pytest.raises(RegisterNewerError, match="has revision 0999"):
        upgrade(register, now=NOW)
    assert register.read_bytes() == before
    assert not register.with_name("test.register-backups").exists()


def test_backups_are_complete_and_listed_the_newest_first(register: Path) -> None:
    engine = open_register(register)
    add_system(engine)
    first = make_backup(register, now=NOW, why="before-test")
    second = make_backup(register, now=NOW, why="before-test")
    assert first is not None
    assert second is not None
    assert first != second
    assert counted(first) == counted(register)
    assert {backup.path for backup in find_backups(engine)} == {first, second}
    assert sorted(path.name for path in first.parent.iterdir()) == sorted([first.name, second.name])
    open_register(first).dispose()
    engine.dispose()


def test_a_backup_that_cannot_be_written_says_so(register: Path) -> None:
    register.with_name("test.register-backups").write_text("in the way")
    with pytest.raises(RegisterError, match=r"No backup of .*test\.register could be written to"):
        make_backup(register, now=NOW, why="before-test")
