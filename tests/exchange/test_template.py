"""The empty files: they import as they are, say what is allowed, and never overwrite."""

from pathlib import Path

import pytest

from fleet.dictionary import FILES, SETTINGS
from fleet.errors import UsageError
from fleet.exchange.gathering import read_files
from fleet.exchange.plan import make_plan
from fleet.exchange.register import read_state
from fleet.exchange.template import write_templates
from tests.exchange.support import CHECK_CODES, Importer


def test_the_templates_import_as_they_are(tmp_path: Path, register: Importer) -> None:
    folder = tmp_path / "new" / "company"
    written = write_templates(folder, check_codes=CHECK_CODES)
    assert sorted(path.name for path in folder.iterdir()) == sorted(path.name for path in written)
    gathered = read_files([folder])
    plan = make_plan(gathered, read_state(register.engine, gathered), check_codes=CHECK_CODES)
    assert {name: counts.new for name, counts in plan.counts.items()} == {
        kind.name: 2 if kind.name == "people" else 1 for kind in FILES
    }


def test_each_file_has_every_column_and_the_explanation_too(tmp_path: Path) -> None:
    write_templates(tmp_path, check_codes=CHECK_CODES)
    explained = (tmp_path / "README.txt").read_text(encoding="utf-8")
    for kind in FILES:
        header = (tmp_path / kind.file_name).read_text(encoding="utf-8").splitlines()[0]
        assert header.split(",") == [column.name for column in kind.columns]
        assert f"\n{kind.file_name}: {kind.about}\n" in explained
        for column in kind.columns:
            assert f"\n  {column.name}" in explained
    for setting in SETTINGS:
        assert f"\n  {setting.code} ({setting.part.value}): {setting.kind.accepted}\n" in explained
    assert all(f"\n  {code}\n" in explained for code in CHECK_CODES)
    assert "one of recycling-pump-down, one-time-pump-down, pressure-cycling" in explained


def test_nothing_is_overwritten(tmp_path: Path) -> None:
    (tmp_path / "sites.csv").write_text("mine")
    with pytest.raises(UsageError) as refused:
        write_templates(tmp_path, check_codes=CHECK_CODES)
    assert str(refused.value) == (
        f"sites.csv exists in {tmp_path} already, and nothing was written; expected an empty or a new folder."
    )
    assert [path.name for path in tmp_path.iterdir()] == ["sites.csv"]
    assert (tmp_path / "sites.csv").read_text() == "mine"


def test_a_file_in_place_of_the_folder(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("")
    with pytest.raises(UsageError, match=r"The files cannot be written to .*file: File exists"):
        write_templates(tmp_path / "file", check_codes=CHECK_CODES)
