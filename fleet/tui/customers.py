"""Place 3: customers with their open findings, the worst first."""

from collections.abc import Sequence
from functools import partial
from typing import TYPE_CHECKING, Any, ClassVar

from textual import on, work
from textual.binding import BindingType
from textual.message import Message
from textual.worker import get_current_worker

from fleet.desk.customer_list import CustomerSort, account_managers, customers_sorted
from fleet.desk.list_rows import CustomerLine, SiteLine, worst_of
from fleet.desk.lists import Listed, sites_of
from fleet.desk.lists_csv import register_csv
from fleet.desk.paging import ComputedSource, Page
from fleet.errors import ColdroundError
from fleet.text import clean, pad
from fleet.tui.choices import Choice
from fleet.tui.columns import Column
from fleet.tui.filters import FilterPart
from fleet.tui.listing import ListingScreen, list_keys
from fleet.tui.messages import ShowFindings
from fleet.tui.paging import PageSource
from fleet.tui.pane_lines import counted, day_words, fact_lines, title_lines
from fleet.tui.register_columns import MARGIN, found_columns, holds, number_of, sign, text_of
from fleet.tui.signs import SEVERITY_SIGNS, SEVERITY_WORDS
from fleet.tui.themes import Spans, Token

if TYPE_CHECKING:
    from fleet.desk.csv_files import CsvList
    from fleet.desk.opened import Desk

ORDERS = (
    Choice(CustomerSort.WORST, "worst first", "worst"),
    Choice(CustomerSort.NAME, "by name", "name"),
    Choice(CustomerSort.REVIEW, "next review first", "review"),
)
ALL_MANAGERS = Choice(None, "all account managers", "managers")
SITES_SHOWN = 60


class CustomersScreen(ListingScreen):
    """Customers; Enter shows the findings of one."""

    PLACE = "customers"
    OPENS = "findings"
    BINDINGS: ClassVar[list[BindingType]] = list_keys(
        "customers",
        search=True,
        sort="Order by the worst findings, by name, or by the next review",
        csv="Write this list, as filtered and ordered, as CSV",
    )

    class SitesRead(Message):
        """The sites of the customer under the cursor have come."""

        def __init__(self, line: CustomerLine, sites: Page[SiteLine]) -> None:
            super().__init__()
            self.line, self.sites = line, sites

    def help_page(self) -> str:
        """Return the page of the handbook."""
        from fleet.handbook import page

        return page("customers")

    def filter_parts(self) -> Sequence[FilterPart]:
        """Return account manager and order."""
        desk = self.desk

        def managers() -> list[Choice]:
            return [Choice(name, name) for name in account_managers(desk)]

        return [
            FilterPart("manager", ALL_MANAGERS, managers),
            FilterPart("order", ORDERS[0], lambda: ORDERS),
        ]

    def columns(self) -> Sequence[Column[Any]]:
        """Return the columns."""
        return customer_columns(self.desk)

    def source(self) -> PageSource[Any]:
        """Return the rows."""
        manager = self.chosen("manager")
        sort = CustomerSort(str(self.chosen("order")))
        return ComputedSource(partial(customers_sorted, self.desk, sort, self.search_text, manager))

    def csv(self) -> "CsvList[Any]":
        """Return what is shown, for a file."""
        return register_csv(Listed.CUSTOMERS, self.source())

    def empty_sentences(self) -> Sequence[str]:
        """Return what is said where nothing is found."""
        if self.search_text:
            return ("No customer is called like that.", "Esc takes the search away.")
        return ("No customer matches these filters.", "Backspace takes all filters away, f changes one.")

    def show_anew(self, cursor: int = 0) -> None:
        """Show the list and what its shapes mean."""
        self.head.show([legend()])
        super().show_anew(cursor)

    def open_row(self, row: CustomerLine) -> None:
        """Go to Audit, narrowed to the customer."""
        self.app.post_message(ShowFindings(row.customer_id))

    def show_row(self, row: CustomerLine | None) -> None:
        """Fill the pane, with the sites as soon as they are read."""
        self.pane.show(None if row is None else partial(customer_lines, row, self.desk))
        if row is not None:
            self._read_sites(row)

    @work(thread=True, exclusive=True, group="sites", exit_on_error=False)
    def _read_sites(self, line: CustomerLine) -> None:
        try:
            found = sites_of(self.desk, line.customer_id, SITES_SHOWN)
        except ColdroundError:
            return  # the list itself says what is wrong
        if not get_current_worker().is_cancelled:
            self.post_message(self.SitesRead(line, found))

    @on(SitesRead)
    def show_sites(self, message: SitesRead) -> None:
        """Show the sites of the customer, if the cursor still stands on it."""
        here = self.list.current
        if here is not None and here.customer_id == message.line.customer_id:

            def lines(width: int) -> list[Spans]:
                return [*customer_lines(here, self.desk, width), [], *site_lines(message.sites, width)]

            self.pane.show(lines)


