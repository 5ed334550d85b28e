"""Lists by key, against the same lists cut by OFFSET in plain Python."""

import random
from dataclasses import asdict
from typing import Any

import pytest
from sqlalchemy import Connection, Engine

from db import pages, register
from db.engine import writer
from db.findings import FINDING_FIELDS, first_seen, replace_findings, rewriting
from db.models import Box, Customer, Site, System
from db.pages import FindingFilter, FindingSort
from db.register import RegisterFilter, RegisterSort
from tests.db.support import TODAY, TODAY_DAY, work

pytestmark = pytest.mark.independent
RULES = ("low_pressure_window", "not_recorded", "check_overdue")
REFRIGERANTS = ("R-404A", "R-22", None)
STRATEGIES = ("remote-rack", "pressure-cycling", None)
Row = dict[str, Any]


@pytest.fixture
def fleet(engine: Engine) -> tuple[Engine, list[Row]]:
    """A register of random places and findings, and the findings that are open today."""
    draw = random.Random(7)
    systems = _places(engine, draw)
    rows = [row for system in systems for row in _findings(draw, system)]
    with writer(engine).begin() as connection, rewriting(connection, 1, 1):
        keys = [system["system_id"] for system in systems]
        tuples = [tuple(row.get(name) for name in FINDING_FIELDS) for row in rows]
        replace_findings(connection, keys, tuples, today_day=TODAY_DAY, through_day=TODAY_DAY)
    still = [row for row in rows if row["until_day"] is None or row["until_day"] > TODAY_DAY]
    return engine, [row for row in still if row["from_day"] <= TODAY_DAY]


def _places(engine: Engine, draw: random.Random) -> list[Row]:
    made = []
    with work(engine) as adding:
        for c in range(5):
            # Names repeat, differ in case, and hold what search must take literally.
            customer = Customer(customer=f"C{c}", name=draw.choice(["Alder", "alder", "100%_market"]))
            for s in range(draw.randint(0, 3)):
                site = Site(of_customer=customer, site=f"S{s}", name=draw.choice([None, "Ridge"]))
                adding.add(customer, site)
                for y in range(draw.randint(0, 6)):
                    system = System(
                        of_site=site,
                        system=f"W{y}",
                        refrigerant=draw.choice(REFRIGERANTS),
                        strategy=draw.choice(STRATEGIES),
                    )
                    made.append((customer, site, system))
                    adding.add(
                        customer,
                        site,
                        system,
                        *(Box(of_system=system, box=f"B{b}") for b in range(draw.randint(0, 3))),
                    )
            adding.add(customer)
        adding.commit()
        return [
            {
                "system_id": y.id,
                "customer_id": c.id,
                "site_id": s.id,
                "refrigerant": y.refrigerant,
                "strategy": y.strategy,
                "place": (c.name, c.id, s.site, s.id, y.system, y.id),
            }
            for c, s, y in made
        ]


def _findings(draw: random.Random, system: Row) -> list[Row]:
    keys = {
        (draw.choice(["", "B0"]), draw.choice(RULES), draw.choice(["setpoint", ""]))
        for _ in range(draw.randint(0, 9))
    }
    return [
        {
            **system,
            "part": part,
            "rule": rule,
            "setting": setting,
            "from_day": draw.choice([0, 0, TODAY_DAY, TODAY_DAY + 1]),
            "until_day": draw.choice([None, None, TODAY_DAY, TODAY_DAY + 5]),
            "severity": draw.randint(1, 4),
            "far": draw.choice([0.0, -1.5, -1.0 / 3.0]),
            "verdict": "above",
        }
        for part, rule, setting in sorted(keys)
    ]


def _order(row: Row, sort: FindingSort) -> tuple[Any, ...]:
    if sort is FindingSort.WORST:
        names = ("severity", "far", "system_id", "part", "rule", "setting", "from_day")
    elif sort is FindingSort.RULE:
        names = ("rule", "severity", "far", "system_id", "part", "setting", "from_day")
    else:
        names = ("place", "severity", "far", "part", "rule", "setting", "from_day")
    return tuple(row[name] for name in names)


