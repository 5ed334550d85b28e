"""The tables: made by the migrations, equal to the models, and the models equal to the dictionary."""

import subprocess
import sys
from pathlib import Path

import pytest
from alembic.autogenerate import compare_metadata
from alembic.migration import MigrationContext
from alembic.script import ScriptDirectory
from sqlalchemy import Boolean, Date, DateTime, Engine, Float, Integer, String, Text, create_engine
from sqlalchemy.types import TypeEngine

from db.engine import APPLICATION_ID, open_register
from db.models import (
    Base,
    Box,
    CheckRecord,
    Compressor,
    CurrentSettings,
    Customer,
    Event,
    Person,
    SettingRecord,
    Site,
    System,
)
from db.models.base import CodesText
from db.revisions import HEAD, REVISIONS
from db.schema import alembic_config, create
from fleet.dictionary import FILES, SETTINGS, FileKind
from fleet.dictionary import kinds as k
from fleet.errors import UsageError

pytestmark = pytest.mark.independent

MODELS: dict[str, type[Base]] = {
    "people": Person,
    "customers": Customer,
    "sites": Site,
    "systems": System,
    "boxes": Box,
    "compressors": Compressor,
    "settings": SettingRecord,
    "events": Event,
    "checks": CheckRecord,
}
PARENT = {
    "sites": "customer_id",
    "systems": "site_id",
    "boxes": "system_id",
    "compressors": "system_id",
    "settings": "system_id",
    "events": "system_id",
    "checks": "system_id",
}
ABOVE = {"customer", "site", "system"}
OWN_TAG = {"customers": "customer", "sites": "site", "systems": "system"}
TYPES: dict[type[k.Kind], tuple[type[TypeEngine[object]], ...]] = {
    k.Measure: (Float,),
    k.Number: (Float, Integer),
    k.Day: (Date,),
    k.Moment: (DateTime,),
    k.YesOrNo: (Boolean,),
    k.Choice: (String,),
    k.Choices: (CodesText,),
    k.Refrigerant: (String,),
    k.Pattern: (Text,),
    k.Days: (Text,),
    k.Reference: (Integer,),
    k.Text: (String,),
    k.TagText: (String,),
    k.BoxTag: (String,),
}


def test_the_models_have_no_drift_from_the_migrations(engine: Engine) -> None:
    with engine.connect() as connection:
        context = MigrationContext.configure(connection, opts={"compare_server_default": True})
        assert compare_metadata(context, Base.metadata) == []


def test_drift_would_be_found() -> None:
    with create_engine("sqlite://").connect() as connection:
        assert len(compare_metadata(MigrationContext.configure(connection), Base.metadata)) > 10


def test_the_known_revisions_are_those_of_the_scripts() -> None:
    scripts = ScriptDirectory.from_config(alembic_config())
    assert scripts.get_current_head() == HEAD
    assert [script.revision for script in scripts.walk_revisions()] == list(reversed(REVISIONS))


@pytest.mark.parametrize("file", FILES, ids=lambda file: file.name)
def test_every_column_of_the_dictionary_has_its_attribute(file: FileKind) -> None:
    columns = MODELS[file.name].__table__.columns
    missing = []
    for column in file.columns:
        above = column.name in ABOVE and OWN_TAG.get(file.name) != column.name
        if above:
            assert PARENT[file.name] in columns
        elif file.name == "settings" and column.name == "value":
            assert {"value_si", "typed", "dimension"} <= set(columns.keys())
        elif column.attribute not in columns:
            missing.append(column.attribute)
        else:
            kind = type(columns[column.attribute].type)
            assert issubclass(kind, TYPES[type(column.kind)]), (column.attribute, kind)
    assert missing == []


@pytest.mark.parametrize("file", FILES, ids=lambda file: file.name)
def test_a_table_with_quantities_keeps_what_was_typed(file: FileKind) -> None:
    measured = any(isinstance(column.kind, k.Measure) for column in file.columns)
    assert not measured or "typed" in MODELS[file.name].__table__.columns


def test_every_field_of_every_setting_has_its_current_column() -> None:
    fields = [field for setting in SETTINGS for field in setting.fields]
    assert [c.name for c in CurrentSettings.__table__.columns] == ["system_id", "part", *fields]


def test_a_new_register_is_marked_as_ours_and_leaves_no_side_files(tmp_path: Path) -> None:
    path = tmp_path / "folder" / "new one.register"
    create(path)
    assert [file.name for file in path.parent.iterdir()] == ["new one.register"]
    engine = open_register(path)
    with engine.connect() as connection:
        assert connection.exec_driver_sql("PRAGMA application_id").scalar() == APPLICATION_ID
        assert connection.exec_driver_sql("PRAGMA journal_mode").scalar() == "wal"
        assert connection.exec_driver_sql("PRAGMA foreign_keys").scalar() == 1
    engine.dispose()


def test_creating_never_overwrites(tmp_path: Path) -> None:
    path = tmp_path / "precious.txt"
    path.write_text("precious")
    with pytest.raises(UsageError, match=r"precious\.txt exists already; it was not touched"):
        create(path)
    assert path.read_text() == "precious"


def test_opening_a_register_does_not_load_alembic(register: Path) -> None:
    code = (
        f"from db.engine import open_register; open_register({str(register)!r}); "
        "import sys; print('alembic' in sys.modules)"
    )
    ran = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert ran.stdout.strip() == "False"


def test_a_url_and_odd_names_are_accepted(tmp_path: Path) -> None:
    odd, plain = tmp_path / "100% of #1?.register", tmp_path / "plain.register"
    create(odd)
    open_register(odd).dispose()
    create(f"sqlite:///{plain}")
    open_register(f"sqlite:///{plain}").dispose()
    assert sorted(path.name for path in tmp_path.iterdir()) == [odd.name, plain.name]
