"""Customers with their open findings; Enter goes to their findings."""

import sqlite3
from pathlib import Path

import pytest

from fleet.desk.findings import FindingFilter, severity_counts
from fleet.tui.app import ColdroundApp
from fleet.tui.audit import AuditScreen
from fleet.tui.columns import natural_width
from fleet.tui.customers import customer_columns
from fleet.tui.messages import ShowFindings
from tests.tui.driving import NARROW, WIDE, press, settled
from tests.tui.places import place, shown_rows
from tests.tui.snapshots import check_snapshot, screen_text


@pytest.mark.regression
@pytest.mark.parametrize(("size", "name"), [(NARROW, "80x24"), (WIDE, "120x40")])
async def test_snapshots(register: Path, size: tuple[int, int], name: str) -> None:
    async with place("customers", register, size) as (pilot, _):
        check_snapshot(pilot.app, f"customers-{name}")


@pytest.mark.independent
async def test_figures_are_those_of_audit(register: Path) -> None:
    async with place("customers", register) as (pilot, screen):
        rows = await shown_rows(pilot, screen)
        for row in rows:
            counts = severity_counts(screen.desk, FindingFilter(customer_id=row.customer_id))  # type: ignore[attr-defined]
            assert row.found == tuple(counts[severity] for severity in (1, 2, 3, 4))  # type: ignore[attr-defined]
        assert len(rows) >= 6
        assert natural_width(customer_columns(screen.desk)) <= NARROW[0]


@pytest.mark.independent
async def test_enter_asks_for_the_findings_of_the_customer(
    register: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    told: list[int] = []
    monkeypatch.setattr(
        ColdroundApp,
        "on_show_findings",
        lambda self, message: told.append(message.customer_id),
        raising=False,
    )
    async with place("customers", register) as (pilot, screen):
        await press(pilot, "down", "enter")
        assert told == [screen.list.current.customer_id]
        assert ShowFindings(3).customer_id == 3


@pytest.mark.independent
async def test_search_order_and_account_manager(register: Path) -> None:
    async with place("customers", register) as (pilot, screen):
        await press(pilot, "s")
        names = [row.name for row in await shown_rows(pilot, screen)]  # type: ignore[attr-defined]
        assert names == sorted(names)
        manager = screen.filters.parts[0].choices()[0]
        screen.filters.choose("manager", manager)
        await settled(pilot)
        kept = await shown_rows(pilot, screen)
        assert {row.account_manager for row in kept} == {manager.value}  # type: ignore[attr-defined]
        await press(pilot, "backspace", "slash", *"quill")
        assert [row.customer for row in await shown_rows(pilot, screen)] == ["QUILL"]  # type: ignore[attr-defined]
        await press(pilot, "escape")
        assert screen.list.total == len(names)


@pytest.mark.independent
async def test_the_pane_shows_the_sites_of_the_customer_under_the_cursor(register: Path) -> None:
    async with place("customers", register, WIDE) as (pilot, screen):
        await press(pilot, "down")
        with sqlite3.connect(register) as connection:
            sites = connection.execute(
                "SELECT site FROM sites WHERE customer_id = ?", (screen.list.current.customer_id,)
            ).fetchall()
        connection.close()
        seen = screen_text(pilot.app)
        assert sites
        assert all(site in seen for (site,) in sites)


@pytest.mark.independent
@pytest.mark.parametrize("name", ["[b]x[/b]", "a[/oops]b", "\\", "x\x1b[2J", "冷" * 30])
@pytest.mark.parametrize("size", [NARROW, WIDE])
async def test_typed_text_is_only_text(register: Path, name: str, size: tuple[int, int]) -> None:
    with sqlite3.connect(register) as connection:
        connection.execute("UPDATE customers SET name = ?, contact = ?, phone = ?", (name, name, name))
        connection.execute("UPDATE people SET name = ?", (name,))
        connection.execute("UPDATE sites SET site = ? || id", (name,))
    connection.close()
    async with place("customers", register, size) as (pilot, screen):
        seen = screen_text(pilot.app)
        assert "\x1b" not in seen
        assert name.replace("\x1b", "")[:5] in seen
        assert screen.list.total


@pytest.mark.independent
async def test_audit_then_shows_the_findings_of_this_customer_only(register: Path) -> None:
    async with place("customers", register) as (pilot, screen):
        row = screen.list.current
        await press(pilot, "enter")
        audit = pilot.app.screen
        assert isinstance(audit, AuditScreen)
        assert audit.narrowed().customer_id == row.customer_id
        assert audit.list.total == sum(row.found)
