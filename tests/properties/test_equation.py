"""The tables against the equation they were made from, solved live."""

from pathlib import Path

import numpy as np
import pytest

from fleet.errors import ColdroundError
from fleet.properties import REFRIGERANTS, bridged_nodes, coolprop_version, refrigerant
from fleet.properties.equations import Equation, mole_fractions
from fleet.properties.make import solve
from fleet.properties.saturation import (
    bubble_pressure_pa_abs,
    dew_pressure_pa_abs,
    liquid_density_kg_m3,
)
from fleet.properties.tables import BUBBLE, DENSITY, DEW, node_temperatures_k, tables
from fleet.properties.walk import curve

PROMISED = 2e-5
"""0.002 % in pressure."""


def _index(name: str) -> int:
    return [item.name for item in REFRIGERANTS].index(name)


@pytest.mark.independent
@pytest.mark.parametrize(
    "name", ["R-134a", "R-717", "R-744", "R-404A", "R-407C", "R-448A", "R-454C", "R-455A"]
)
def test_between_nodes_the_pressure_is_that_of_the_equation(name: str) -> None:
    """Scattered temperatures off the nodes, from 217 K to 45 K below where blends end."""
    equation = Equation(refrigerant(name))
    index = np.array([_index(name)])
    for temperature_k in np.linspace(217.13, 303.88, 60):
        at = np.array([temperature_k])
        for quality, look_up in ((1, dew_pressure_pa_abs), (0, bubble_pressure_pa_abs)):
            answer = equation.saturated(quality, float(temperature_k))
            assert answer is not None
            assert look_up(index, at)[0] == pytest.approx(answer.pressure_pa_abs, rel=PROMISED)
        boiling = equation.saturated(0, float(temperature_k))
        density = liquid_density_kg_m3(index, at)[0]
        if boiling is not None and not np.isnan(density):
            live = boiling.liquid_mol_m3 * equation.molar_mass_kg_mol
            assert density == pytest.approx(live, rel=6e-4)


@pytest.mark.deep
@pytest.mark.independent
@pytest.mark.parametrize("name", [item.name for item in REFRIGERANTS])
def test_halfway_between_all_nodes_the_pressure_is_that_of_the_equation(name: str) -> None:
    """The whole range of both curves; halfway between nodes is where a straight line errs most."""
    equation = Equation(refrigerant(name))
    for quality, look_up, table in (
        (1, dew_pressure_pa_abs, tables().dew),
        (0, bubble_pressure_pa_abs, tables().bubble),
    ):
        answers = curve(equation, quality)
        at = np.array([answer.temperature_k for answer in answers])
        live = np.array([answer.pressure_pa_abs for answer in answers])
        ours = look_up(np.full(at.shape, _index(name)), at)
        known = ~np.isnan(ours)
        low_k, high_k = table.segments.low_k[_index(name)], table.segments.high_k[_index(name)]
        assert known.tolist() == ((at >= low_k) & (at <= high_k)).tolist()
        assert np.abs(ours[known] / live[known] - 1).max() < PROMISED


@pytest.mark.regression
@pytest.mark.parametrize("name", ["R-22", "R-744", "R-410A", "R-407F", "R-454B"])
def test_shipped_nodes_are_what_making_gives(name: str) -> None:
    """The file is not stale: making these refrigerants anew gives the same nodes and bridges."""
    import CoolProp

    if CoolProp.__version__ != coolprop_version():
        pytest.skip(f"the tables were made with CoolProp {coolprop_version()}")
    known, index = tables(), _index(name)
    made = solve(refrigerant(name))
    for label, segments, as_y in (
        (DEW, known.dew.segments, np.log),
        (BUBBLE, known.bubble.segments, np.log),
        (DENSITY, known.density, None),
    ):
        shipped = segments.y0[segments.first[index] : segments.last[index] + 2]
        nodes = node_temperatures_k(segments.low_k[index], segments.high_k[index])
        assert made[label].temperatures_k == pytest.approx(nodes.tolist(), rel=1e-12)
        assert made[label].values == pytest.approx(shipped.tolist(), rel=1e-10)
        assert as_y is None or np.all(np.diff(shipped) > 0)
        recorded = [node for node in bridged_nodes() if (node.refrigerant, node.curve) == (name, label)]
        assert list(made[label].bridged) == recorded


