"""The whole audit: settings, checks and compressors of a fleet in one go."""

from dataclasses import replace
from datetime import date

import numpy as np
import pytest

from fleet.audit.findings import FindingColumns
from fleet.audit.rules import RULE_CODES
from fleet.audit.run import History, audit
from fleet.checks.due import CheckRecordColumns
from fleet.dictionary.words import Severity
from fleet.reliability.flooded import LifeColumns
from fleet.targets.columns import FleetColumns
from tests.targets.building import fleet_of
from tests.targets.reference import System

pytestmark = pytest.mark.regression

COOLER = System(cut_in=15.0, cut_out=5.0)
TOO_HIGH = replace(COOLER, cut_in=40.0)
"""Its cut-in is an act-now finding."""
NOT_WORSE_THAN_A_WATCH = replace(COOLER, extreme_cold=-25.0)
EPOCH = date(1970, 1, 1)
TODAY = (date(2026, 3, 12) - EPOCH).days


def _nothing() -> np.ndarray:
    return np.zeros(0, dtype=np.int64)


def _history(*lost: tuple[int, date]) -> History:
    none = np.zeros(0)
    return History(
        checks=CheckRecordColumns(_nothing(), _nothing(), _nothing(), none, none),
        lives=LifeColumns(
            system=np.array([row for row, _ in lost], dtype=np.int64),
            position=np.ones(len(lost), dtype=np.int64),
            out_day=np.array([float((day - EPOCH).days) for _, day in lost]),
        ),
    )


def _audited(fleet: FleetColumns, history: History) -> FindingColumns:
    return audit(fleet, history, TODAY)


def _of(found: FindingColumns, rule: str) -> list[tuple[int, str]]:
    rows = np.flatnonzero(found.rule == RULE_CODES.index(rule))
    return [(int(found.system[i]), Severity(int(found.severity[i])).value_name) for i in rows]


def test_a_sound_fleet_without_history_has_no_finding() -> None:
    found = _audited(fleet_of([COOLER, COOLER]), _history())
    assert {RULE_CODES[code] for code in found.rule} <= {"check_overdue"}


def test_two_flooded_starts_are_urgent_only_beside_a_pressure_finding() -> None:
    fleet = fleet_of([COOLER, TOO_HIGH, NOT_WORSE_THAN_A_WATCH, TOO_HIGH])
    close = (date(2024, 6, 1), date(2026, 1, 15))
    history = _history(*((row, day) for row in (0, 1, 2) for day in close), (3, close[0]))
    assert _of(_audited(fleet, history), "flooded_starts") == [
        (0, "next-visit"),
        (1, "act-now"),
        (2, "next-visit"),
        (3, "next-visit"),
    ]


def test_the_rules_of_one_system_do_not_see_another() -> None:
    systems = [COOLER, TOO_HIGH, replace(COOLER, cut_in=None), replace(COOLER, cut_out=12.0)]
    together = _audited(fleet_of(systems), _history())
    for row, system in enumerate(systems):
        alone = _audited(fleet_of([system]), _history())
        own = np.flatnonzero(together.system == row)
        for name in ("rule", "severity", "verdict", "recorded", "low", "high", "preferred", "far", "missing"):
            assert getattr(together, name)[own].tobytes() == getattr(alone, name).tobytes(), name
        for name in ("part", "setting", "also"):
            assert getattr(together, name)[own].tolist() == getattr(alone, name).tolist(), name