def _identity(row: Row) -> tuple[Any, ...]:
    return tuple(row[name] for name in ("system_id", "part", "rule", "setting", "from_day"))


FILTERS = [
    {},
    {"severity": 2},
    {"rule": "not_recorded"},
    {"refrigerant": "R-22"},
    {"refrigerant": "R-404A", "strategy": "remote-rack"},
    {"rule": "check_overdue", "severity": 1},
    {"customer_id": 1},
    {"customer_id": 1, "rule": "not_recorded"},
    {"site_id": 2, "severity": 3},
    {"strategy": "pressure-cycling"},
    {"severity": 1, "rule": "no such rule"},
]


@pytest.mark.parametrize("narrowed", FILTERS, ids=str)
@pytest.mark.parametrize("sort", FindingSort)
def test_pages_by_key_are_pages_by_offset(
    fleet: tuple[Engine, list[Row]], narrowed: Row, sort: FindingSort
) -> None:
    engine, rows = fleet
    wanted = [row for row in rows if all(row[name] == value for name, value in narrowed.items())]
    expected = [_identity(row) for row in sorted(wanted, key=lambda row: _order(row, sort))]
    chosen = FindingFilter(**narrowed)
    with engine.connect() as connection:
        assert _all_pages(connection, chosen, sort, limit=7) == expected
        found = pages.anchors(connection, chosen, sort, TODAY_DAY, step=7)
        assert found.total == len(expected)
        for place, key in enumerate(found.keys):
            page = pages.page_at(connection, chosen, sort, TODAY_DAY, key, limit=7)
            assert [_identity(asdict(row)) for row in page.rows] == expected[7 * place : 7 * place + 7]
        counted = pages.counts(connection, chosen, TODAY_DAY)
    others = {name: value for name, value in narrowed.items() if name != "severity"}
    open_rows = [row for row in rows if all(row[name] == value for name, value in others.items())]
    assert counted == {s: sum(row["severity"] == s for row in open_rows) for s in range(1, 5)}


def _all_pages(
    connection: Connection, chosen: FindingFilter, sort: FindingSort, limit: int
) -> list[tuple[Any, ...]]:
    found = []
    page = pages.page(connection, chosen, sort, TODAY_DAY, limit=limit)
    while page.rows:
        assert len(page.rows) <= limit
        found += [_identity(asdict(row)) for row in page.rows]
        page = pages.page(connection, chosen, sort, TODAY_DAY, after=page.keys[-1], limit=limit)
    return found


@pytest.mark.parametrize("typed", ["alder w1", "R-22", "100%", "_", "%", "\\", "ridge  S1", "no such"])
def test_search_takes_every_word_literally(fleet: tuple[Engine, list[Row]], typed: str) -> None:
    engine, rows = fleet
    with engine.connect() as connection:
        names = {
            row.id: " ".join(filter(None, (row.system, row.refrigerant, row.site, row.site_name))).casefold()
            + f" {row.customer} {row.customer_name}".casefold()
            for row in register.page(
                connection, register.SYSTEMS, RegisterFilter(), RegisterSort.PLACE, TODAY_DAY
            ).rows
        }
        expected = {key for key, text in names.items() if all(w in text for w in typed.casefold().split())}
        for sort in RegisterSort:
            narrowed = RegisterFilter(search=typed)
            found = register.page(connection, register.SYSTEMS, narrowed, sort, TODAY_DAY)
            assert {row.id for row in found.rows} == expected
        listed = _all_pages(connection, FindingFilter(search=typed), FindingSort.WORST, 50)
    assert len(listed) == sum(row["system_id"] in expected for row in rows)


