"""Every setting has a line, every constraint a sentence that can be printed, every source a record."""

from dataclasses import replace
from random import Random
from string import Formatter

import numpy as np
import pytest

from fleet.dictionary import SETTINGS
from fleet.dictionary.words import Verdict
from fleet.sources import SOURCES, Tag
from fleet.targets import defaults
from fleet.targets.bounds import Bind
from fleet.targets.explain import explain
from fleet.targets.facts import boxes_named, facts_of, shown
from fleet.targets.lowpressure import low_pressure
from fleet.targets.missing import CELLS, Missing, names
from fleet.targets.table import CONSTRAINTS, TARGETS
from fleet.units import UnitSystem
from tests.targets.building import fleet_of
from tests.targets.invented import STRATEGIES, invented, invented_rack

pytestmark = pytest.mark.independent

UNSPOKEN = {Verdict.INSIDE.code, Verdict.NOT_APPLICABLE.code}


def _names(sentence: str) -> set[str]:
    return {name for _, name, _, _ in Formatter().parse(sentence) if name}


def test_every_setting_of_the_dictionary_has_one_line() -> None:
    assert [target.code for target in TARGETS] == [setting.code for setting in SETTINGS]
    assert all(target.cell_si > 0 for target in TARGETS)


def test_every_constraint_has_a_sentence_and_a_formula() -> None:
    assert set(CONSTRAINTS) == set(Bind) - {Bind.NONE}
    for constraint in CONSTRAINTS.values():
        assert constraint.sentence.endswith(".")
        assert constraint.formula
        assert _names(constraint.sentence)


def test_every_placeholder_is_a_fact() -> None:
    fleet = fleet_of([invented_rack(Random(1)), invented(Random(2))])
    found = low_pressure(fleet)
    of_setting = {judged.setting: judged for judged in found.judged[:4]}
    for target in TARGETS:
        for constraint in target.constraints:
            judged = of_setting[target.code]
            row = 0
            known = {*facts_of(fleet, found, judged, row), *boxes_named(fleet, found, 0)}
            assert _names(constraint.sentence) <= known, constraint.bind.name


def test_every_source_of_a_constraint_exists() -> None:
    for constraint in CONSTRAINTS.values():
        assert constraint.sources
        for code in constraint.sources:
            assert SOURCES[code].title
            assert isinstance(SOURCES[code].tag, Tag)


def test_every_default_names_a_source_that_exists() -> None:
    from pathlib import Path

    text = Path(str(defaults.__file__)).read_text(encoding="utf-8")
    told = [
        line.split("# source: ")[1].split(",")[0].strip()
        for line in text.splitlines()
        if "# source: " in line
    ]
    assert len(told) > 20
    assert [code for code in told if code not in SOURCES] == []


def test_codes_of_sources_are_unique_and_judgement_says_so() -> None:
    assert [code for code, source in SOURCES.items() if source.code != code] == []
    assert SOURCES["margin_restart"].tag is Tag.JUDGEMENT
    assert SOURCES["margin_restart"].tag.words == "engineering judgement"
    assert SOURCES["td_by_class"].tag.words == "common practice, no source"


def test_every_missing_input_has_a_name() -> None:
    assert set(CELLS) == set(Missing) - {Missing.NONE}
    every = 0
    for flag in CELLS:
        every |= int(flag)
    assert names(every) == list(CELLS.values())
    assert names(0) == []


@pytest.mark.parametrize("units", UnitSystem)
@pytest.mark.parametrize("strategy", [*STRATEGIES, "remote-rack"])
def test_every_window_of_every_strategy_can_be_told_in_words(strategy: str, units: UnitSystem) -> None:
    random = Random(strategy)
    if strategy == "remote-rack":
        systems = [invented_rack(random) for _ in range(25)]
    else:
        systems = [replace(invented(random), strategy=strategy) for _ in range(60)]
    fleet = fleet_of(systems)
    found = low_pressure(fleet)
    for judged in found.judged:
        for row in range(len(judged.owner)):
            words = explain(fleet, found, judged, row, units)
            told = " ".join((words.low_reason, words.high_reason, words.conflict, words.reason))
            assert "{" not in told
            assert "nan" not in told
            if judged.verdict[row] not in UNSPOKEN:
                assert words.reason
            for reason, bound in ((words.low_reason, judged.low[row]), (words.high_reason, judged.high[row])):
                if reason:
                    assert np.isfinite(bound)
                    assert not _other_units(reason, units)


@pytest.mark.parametrize("units", UnitSystem)
def test_what_is_assumed_is_told_in_the_units_asked_for(units: UnitSystem) -> None:
    random = Random(5)
    fleet = fleet_of([invented(random) for _ in range(60)])
    found = low_pressure(fleet)
    told = {words for row in range(60) for words in explain(fleet, found, found.cut_out, row, units).assumed}
    assert len(told) >= 5
    assert [sentence for sentence in sorted(told) if _other_units(sentence, units)] == []


def _other_units(sentence: str, units: UnitSystem) -> bool:
    others = ("psi", "°F", "inHg") if units is UnitSystem.METRIC else ("bar", "°C")
    return any(other in sentence for other in others)


@pytest.mark.parametrize("units", UnitSystem)
def test_a_sentence_holds_its_bound(units: UnitSystem) -> None:
    random = Random(4)
    systems = [invented(random) for _ in range(120)]
    fleet = fleet_of(systems)
    found = low_pressure(fleet)
    seen = set()
    for judged in found.judged[:3]:
        for row in range(len(systems)):
            words = explain(fleet, found, judged, row, units)
            texts = shown(words.facts, units)
            for reason, bound, code in (
                (words.low_reason, "low", judged.low_code[row]),
                (words.high_reason, "high", judged.high_code[row]),
            ):
                if reason:
                    seen.add(Bind(int(code)))
                    assert texts[bound] in reason, Bind(int(code)).name
    assert len(seen) >= 15
