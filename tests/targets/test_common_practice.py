"""Windows against what the trade holds for right: common practice, no source."""

import pytest

from tests.cli.setups import windows

pytestmark = pytest.mark.independent

WALK_IN = [
    *("targets", "--json", "--refrigerant", "R-404A", "--strategy", "recycling-pump-down"),
    *("--kind", "walk-in-cooler", "--setpoint", "36F", "--differential", "2F", "--td", "10F"),
    *("--line-loss", "2F", "--placement", "outdoor", "--cut-in", "15psig", "--cut-out", "5psig"),
    *("--low-pressure-differential", "10psi"),
]
REACH_IN = [
    *("targets", "--json", "--refrigerant", "R-134a", "--strategy", "pressure-cycling"),
    *("--kind", "reach-in-cooler", "--setpoint", "35F", "--differential", "3F", "--td-low", "15F"),
    *("--td-high", "25F", "--line-loss", "0F", "--placement", "indoor-heated"),
    *("--cut-in", "33psig", "--cut-out", "15psig"),
]


@pytest.mark.parametrize("design_cold", ["0F", "-15F"])
def test_the_usual_walk_in_pair_is_inside_down_to_minus_fifteen(design_cold: str) -> None:
    # common practice, no source
    found = windows([*WALK_IN, "--design-cold", design_cold])
    assert [w["verdict"] for w in found] == ["inside", "inside", "inside"]


def test_at_minus_twenty_the_usual_cut_in_has_no_margin_left() -> None:
    # common practice, no source
    cut_in, cut_out, differential = windows([*WALK_IN, "--design-cold", "-20F"])
    assert (cut_in["verdict"], cut_in["severity"]) == ("above", "next-visit")
    assert cut_in["reason"].startswith("No margin left.")
    assert (cut_out["verdict"], differential["verdict"]) == ("inside", "inside")


def test_the_usual_reach_in_pair_is_inside() -> None:
    # common practice, no source
    found = windows(REACH_IN)
    assert [w["verdict"] for w in found] == ["inside", "inside", "inside"]
