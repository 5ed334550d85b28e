"""Lists of the register against the same answers worked out row by row from the models."""

from collections.abc import Callable
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from sqlalchemy import select
from sqlalchemy.orm import Session, joinedload

from db.models import Box, Customer, Finding, Site, System
from fleet.desk.customer_list import CustomerSort, account_managers, customers_sorted, in_order
from fleet.desk.list_rows import BoxLine, CustomerLine, SiteLine, SystemLine, worst_of
from fleet.desk.lists import Listed, RegisterSort, asked, register_source, sites_of
from fleet.desk.opened import Desk
from fleet.desk.paging import PAGE_ROWS, PageSource, every_page

pytestmark = pytest.mark.independent


def rows(source: PageSource[Any]) -> list[Any]:
    return [row for page in every_page(source, source.anchors()) for row in page]


def listed(
    desk: Desk, what: Listed, search: str = "", sort: RegisterSort = RegisterSort.PLACE, **chosen: Any
) -> Any:
    return rows(register_source(desk, asked(what, chosen, search, sort)))


def systems(desk: Desk) -> list[System]:
    with Session(desk.engine) as session:
        query = select(System).options(
            joinedload(System.of_site).joinedload(Site.of_customer), joinedload(System.boxes)
        )
        return list(session.scalars(query).unique())


def by_place(system: System) -> tuple[Any, ...]:
    site = system.of_site
    return site.of_customer.name, site.of_customer.id, site.site, site.id, system.system, system.id


def words_of(system: System) -> list[str]:
    site = system.of_site
    texts = (system.system, system.name, system.refrigerant, site.site, site.name)
    return [text or "" for text in (*texts, site.of_customer.customer, site.of_customer.name)]


def open_severities(desk: Desk) -> dict[int, list[int]]:
    today = desk.today_day
    found: dict[int, list[int]] = {}
    with Session(desk.engine) as session:
        for finding in session.scalars(select(Finding)):
            if finding.from_day <= today and (finding.until_day is None or finding.until_day > today):
                found.setdefault(finding.system_id, []).append(finding.severity)
    return found


def test_systems_by_place(demo: Desk) -> None:
    expected = [system.id for system in sorted(systems(demo), key=by_place)]
    assert [line.system_id for line in listed(demo, Listed.SYSTEMS)] == expected
    assert len(expected) > 90


def test_a_system_line_tells_what_is_recorded(demo: Desk) -> None:
    recorded = {system.id: system for system in systems(demo)}
    severities = open_severities(demo)
    for line in listed(demo, Listed.SYSTEMS):
        assert isinstance(line, SystemLine)
        system = recorded[line.system_id]
        assert (line.system, line.refrigerant) == (system.system, system.refrigerant or "")
        assert line.strategy.replace("-", " ") == (system.strategy or "").replace("-", " ")
        assert line.boxes == len(system.boxes)
        assert line.found == tuple(severities.get(system.id, []).count(each) for each in (1, 2, 3, 4))


def test_the_worst_first_puts_severities_in_order_and_loses_nobody(demo: Desk) -> None:
    severities = open_severities(demo)
    lines = listed(demo, Listed.SYSTEMS, sort=RegisterSort.WORST)
    worst = [min(severities.get(line.system_id, [9])) for line in lines]
    assert worst == sorted(worst)
    assert {line.system_id for line in lines} == {system.id for system in systems(demo)}
    assert worst[0] == 1
    assert worst[-1] == 9