@pytest.mark.parametrize("sort", RegisterSort)
@pytest.mark.parametrize("kind", ["CUSTOMERS", "SITES", "SYSTEMS", "BOXES"])
def test_lists_of_the_register_page_whole(
    fleet: tuple[Engine, list[Row]], kind: str, sort: RegisterSort
) -> None:
    engine, _ = fleet
    of = getattr(register, kind)
    with engine.connect() as connection:
        table = kind.lower()
        total = connection.exec_driver_sql(f"SELECT count(*) FROM {table}").scalar()
        found, worst, keys = [], [], []
        page = register.page(connection, of, RegisterFilter(), sort, TODAY_DAY, limit=4)
        while page.rows:
            found += [row.id for row in page.rows]
            worst += [_worst(row.open_findings) for row in page.rows]
            page = register.page(
                connection, of, RegisterFilter(), sort, TODAY_DAY, after=page.keys[-1], limit=4
            )
        anchors = register.anchors(connection, of, RegisterFilter(), sort, TODAY_DAY, step=4)
        starts = [
            register.page_at(connection, of, RegisterFilter(), sort, TODAY_DAY, key, limit=1).rows[0].id
            for key in anchors.keys
        ]
    assert len(found) == len(set(found)) == total == anchors.total
    assert starts == found[::4]
    assert keys == sorted(keys)
    if sort is RegisterSort.WORST:
        assert worst == sorted(worst)


def _worst(open_findings: tuple[int, ...]) -> int:
    return next((severity for severity, count in enumerate(open_findings, 1) if count), 9)


def test_the_counts_beside_a_system_are_its_open_findings(fleet: tuple[Engine, list[Row]]) -> None:
    engine, rows = fleet
    with engine.connect() as connection:
        listed = register.page(connection, register.SYSTEMS, RegisterFilter(), RegisterSort.PLACE, TODAY_DAY)
    for row in listed.rows:
        own = [finding["severity"] for finding in rows if finding["system_id"] == row.id]
        assert row.open_findings == tuple(own.count(severity) for severity in range(1, 5))


def test_first_seen_outlives_a_rebuild(fleet: tuple[Engine, list[Row]]) -> None:
    engine, rows = fleet
    system = rows[0]["system_id"]
    with writer(engine).begin() as connection:
        before = first_seen(connection, system)
        replace_findings(connection, [system], [], today_day=TODAY_DAY + 9, through_day=TODAY_DAY + 9)
        assert first_seen(connection, system) == before
        again = tuple(rows[0].get(name) for name in FINDING_FIELDS)
        replace_findings(connection, [system], [again], today_day=TODAY_DAY + 9, through_day=TODAY_DAY + 9)
        assert first_seen(connection, system) == before
    assert set(before.values()) == {TODAY}
    assert set(before) >= {(r["part"], r["rule"], r["setting"]) for r in rows if r["system_id"] == system}


@pytest.mark.parametrize(
    ("narrowed", "sort", "index"),
    [
        ({}, FindingSort.WORST, "ix_findings_worst"),
        ({"customer_id": 1, "rule": "x"}, FindingSort.WORST, "ix_findings_customer"),
        ({"site_id": 1, "severity": 1}, FindingSort.WORST, "ix_findings_site"),
        ({"refrigerant": "R-22", "strategy": "x"}, FindingSort.WORST, "ix_findings_refrigerant"),
        ({"rule": "x", "severity": 1}, FindingSort.WORST, "ix_findings_rule"),
        ({"severity": 1}, FindingSort.RULE, "ix_findings_rule"),
        ({"strategy": "x", "rule": "x"}, FindingSort.WORST, "ix_findings_strategy"),
    ],
)
def test_a_page_begins_at_its_key_in_an_index(
    fleet: tuple[Engine, list[Row]], narrowed: Row, sort: FindingSort, index: str
) -> None:
    engine, _ = fleet
    plans: list[str] = []
    with engine.connect() as connection:
        listing = pages._listing(connection, FindingFilter(**narrowed), sort, TODAY_DAY)
        key = tuple("" if name.endswith(("part", "rule", "setting")) else 1 for name in listing.order)
        driver = connection.connection.driver_connection
        assert driver is not None
        asked: list[str] = []
        driver.set_trace_callback(asked.append)
        pages.page(connection, FindingFilter(**narrowed), sort, TODAY_DAY, after=key, limit=5)
        driver.set_trace_callback(None)
        plans = [row[3] for row in driver.execute(f"EXPLAIN QUERY PLAN {asked[-1]}")]
    assert any(
        index in step and "SEARCH f" in step and ">(" in step.replace("> (", ">(") for step in plans
    ), plans
    assert not any("SCAN" in step or step == "USE TEMP B-TREE FOR ORDER BY" for step in plans), plans
