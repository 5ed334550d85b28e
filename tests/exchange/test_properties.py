"""What holds for any rows: they come back as typed, twice is once, and their order does not matter."""

import shutil
from collections.abc import Callable
from datetime import date
from pathlib import Path
from random import Random
from tempfile import TemporaryDirectory

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from db.engine import open_register
from fleet.dictionary import BOXES, COMPRESSORS, SITES, SYSTEMS, Column, FileKind
from fleet.dictionary.kinds import (
    Choice,
    Choices,
    Day,
    Days,
    Measure,
    Number,
    Pattern,
    Refrigerant,
    Text,
    YesOrNo,
)
from fleet.exchange.cells import as_text
from fleet.exchange.gathering import read_files
from fleet.exchange.impossible import ORDERS
from fleet.exchange.register import read_state
from fleet.exchange.rows import typed_texts
from fleet.exchange.writing import write_csv
from fleet.units import Dimension
from tests.exchange.support import Importer, RowSets, example

_UNITS = {
    Dimension.TEMPERATURE: ["F", "C", " °F"],
    Dimension.TEMPERATURE_DIFFERENCE: ["F", "K", " C"],
    Dimension.PRESSURE: ["psig", "bar", " kPa"],
    Dimension.PRESSURE_ABSOLUTE: ["psia", "bara"],
    Dimension.PRESSURE_DIFFERENCE: ["psi", "bar"],
    Dimension.PRESSURE_RATE: ["psi/h", "kPa/h"],
    Dimension.MASS: ["lb", "kg", " oz"],
    Dimension.LENGTH: ["ft", "m"],
    Dimension.AREA: ["ft2", "m2"],
    Dimension.VOLUME: ["ft3", "L"],
    Dimension.TIME: ["min", "s", " h"],
    Dimension.POWER: ["W", "kW"],
    Dimension.VOLTAGE: ["V"],
}
_PATTERNS = {"season_from": "05-15", "season_to": "09-30", "closed": "2026-12-25;2027-01-01/2027-01-03"}
_plain_text = (
    st.text(st.characters(exclude_categories=["C", "Z"]), min_size=1, max_size=12)
    | st.sampled_from(["=1+1", "-x", "two words", "a,b", 'say "no"', "one\ntwo", "'=x"])
).filter(lambda text: text == text.strip())


def cell_texts(column: Column) -> st.SearchStrategy[str]:
    """Return texts that a column accepts, as people may type them."""
    kind = column.kind
    if isinstance(kind, Choice):
        return st.sampled_from(kind.words)
    if isinstance(kind, Choices):
        return st.lists(st.sampled_from(kind.words), min_size=1, unique=True).map(";".join)
    if isinstance(kind, YesOrNo):
        return st.sampled_from(["yes", "no"])
    if isinstance(kind, Day):
        return st.dates(date(1990, 1, 1), date(2030, 1, 1)).map(date.isoformat)
    if isinstance(kind, Number):
        if kind.whole:
            return st.integers(int(kind.lowest), int(kind.highest)).map(str)
        return st.floats(kind.lowest, kind.highest).map(repr)
    if isinstance(kind, Measure):
        numbers = st.decimals(0, 80, places=2).map(str)
        return st.builds(str.__add__, numbers, st.sampled_from(_UNITS[kind.dimensions[0]]))
    if isinstance(kind, Refrigerant):
        return st.sampled_from(["R-404A", "R-22", "R-134a"])
    if isinstance(kind, Pattern | Days):
        return st.just(_PATTERNS.get(column.name, "07:00-15:00"))
    assert isinstance(kind, Text)
    return _plain_text


def rows_of(kind: FileKind) -> st.SearchStrategy[dict[str, str]]:
    """Return rows with any of their cells filled, the key as in the example, nothing contradictory."""
    paired = {name for lower, upper, _ in ORDERS[kind.name] for name in (lower, upper)}
    free = [c for c in kind.columns if c.name not in {*kind.key, *paired}]
    return st.fixed_dictionaries({}, optional={c.name: cell_texts(c) for c in free}).map(
        lambda row: {name: example()[kind.name][0][name] for name in kind.key} | row
    )