@pytest.mark.independent
def test_bridged_nodes_are_recorded_where_the_plain_solver_fails() -> None:
    """At recorded nodes of R-407F the plain solver has no answer or a wrong one, at others it has."""
    equation = Equation(refrigerant("R-407F"))
    recorded = {
        node.temperature_k for node in bridged_nodes() if (node.refrigerant, node.curve) == ("R-407F", BUBBLE)
    }
    assert {322.0, 327.5, 332.5} <= recorded
    index = np.array([_index("R-407F")])
    for temperature_k in np.arange(310.0, 345.0, 0.5):
        answer = equation.saturated(0, float(temperature_k))
        ours = bubble_pressure_pa_abs(index, np.array([temperature_k]))[0]
        agrees = answer is not None and answer.pressure_pa_abs == pytest.approx(ours, rel=1e-9)
        assert agrees == (temperature_k not in recorded)


@pytest.mark.independent
@pytest.mark.parametrize(("name", "quality"), [("R-448A", 0), ("R-454B", 1), ("R-407F", 0)])
def test_continued_answers_equal_plain_ones_wherever_both_exist(name: str, quality: int) -> None:
    """Solving on from a neighbour changes how an answer is found, not the answer."""
    equation = Equation(refrigerant(name))
    compared = 0
    for temperature_k in np.arange(300.0, 330.0, 2.5):
        near = equation.saturated(quality, float(temperature_k) - 0.25)
        plain = equation.saturated(quality, float(temperature_k))
        if near is None or plain is None:
            continue
        continued = equation.continued(quality, float(temperature_k), near)
        assert continued is not None
        assert continued.pressure_pa_abs == pytest.approx(plain.pressure_pa_abs, rel=1e-10)
        compared += 1
    assert compared >= 7


def test_every_bridged_node_says_how_and_none_is_interpolated() -> None:
    """Names, curves and ways are of the closed lists; pure fluids needed none."""
    nodes = bridged_nodes()
    assert nodes
    assert {node.how for node in nodes} == {"continued"}
    assert {node.curve for node in nodes} <= {DEW, BUBBLE, DENSITY}
    blends = {item.name for item in REFRIGERANTS if item.kind == "blend"}
    assert {node.refrigerant for node in nodes} <= blends


@pytest.mark.independent
@pytest.mark.parametrize("name", [item.name for item in REFRIGERANTS if item.coolprop.endswith(".mix")])
def test_composition_is_the_one_that_coolprop_predefines(name: str) -> None:
    """Mole fractions from our mass fractions equal those of the predefined mixture."""
    from CoolProp.CoolProp import AbstractState

    item = refrigerant(name)
    state = AbstractState("HEOS", item.coolprop)
    predefined = dict(zip(state.fluid_names(), state.get_mole_fractions(), strict=True))
    ours = dict(zip(_names(item.composition), mole_fractions(item), strict=True))
    assert ours == pytest.approx(predefined, abs=2e-5)


@pytest.mark.independent
@pytest.mark.parametrize("name", ["R-404A", "R-407C", "R-410A", "R-507A"])
def test_composition_of_a_pseudo_pure_is_the_one_of_the_predefined_mixture(name: str) -> None:
    """CoolProp predefines the same blends as mixtures; the pseudo-pure equation holds no composition."""
    from CoolProp.CoolProp import AbstractState

    item = refrigerant(name)
    state = AbstractState("HEOS", f"{item.coolprop}.mix")
    predefined = dict(zip(state.fluid_names(), state.get_mole_fractions(), strict=True))
    ours = dict(zip(_names(item.composition), mole_fractions(item), strict=True))
    assert ours == pytest.approx(predefined, abs=2e-5)


def test_tables_of_another_list_are_refused(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A file made before a refrigerant was added would shift positions: it is not read."""
    other = tmp_path / "saturation.npz"
    np.savez(other, refrigerants=np.array(["R-22", "R-12"]))
    monkeypatch.setattr("fleet.properties.tables.FILE", other)
    with pytest.raises(ColdroundError, match=r"saturation\.npz was made for another list of refrigerants"):
        tables.__wrapped__()


def _names(composition: tuple[tuple[str, float], ...]) -> list[str]:
    from fleet.properties.equations import component_fluid

    return [component_fluid(component) for component, _ in composition]


@pytest.mark.independent
@pytest.mark.parametrize("name", [item.name for item in REFRIGERANTS if item.estimated])
def test_note_of_an_estimated_refrigerant_names_what_is_estimated(name: str) -> None:
    """Its note speaks of a mixing rule exactly if CoolProp lacks a pair."""
    item = refrigerant(name)
    pairs = Equation(item).ruled_pairs
    assert bool(pairs) == ("linear mixing rule" in item.note)
    for pair in pairs:
        for component in pair.split("/"):
            assert component in item.note
