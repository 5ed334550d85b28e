"""The columns of the register's lists, and what the pane says of a row."""

from collections.abc import Callable, Sequence
from dataclasses import replace
from typing import Any

from fleet.desk.list_rows import BoxLine, CustomerLine, RegisterLine, SiteLine, SystemLine, worst_of
from fleet.desk.lists import Listed
from fleet.tui.columns import Column
from fleet.tui.pane_lines import counted, day_words, fact_lines, found_lines, title_lines
from fleet.tui.signs import SEVERITY_SIGNS
from fleet.tui.themes import Spans, Token

Render = Callable[[Any, int], Spans]


def sign(line: Any, width: int) -> Spans:
    """Return the shape of the worst open finding."""
    worst = worst_of(line.found)
    return [SEVERITY_SIGNS[worst]] if worst else [("✓", Token.WIN)]


def text_of(name: str, missing: str = "") -> Render:
    """Return a field as it is; ``missing`` stands where nothing is recorded."""

    def render(line: Any, width: int) -> Spans:
        value = getattr(line, name)
        return [(value, Token.TEXT)] if value else [(missing, Token.DIM)]

    return render


def number_of(name: str) -> Render:
    """Return a field that is a count; zero is 0."""
    return lambda line, width: [(f"{getattr(line, name):,}", Token.TEXT)]


def found_of(severity: int) -> Render:
    """Return how many findings of a severity are open; a quiet 0 where none is."""

    def render(line: Any, width: int) -> Spans:
        count = line.found[severity - 1]
        return [(f"{count:,}", SEVERITY_SIGNS[severity][1] if count else Token.DIM)]

    return render


def found_columns(width: int = 4) -> list[Column[Any]]:
    """Return a column for each severity, with its shape as the title."""
    return [
        Column([SEVERITY_SIGNS[severity]], width, found_of(severity), align="right", gap=1)
        for severity in SEVERITY_SIGNS
    ]


def _open_count(line: Any, width: int) -> Spans:
    count = sum(line.found)
    return [(f"{count:,}", Token.TEXT if count else Token.DIM)]


MARGIN: Column[Any] = Column("", 1, lambda line, width: [], gap=0, loading="")
"""Keeps figures off the edge, or off the pane."""
_SIGN: Column[Any] = Column("", 1, sign, gap=1, frozen=True, loading="·")
_OPEN: Column[Any] = Column("open", 4, _open_count, align="right", gap=0)
_NONE = "not recorded"


def _name(title: str, width: int, name: str, *, gap: int = 2, grow: int = 0) -> Column[Any]:
    return Column(title, width, text_of(name), gap=gap, grow=grow, frozen=True, strong=True)


def _counts(title: str, name: str) -> Column[Any]:
    return Column(title, len(title), number_of(name), align="right")


COLUMNS: dict[Listed, tuple[Column[Any], ...]] = {
    Listed.SYSTEMS: (
        _SIGN,
        _name("site", 16, "site", grow=1),
        _name("system", 8, "system"),
        Column("refrigerant", 11, text_of("refrigerant", _NONE)),
        Column("strategy", 19, text_of("strategy", _NONE)),
        _counts("boxes", "boxes"),
        _OPEN,
        MARGIN,
    ),
    Listed.BOXES: (
        _SIGN,
        _name("site", 12, "site", gap=1, grow=1),
        _name("system", 7, "system", gap=1),
        _name("box", 7, "box", gap=1),
        Column("kind", 20, text_of("kind", _NONE), gap=1),
        Column("setpoint", 8, text_of("setpoint", "?"), align="right", gap=1),
        Column("refrigerant", 11, text_of("refrigerant", _NONE), gap=1),
        _OPEN,
        MARGIN,
    ),
    Listed.SITES: (
        _SIGN,
        _name("site", 18, "site", grow=1),
        Column("customer", 18, text_of("customer_name")),
        _counts("systems", "systems"),
        _counts("boxes", "boxes"),
        *found_columns(),
        MARGIN,
    ),
    Listed.CUSTOMERS: (
        _SIGN,
        _name("customer", 30, "name", grow=1),
        _counts("sites", "sites"),
        _counts("systems", "systems"),
        _counts("boxes", "boxes"),
        *found_columns(),
        MARGIN,
    ),
}


_LINE_OF: dict[Listed, type] = {
    Listed.SYSTEMS: SystemLine,
    Listed.BOXES: BoxLine,
    Listed.SITES: SiteLine,
    Listed.CUSTOMERS: CustomerLine,
}


def register_columns(listed: Listed) -> tuple[Column[Any], ...]:
    """Return the columns of a list; rows of the list before, still on the screen, stay blank in them."""
    return tuple(_only(_LINE_OF[listed], column) for column in COLUMNS[listed])


def _only(kind: type, column: Column[Any]) -> Column[Any]:
    def render(line: Any, width: int) -> Spans:
        return column.render(line, width) if isinstance(line, kind) else []

    return replace(column, render=render)


def facts_of(line: RegisterLine, width: int) -> list[Spans]:
    """Return what the pane says of a row."""
    title, below, facts = _SAID[type(line)](line)
    lines = [*title_lines(title, *below, width=width), [], *fact_lines(facts, width), []]
    head: Spans = [
        ("Open findings of its system" if isinstance(line, BoxLine) else "Open findings", Token.DIM)
    ]
    return [*lines, head, *found_lines(line.found)]


def holds(line: CustomerLine | SiteLine) -> str:
    """Return how much stands there."""
    sites = [counted(line.sites, "site")] if isinstance(line, CustomerLine) else []
    return ", ".join([*sites, counted(line.systems, "system"), counted(line.boxes, "box", "boxes")])


Said = tuple[str, Sequence[str], Sequence[tuple[str, str]]]


def _of_customer(line: CustomerLine) -> Said:
    return (
        line.name,
        [line.customer],
        [
            ("Contact", line.contact),
            ("Phone", line.phone),
            ("Manager", line.account_manager),
            ("Review due", day_words(line.review_due)),
            ("Holds", holds(line)),
            ("Overdue", counted(line.overdue, "check")),
        ],
    )


def _of_site(line: SiteLine) -> Said:
    return (
        line.site,
        [line.customer_name],
        [
            ("Name", line.name),
            ("Address", line.address),
            ("Elevation", line.elevation),
            ("Design cold", line.design_cold),
            ("Holds", holds(line)),
        ],
    )


def _of_system(line: SystemLine) -> Said:
    return (
        f"{line.site}  {line.system}",
        [line.customer_name, line.name],
        [
            ("Refrigerant", line.refrigerant),
            ("Charge", line.charge),
            ("Strategy", line.strategy),
            ("Form", line.form),
            ("Compressor", line.placement),
            ("Status", line.status),
            ("Boxes", f"{line.boxes:,}"),
        ],
    )


def _of_box(line: BoxLine) -> Said:
    return (
        f"{line.site}  {line.system} {line.box}",
        [line.customer_name, line.name],
        [
            ("Kind", line.kind),
            ("Keeps", line.stored),
            ("Setpoint", line.setpoint),
            ("Refrigerant", line.refrigerant),
            ("Strategy", line.strategy),
        ],
    )


_SAID: dict[type, Callable[[Any], Said]] = {
    CustomerLine: _of_customer,
    SiteLine: _of_site,
    SystemLine: _of_system,
    BoxLine: _of_box,
}