def legend() -> Spans:
    """Return what the shapes mean."""
    spans: Spans = []
    for severity, (shape, token) in SEVERITY_SIGNS.items():
        spans += [
            ("   " if spans else " ", Token.TEXT),
            (f"{shape} ", token),
            (SEVERITY_WORDS[severity], Token.DIM),
        ]
    return [*spans, ("   late: checks overdue", Token.DIM)]


def customer_columns(desk: "Desk") -> tuple[Column[Any], ...]:
    """Return the columns of the customers."""

    def overdue(line: CustomerLine, width: int) -> Spans:
        return [(f"{line.overdue:,}", Token.TEXT if line.overdue else Token.DIM)]

    def review(line: CustomerLine, width: int) -> Spans:
        if line.review_due is None:
            return [("none set", Token.DIM)]
        late = line.review_due < desk.today
        return [
            (day_words(line.review_due), Token.NEXT if late else Token.TEXT),
            ("!" if late else "", Token.NEXT),
        ]

    return (
        Column("", 1, sign, gap=1, frozen=True, loading="·"),
        Column("customer", 22, text_of("name"), grow=1, gap=1, frozen=True, strong=True),
        *found_columns(),
        Column("sites", 5, number_of("sites"), align="right", gap=1),
        Column("systems", 7, number_of("systems"), align="right", gap=1),
        Column("late", 5, overdue, align="right", gap=2),
        Column("review due", 12, review, align="right", gap=0),
        MARGIN,
    )


def customer_lines(line: CustomerLine, desk: "Desk", width: int) -> list[Spans]:
    """Return what the pane says of a customer."""
    late = line.review_due is not None and line.review_due < desk.today
    facts = [
        ("Contact", line.contact),
        ("Phone", line.phone),
        ("Manager", line.account_manager),
        ("Review due", day_words(line.review_due) + (", past" if late else "")),
        ("Holds", holds(line)),
        ("Overdue", counted(line.overdue, "check")),
    ]
    return [*title_lines(line.name, line.customer, width=width), [], *fact_lines(facts, width)]


def site_lines(sites: Page[SiteLine], width: int) -> list[Spans]:
    """Return the sites of a customer, the worst first: shape, name, systems, open findings."""
    counts = 15
    room = max(8, width - 2 - counts)
    lines: list[Spans] = [[(pad("  site", room + 2), Token.DIM), (" systems   open", Token.DIM)]]
    for site in sites.rows:
        worst = worst_of(site.found)
        shape = SEVERITY_SIGNS[worst] if worst else ("✓", Token.WIN)
        figures = f"{site.systems:>8,}{sum(site.found):>7,}"
        lines.append([shape, (f" {pad(clean(site.site), room)}", Token.TEXT), (figures, Token.TEXT)])
    return [*lines, [("  and more", Token.DIM)]] if sites.more else lines
