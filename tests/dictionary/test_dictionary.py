"""The dictionary holds what was agreed, and every cell of it can be filled in."""

import pytest

from fleet.dictionary import FILE_BY_NAME, FILES, SETTING_BY_CODE, PartKind
from fleet.dictionary.kinds import Choice, Choices, Measure, Reference
from fleet.dictionary.words import Severity, Verdict, Word
from fleet.units import Dimension
from tests.dictionary.recorded import FILES as AGREED
from tests.dictionary.recorded import SETTINGS, SEVERITIES, VERDICTS, WORDS

pytestmark = pytest.mark.independent


@pytest.mark.parametrize("name", AGREED)
def test_every_agreed_column_of_a_file_is_there(name: str) -> None:
    own = [column.name for column in FILE_BY_NAME[name].columns]
    assert [wanted for wanted in AGREED[name].split() if wanted not in own] == []


@pytest.mark.parametrize(("file", "column"), WORDS)
def test_a_choice_offers_the_agreed_words_and_no_others(file: str, column: str) -> None:
    found = FILE_BY_NAME[file].column(column)
    assert found is not None
    assert isinstance(found.kind, Choice | Choices)
    assert set(found.kind.words) == set(WORDS[file, column].split())


def test_every_setting_is_there_and_no_other() -> None:
    assert list(SETTING_BY_CODE) == SETTINGS.split()


def test_severities_and_verdicts() -> None:
    assert [severity.value_name for severity in Severity] == SEVERITIES.split()
    assert [verdict.value for verdict in Verdict] == VERDICTS.split()


def test_settings_stand_as_columns_where_they_belong() -> None:
    systems = {column.name for column in FILE_BY_NAME["systems"].settings_columns}
    boxes = {column.name for column in FILE_BY_NAME["boxes"].settings_columns}
    for setting in SETTING_BY_CODE.values():
        assert (setting.code in boxes) is (setting.part is PartKind.BOX)
        assert (setting.code in systems) is (setting.part is not PartKind.BOX)


@pytest.mark.parametrize("file", FILES, ids=lambda file: file.name)
def test_names_inside_a_file_are_unique(file: object) -> None:
    columns = file.all_columns  # type: ignore[attr-defined]
    assert len({column.name for column in columns}) == len(columns)
    assert len({column.attribute for column in columns}) == len(columns)
    assert len({column.option for column in columns}) == len(columns)


def test_fields_of_settings_are_unique_and_end_in_their_unit() -> None:
    every = [field for setting in SETTING_BY_CODE.values() for field in setting.fields]
    assert len(every) == len(set(every))
    for setting in SETTING_BY_CODE.values():
        for dimension in setting.dimensions:
            assert setting.field_for(dimension).endswith(f"_{dimension.suffix}")
            assert setting.field_for(dimension) in setting.fields
    assert SETTING_BY_CODE["low_pressure_cut_in"].field_for(Dimension.PRESSURE_ABSOLUTE) == (
        "low_pressure_cut_in_pa_gauge"
    )


@pytest.mark.parametrize("file", FILES, ids=lambda file: file.name)
def test_a_key_is_made_of_columns(file: object) -> None:
    names = [column.name for column in file.columns]  # type: ignore[attr-defined]
    assert [part for part in file.key if part not in names] == []  # type: ignore[attr-defined]


def test_every_example_is_accepted_and_written_back() -> None:
    tried = 0
    for file in FILES:
        for column in file.all_columns:
            if column.example:
                value = column.kind.read(column.example)
                assert column.kind.read(column.kind.write(value)) == value, f"{file.name}.{column.name}"
                tried += 1
    assert tried > 120


def test_quantities_carry_their_unit_in_their_name() -> None:
    for file in FILES:
        for column in file.columns:
            if isinstance(column.kind, Measure) and len(column.kind.dimensions) == 1:
                assert column.attribute == f"{column.name}_{column.kind.dimensions[0].suffix}"
            if isinstance(column.kind, Reference):
                assert column.attribute == f"{column.name}_id"
    lowest = FILE_BY_NAME["compressors"].column("lowest_suction")
    assert lowest is not None
    assert lowest.attribute == "lowest_suction_pa_abs"


def test_codes_are_positions_and_words_can_be_read() -> None:
    import fleet.dictionary.words as words

    lists = [kind for kind in vars(words).values() if isinstance(kind, type) and issubclass(kind, Word)]
    assert len(lists) > 15
    for kind in lists:
        assert [word.code for word in kind] == list(range(len(kind)))  # type: ignore[call-overload]
        for word in kind:
            assert (
                "-" not in word.words
                or word.words.startswith(("walk-in", "reach-in"))
                or "pump-down" in word.words
            )
