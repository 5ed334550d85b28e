"""Generated fleets: exact sizes, the same for the same seed, about a quarter of the systems faulty."""

from collections import Counter
from datetime import date

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from seeds_demo.generator import generate_blocks, generate_files
from seeds_demo.templates import site_templates

TODAY = date(2027, 1, 15)


@settings(max_examples=15, deadline=None)
@given(boxes=st.integers(1, 400), seed=st.integers(0, 2**32))
def test_exactly_as_many_boxes_as_asked(boxes: int, seed: int) -> None:
    assert len(generate_files(boxes, seed, TODAY)["boxes"]) == boxes


def test_no_boxes_is_an_empty_fleet() -> None:
    files = generate_files(0, seed=1, today=TODAY)
    assert files["people"]
    assert not any(rows for name, rows in files.items() if name != "people")


def test_same_seed_same_rows_another_seed_others() -> None:
    once = generate_files(500, seed=3, today=TODAY)
    assert generate_files(500, seed=3, today=TODAY) == once
    assert generate_files(500, seed=4, today=TODAY) != once


def test_blocks_hold_the_same_rows() -> None:
    joined: dict[str, list[dict[str, str]]] = {}
    for block in generate_blocks(700, seed=3, today=TODAY):
        for name, rows in block.items():
            joined.setdefault(name, []).extend(rows)
    assert joined == generate_files(700, seed=3, today=TODAY)


@pytest.mark.regression
def test_mix_is_that_of_a_fleet() -> None:
    # regression: our own shares, wide enough for any seed of this size
    files = generate_files(6000, seed=11, today=TODAY)
    assert 1.25 < len(files["boxes"]) / len(files["systems"]) < 1.55
    assert 20 < len(files["systems"]) / len(files["sites"]) < 30
    assert len({row["refrigerant"] for row in files["systems"]}) >= 12
    assert len({row.get("strategy") for row in files["systems"]}) >= 5


@pytest.mark.regression
def test_about_a_quarter_of_the_systems_carries_a_planted_fault() -> None:
    templates = site_templates()
    faulty = {one.system.cells["name"] for site in templates for one in site.faulty}
    sound = {one.system.cells["name"] for site in templates for one in site.sound}
    names = Counter(row["name"] for row in generate_files(6000, seed=11, today=TODAY)["systems"])
    surely_faulty = sum(count for name, count in names.items() if name in faulty - sound)
    possibly_faulty = sum(count for name, count in names.items() if name in faulty)
    systems = sum(names.values())
    assert surely_faulty / systems < 0.25 < possibly_faulty / systems


def test_every_site_can_lend_and_borrow_a_system() -> None:
    for template in site_templates():
        assert any(len(one.system.boxes) == 1 for one in template.sound), template.site.tag