@pytest.mark.parametrize("kind", [SITES, SYSTEMS, BOXES, COMPRESSORS], ids=lambda kind: kind.name)
def test_what_was_typed_comes_back(kind: FileKind, empty_register: Path) -> None:
    @settings(max_examples=15, deadline=None, suppress_health_check=[HealthCheck.too_slow])
    @given(rows_of(kind))
    def comes_back(row: dict[str, str]) -> None:
        with TemporaryDirectory() as folder:
            path = Path(folder) / "register.db"
            shutil.copyfile(empty_register, path)
            engine = open_register(path)
            try:
                importer = Importer(engine, path)
                importer.load({**example(), kind.name: [row]})
                assert not importer.load({kind.name: [row]}).written
                write_csv(Path(folder) / kind.file_name, list(row), [list(row.values())])
                gathered = read_files([Path(folder) / kind.file_name])
                assert not gathered.problems
                table = read_state(engine, gathered).table(kind.name)
            finally:
                engine.dispose()
            (existing,) = table.rows.values()
            for name, text in row.items():
                column = kind.column(name)
                assert column is not None
                if column.name in kind.key:
                    continue
                value = table.value(existing, column.attribute)
                if isinstance(column.kind, Measure):
                    assert typed_texts(existing)[name] == text
                elif isinstance(column.kind, Number):
                    assert value == float(text)
                else:
                    assert as_text(value) == text  # type: ignore[arg-type]

    comes_back()


def _many(random: Random) -> RowSets:
    """Return a few hundred rows of two customers that refer to each other."""
    rows = example()
    rows["customers"].append({**rows["customers"][0], "customer": "BIRCH"})
    rows["sites"].append({**rows["sites"][0], "customer": "BIRCH"})
    one = {name: found[0] for name, found in rows.items()}
    for number in range(20):
        place = {"customer": random.choice(["ALDER", "BIRCH"]), "system": f"S{number}"}
        rows["systems"].append({**one["systems"], **place, "low_pressure_cut_in": f"{number}psig"})
        rows["compressors"].append({**one["compressors"], **place})
        for box in ("B1", "B2"):
            rows["boxes"].append({**one["boxes"], **place, "box": box, "setpoint": f"{30 + number}F"})
            part = {**place, "part": box, "setting": "setpoint", "value": f"{random.randint(30, 40)}F"}
            for day in ("2026-01-05", "2025-01-05", "2026-02-07"):
                rows["settings"].append({**one["settings"], **part, "recorded_on": day})
        rows["checks"].append({**one["checks"], **place})
        rows["events"].append({**one["events"], **place, "reference": f"E-{number}"})
    return rows


@pytest.mark.parametrize("seed", range(4))
def test_order_of_rows_and_files_does_not_matter(new_register: Callable[[], Importer], seed: int) -> None:
    random = Random(seed)
    rows = _many(random)
    straight, shuffled = new_register(), new_register()
    straight.load(rows)
    names = random.sample(list(rows), len(rows))
    shuffled.load({name: random.sample(rows[name], len(rows[name])) for name in names})
    assert shuffled.content() == straight.content()
    assert not shuffled.load(rows).written


@pytest.mark.parametrize("seed", range(4))
def test_in_pieces_is_as_good_as_at_once(new_register: Callable[[], Importer], seed: int) -> None:
    rows = _many(Random(seed))
    at_once, in_pieces = new_register(), new_register()
    at_once.load(rows)
    order = (
        "people",
        "customers",
        "sites",
        "systems",
        "boxes",
        "compressors",
        "settings",
        "events",
        "checks",
    )
    for name in order:
        for start in range(0, len(rows[name]), 7):
            in_pieces.load({name: rows[name][start : start + 7]})
    assert in_pieces.content() == at_once.content()
    before = in_pieces.dump()
    in_pieces.load(rows)
    assert in_pieces.dump() == before


def test_rows_of_other_customers_are_not_needed_to_compare(register: Importer) -> None:
    rows = _many(Random(1))
    register.load(rows)
    alder = {"systems": [row for row in rows["systems"] if row["customer"] == "ALDER"]}
    alder["systems"][0] = {**alder["systems"][0], "charge": "99lb"}
    result = register.load(alder)
    assert (result.counts["systems"].new, result.counts["systems"].changed) == (0, 1)