@settings(max_examples=25, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(
    typed=st.one_of(
        st.sampled_from(["404", "wc", "wf-1 r-404a", "quay", "%", "_", "\\", "'"]),
        st.text("aeR-4 1_%", max_size=6),
    )
)
def test_a_search_finds_what_holds_every_word(demo: Desk, typed: str) -> None:
    expected = [
        system.id
        for system in sorted(systems(demo), key=by_place)
        if all(any(word.lower() in text.lower() for text in words_of(system)) for word in typed.split())
    ]
    assert [line.system_id for line in listed(demo, Listed.SYSTEMS, typed)] == expected


FILTERS: list[tuple[str, Callable[[System], Any]]] = [
    ("refrigerant", lambda system: system.refrigerant),
    ("strategy", lambda system: system.strategy),
    ("site_id", lambda system: system.site_id),
    ("customer_id", lambda system: system.of_site.customer_id),
]


@pytest.mark.parametrize(("name", "value_of"), FILTERS, ids=[name for name, _ in FILTERS])
@pytest.mark.parametrize("sort", RegisterSort)
def test_a_filter_keeps_what_has_its_value(
    demo: Desk, name: str, value_of: Callable[[System], Any], sort: RegisterSort
) -> None:
    everything = systems(demo)
    for value in {value_of(system) for system in everything} - {None}:
        expected = {system.id for system in everything if value_of(system) == value}
        found = listed(demo, Listed.SYSTEMS, sort=sort, **{name: value})
        assert {line.system_id for line in found} == expected
        assert len(found) == len(expected)


def test_boxes_are_narrowed_by_their_kind(demo: Desk) -> None:
    with Session(demo.engine) as session:
        boxes = {box.id: box for box in session.scalars(select(Box))}
    freezers = {key for key, box in boxes.items() if box.kind == "walk-in-freezer"}
    found = listed(demo, Listed.BOXES, kind="walk-in-freezer")
    assert {line.box_id for line in found} == freezers
    assert all(isinstance(line, BoxLine) and line.kind == "walk-in freezer" for line in found)
    assert len(listed(demo, Listed.BOXES)) == len(boxes) > 130


def test_a_box_shows_its_setpoint_in_the_desk_s_units(demo: Desk) -> None:
    with demo.engine.connect() as connection:
        found = connection.exec_driver_sql(
            "SELECT b.id, k.setpoint_k FROM boxes b JOIN current_settings k "
            "ON k.system_id = b.system_id AND k.part = b.box WHERE k.setpoint_k IS NOT NULL"
        )
        kelvin = {row[0]: row[1] for row in found}
    shown = {line.box_id: line.setpoint for line in listed(demo, Listed.BOXES)}
    for box_id, setpoint_k in kelvin.items():
        fahrenheit = float(shown[box_id].removesuffix(" °F").replace("−", "-"))
        assert fahrenheit == pytest.approx(setpoint_k * 1.8 - 459.67, abs=0.051)
    assert all(shown[box_id] == "" for box_id in shown.keys() - kelvin.keys())


def test_what_a_list_does_not_have_narrows_nothing(demo: Desk) -> None:
    everywhere = listed(demo, Listed.SITES)
    assert listed(demo, Listed.SITES, refrigerant="R-290", strategy="remote-rack", kind="ice") == everywhere
    assert len(listed(demo, Listed.SYSTEMS, kind="walk-in-freezer")) == len(listed(demo, Listed.SYSTEMS))


def test_sites_and_customers_count_what_they_hold(demo: Desk) -> None:
    everything = systems(demo)
    sites = listed(demo, Listed.SITES)
    for site in sites:
        assert isinstance(site, SiteLine)
        mine = [system for system in everything if system.site_id == site.site_id]
        assert (site.systems, site.boxes) == (len(mine), sum(len(system.boxes) for system in mine))
    for customer in listed(demo, Listed.CUSTOMERS):
        assert isinstance(customer, CustomerLine)
        mine = [system for system in everything if system.of_site.customer_id == customer.customer_id]
        assert customer.systems == len(mine)
        assert customer.boxes == sum(len(system.boxes) for system in mine)
        assert customer.sites == sum(site.customer_id == customer.customer_id for site in sites)


def test_the_sites_of_a_customer_come_worst_first(demo: Desk) -> None:
    customer = listed(demo, Listed.CUSTOMERS)[0]
    found = sites_of(demo, customer.customer_id, 3)
    worst = [worst_of(site.found) or 9 for site in found.rows]
    assert worst == sorted(worst)
    assert {site.customer_id for site in found.rows} == {customer.customer_id}
    assert found.more == (customer.sites > 3)


@pytest.mark.parametrize("what", Listed)
@pytest.mark.parametrize("sort", RegisterSort)
def test_the_first_page_is_the_beginning_of_the_list(demo: Desk, what: Listed, sort: RegisterSort) -> None:
    source = register_source(demo, asked(what, {}, "", sort))
    everything = rows(source)
    few = source.first(7)
    assert list(few.rows) == everything[:7]
    assert few.more == (len(everything) > 7)
    assert not source.first(PAGE_ROWS).more
    assert source.anchors().total == len(everything)


def test_customers_in_their_orders(demo: Desk) -> None:
    by_name = customers_sorted(demo, CustomerSort.NAME)
    assert [line.name for line in by_name] == sorted(line.name for line in by_name)
    worst = [line.found for line in customers_sorted(demo, CustomerSort.WORST)]
    assert worst == sorted(worst, reverse=True)
    days = [line.review_due for line in customers_sorted(demo, CustomerSort.REVIEW)]
    known = [day for day in days if day is not None]
    assert days == sorted(known) + [None] * (len(days) - len(known))


def test_customers_without_a_review_day_come_last() -> None:
    def line(name: str) -> CustomerLine:
        return CustomerLine(1, name, name, "", "", "", None, 0, 0, 0, 0, (0, 0, 0, 0))

    both = [line("b"), line("a")]
    assert in_order(both, CustomerSort.REVIEW) == both


def test_customers_of_one_account_manager(demo: Desk) -> None:
    managers = account_managers(demo)
    assert managers == tuple(sorted(managers))
    split = [customers_sorted(demo, CustomerSort.NAME, manager=name) for name in managers]
    with Session(demo.engine) as session:
        looked_after = session.scalars(select(Customer).where(Customer.account_manager_id.is_not(None))).all()
    assert sum(map(len, split)) == len(looked_after)
    assert all(split)
