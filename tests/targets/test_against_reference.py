"""The product's columns against a second implementation that shares neither code nor tables with it."""

from collections.abc import Sequence
from random import Random

import numpy as np
import pytest

from fleet.dictionary.words import Severity, Verdict
from fleet.targets.judge import Judged
from fleet.targets.lowpressure import LowPressure, low_pressure
from tests.targets.building import fleet_of
from tests.targets.invented import invented, invented_rack
from tests.targets.reference import PSI, SLACK_PSI, Reference, System, Window

pytestmark = pytest.mark.independent

VERDICTS = [verdict.value for verdict in Verdict]
NEITHER = ("not-known", "not-recorded")
"""Without a cut-in, and without what its window needs, a differential is both; either may be said."""


def _near(found: float, expected: float) -> bool:
    return abs(found - expected) <= 0.01 + 2e-4 * abs(expected)


def _severity(judged: Judged, row: int) -> str | None:
    severity = int(judged.severity[row])
    return Severity(severity).value_name if severity else None


def _on_the_edge(window: Window, recorded_psi: float) -> bool:
    """Whether table and equation may disagree on which side of a bound the value lies."""
    bounds = [b for b in (window.low, window.high) if b is not None]
    return any(abs(abs(recorded_psi - bound) - SLACK_PSI) < 0.02 for bound in bounds)


def _difference(judged: Judged, row: int, window: Window) -> str | None:
    verdict = VERDICTS[judged.verdict[row]]
    if window.verdict == "unchecked":
        return None
    if judged.setting == "low_pressure_differential" and (verdict, window.verdict) == NEITHER:
        return None
    if verdict in {"not-known", "not-applicable"} and window.verdict == verdict:
        return None
    if _on_the_edge(window, judged.recorded[row] / PSI):
        return None
    severity = _severity(judged, row)
    if (verdict, severity) != (window.verdict, window.severity):
        return f"{judged.setting}: {verdict} {severity}, by the reference {window.verdict} {window.severity}"
    for side, bound, missing in (("low", window.low, -np.inf), ("high", window.high, np.inf)):
        found = float(getattr(judged, side)[row])
        if bound is None and window.verdict not in {"not-known", "not-applicable"} and found != missing:
            if not (judged.setting == "low_pressure_differential" and window.low is None):
                return f"{judged.setting}: {side} {found / PSI:.3f} psi, by the reference none"
        elif bound is not None and not _near(found / PSI, bound):
            return f"{judged.setting}: {side} {found / PSI:.3f} psi, by the reference {bound:.3f}"
    return None


def differences(systems: Sequence[System], found: LowPressure) -> list[str]:
    out = []
    for row, system in enumerate(systems):
        windows = Reference(system).windows()
        for name in ("cut_in", "cut_out", "differential"):
            difference = _difference(getattr(found, name), row, windows[name])
            if difference is not None:
                out.append(f"{difference} of {system}")
    return out


def _compared(seed: int, count: int) -> list[str]:
    random = Random(seed)
    systems = [invented(random) for _ in range(count)]
    return differences(systems, low_pressure(fleet_of(systems)))


def test_hundred_and_fifty_invented_units_agree() -> None:
    assert _compared(20261, 150) == []


@pytest.mark.deep
@pytest.mark.parametrize("seed", range(10))
def test_five_thousand_invented_units_agree(seed: int) -> None:
    assert _compared(seed, 500) == []


def test_the_invented_units_meet_every_verdict_and_severity() -> None:
    random = Random(20261)
    found = low_pressure(fleet_of([invented(random) for _ in range(150)]))
    verdicts = {VERDICTS[code] for judged in found.judged[:3] for code in judged.verdict}
    assert verdicts == set(VERDICTS) - {"stale"}
    assert {int(s) for judged in found.judged[:3] for s in judged.severity} == {0, 1, 2, 3, 4}


def _rack_differences(seed: int, count: int) -> list[str]:
    random = Random(seed)
    racks = [invented_rack(random) for _ in range(count)]
    fleet = fleet_of(racks)
    found = low_pressure(fleet)
    out = []
    for row, owner in enumerate(fleet.groups.system):
        reference, tag = Reference(racks[owner]), fleet.group_tags[row]
        window = reference.group_verdict(tag)
        out.append(_difference(found.group_suction, row, window))
    for row, owner in enumerate(fleet.compressors.system):
        window = Reference(racks[owner]).rack_cut_out(int(fleet.compressors.position[row]) - 1)
        out.append(_difference(found.rack_cut_out, row, window))
    return [difference for difference in out if difference is not None]


def test_sixty_invented_racks_agree() -> None:
    assert _rack_differences(7, 60) == []


def test_a_rack_has_no_pair_of_its_own() -> None:
    random = Random(7)
    found = low_pressure(fleet_of([invented_rack(random) for _ in range(20)]))
    for judged in found.judged[:3]:
        assert {VERDICTS[code] for code in judged.verdict} == {"not-applicable"}
        assert not judged.severity.any()
