"""Place 2: the due list. It shows which preventive checks fall due; rounds are not planned here."""

from collections.abc import Sequence
from functools import partial
from typing import TYPE_CHECKING, Any, ClassVar

from textual import on, work
from textual.binding import BindingType
from textual.message import Message

from fleet.desk.due_list import (
    DueBook,
    DueCounts,
    DueLine,
    DueSort,
    due_book,
    due_counts,
    due_csv,
    who_choices,
)
from fleet.errors import ColdroundError
from fleet.tui.choices import Choice
from fleet.tui.columns import Column
from fleet.tui.filters import FilterPart
from fleet.tui.listing import ListingScreen, list_keys
from fleet.tui.paging import PageSource, TupleSource
from fleet.tui.pane_lines import day_in_list, day_words, fact_lines, title_lines
from fleet.tui.register_columns import MARGIN
from fleet.tui.signs import SEVERITY_SIGNS
from fleet.tui.themes import Spans, Token

if TYPE_CHECKING:
    from fleet.desk.csv_files import CsvList
    from fleet.desk.opened import Desk

WEEKS = (4, 1, 2, 8, 13, 26)
SAYS = " Preventive checks that are overdue or fall due; no rounds are planned here."


def _weeks(count: int) -> Choice:
    return Choice(count, "next week" if count == 1 else f"next {count} weeks", f"{count} wk")


PERIODS = tuple(_weeks(count) for count in WEEKS)
ORDERS = (Choice(DueSort.DAY, "by day", "day"), Choice(DueSort.PLACE, "by place", "place"))
ANYBODY = Choice(None, "anybody", "who")
ALL_CUSTOMERS = Choice(None, "all customers", "customers")


class RoundsScreen(ListingScreen):
    """Checks that fall due, the most pressing first."""

    PLACE = "rounds"
    OPENS = "sheet"
    HAS_SEARCH = False
    BINDINGS: ClassVar[list[BindingType]] = list_keys(
        "rounds",
        search=False,
        sort="Order by the day due, or by place",
        csv="Write this list, as filtered and ordered, as CSV",
    )

    class Booked(Message):
        """What falls due has been read, or could not be."""

        def __init__(self, book: DueBook | None, cursor: int, error: ColdroundError | None = None) -> None:
            super().__init__()
            self.book, self.cursor, self.error = book, cursor, error

    def __init__(self, desk: "Desk") -> None:
        super().__init__(desk)
        self._book: DueBook | None = None
        self._lines: tuple[DueLine, ...] = ()

    def help_page(self) -> str:
        """Return the page of the handbook."""
        from fleet.handbook import page

        return page("rounds")

    def filter_parts(self) -> Sequence[FilterPart]:
        """Return period, who, customer, order."""

        def who() -> list[Choice]:
            return [Choice(value, words) for value, words in who_choices()]

        return [
            FilterPart("weeks", PERIODS[0], lambda: sorted(PERIODS, key=lambda one: int(str(one.value)))),
            FilterPart("who", ANYBODY, who),
            FilterPart("customer", ALL_CUSTOMERS, self._customer_choices),
            FilterPart("order", ORDERS[0], lambda: ORDERS),
        ]

    def _customer_choices(self) -> list[Choice]:
        return [] if self._book is None else [Choice(tag, name) for tag, name in self._book.customers()]

    # What is shown ---------------------------------------------------------------------------------------

    def columns(self) -> Sequence[Column[Any]]:
        """Return the columns."""
        return due_columns(self.desk)

    def source(self) -> PageSource[Any]:
        """Return the rows."""
        return TupleSource(self._lines)

    def csv(self) -> "CsvList[Any]":
        """Return what is shown, for a file."""
        return due_csv(self._lines)

    def empty_sentences(self) -> Sequence[str]:
        """Return what is said where nothing falls due; while it is still being read that is not known."""
        if self._book is None:
            return ()
        return ("No check falls due within these filters.", "f changes one, Backspace takes all away.")

    def show_anew(self, cursor: int = 0) -> None:
        """Read what falls due in another period, or cut the list anew from what was read."""
        if self._book is None or self._book.weeks != self.chosen("weeks"):
            self.head.show([[(" Reading what falls due …", Token.DIM)], [(SAYS, Token.DIM)]])
            self._read(int(self.chosen("weeks")), cursor)
            return
        chosen = self.filters.values
        sort = DueSort(str(chosen["order"]))
        self._lines = self._book.narrowed(_text(chosen["who"]), _text(chosen["customer"]), sort)
        self.head.show([counts_line(due_counts(self._lines, self.desk.today)), [(SAYS, Token.DIM)]])
        super().show_anew(cursor)

    def refresh_register(self) -> None:
        """Read what falls due anew."""
        self._book = None
        self.show_anew(self.list.cursor)

    @work(thread=True, exclusive=True, group="due", exit_on_error=False)
    def _read(self, weeks: int, cursor: int) -> None:
        try:
            self.post_message(self.Booked(due_book(self.desk, weeks), cursor))
        except ColdroundError as error:
            self.post_message(self.Booked(None, cursor, error))

    @on(Booked)
    def take_book(self, message: Booked) -> None:
        """Show what was read, unless another period was chosen meanwhile."""
        if message.error is not None:
            self.head.show([[(SAYS, Token.DIM)]])
            self.messages.failed("Not read.", message.error.message)
        elif message.book is not None and message.book.weeks == self.chosen("weeks"):
            self._book = message.book
            self.show_anew(message.cursor)

    def action_export(self) -> None:
        """Write the list as CSV, once there is one."""
        if self._book is None:
            self.messages.note("What falls due is still being read.")
        else:
            super().action_export()

    def open_row(self, row: DueLine) -> None:
        """Open the sheet of the system."""
        self.open_sheet(row.system_id)

    def show_row(self, row: DueLine | None) -> None:
        """Fill the pane."""
        self.pane.show(None if row is None else partial(due_lines, row))


def _text(value: object) -> str | None:
    return None if value is None else str(value)


def counts_line(counts: DueCounts) -> Spans:
    """Return ``12 overdue (◧ 3 next visit, □ 9 watch)   15 in 7 days …``, also the legend of the shapes."""
    late, over = SEVERITY_SIGNS[2], SEVERITY_SIGNS[3]
    spans: Spans = [(f" {counts.overdue:,}", Token.HEAD), (" overdue: ", Token.DIM)]
    spans += [(f"{late[0]} ", late[1]), (f"{counts.next_visit:,}", Token.HEAD), (" next visit, ", Token.DIM)]
    spans += [(f"{over[0]} ", over[1]), (f"{counts.watch:,}", Token.HEAD), (" watch", Token.DIM)]
    spans += [(f"   {counts.week:,}", Token.HEAD), (" in 7 days", Token.DIM)]
    spans += [(f"   {counts.month:,}", Token.HEAD), (" in 30 days", Token.DIM)]
    return [*spans, (f"   {counts.minutes:,}", Token.HEAD), (" min", Token.DIM)]


def due_columns(desk: "Desk") -> tuple[Column[DueLine], ...]:
    """Return the columns of the due list."""

    def due_by(line: DueLine, width: int) -> Spans:
        return [(day_in_list(line.due_by, desk.today), Token.TEXT)]

    return (
        Column("", 1, _sign, gap=1, frozen=True, loading="·"),
        Column("due by", 8, due_by, gap=1, frozen=True),
        Column("late", 5, _late, align="right", gap=2, frozen=True),
        Column(
            "site", 13, lambda line, w: [(line.site, Token.TEXT)], gap=1, grow=1, frozen=True, strong=True
        ),
        Column("system", 9, _system, gap=1, strong=True),
        Column("check", 19, lambda line, w: [(line.check, Token.TEXT)], gap=1),
        Column("min", 3, lambda line, w: [(f"{line.minutes}", Token.TEXT)], align="right", gap=1),
        Column("who", 10, lambda line, w: [(line.who.replace("-", " "), Token.DIM)], gap=0),
        MARGIN,
    )


def _sign(line: DueLine, width: int) -> Spans:
    return [SEVERITY_SIGNS[line.severity]] if line.severity else []


def _late(line: DueLine, width: int) -> Spans:
    if not line.overdue_days:
        return []
    gap = " " if line.overdue_days < 1000 else ""  # a figure is not cut, so the blank gives way
    return [(f"{line.overdue_days}", SEVERITY_SIGNS[line.severity][1]), (f"{gap}d", Token.DIM)]


def _system(line: DueLine, width: int) -> Spans:
    spans: Spans = [(line.system, Token.TEXT)]
    return [*spans, (f" {line.part}", Token.DIM)] if line.part else spans


def due_lines(line: DueLine, width: int) -> list[Spans]:
    """Return what the pane says of a check."""
    late = f", {line.overdue_days:,} days late" if line.overdue_days else ""
    facts = [
        ("Check", line.what),
        ("Due", f"{day_words(line.due_from)} to {day_words(line.due_by)}{late}"),
        ("Because", line.because),
        ("Takes", f"{line.minutes} min"),
        ("Who", line.who.replace("-", " ")),
    ]
    if line.skills:
        facts.append(("Skills", line.skills))
    title = f"{line.site}  {line.system} {line.part}".rstrip()
    return [*title_lines(title, line.customer_name, width=width), [], *fact_lines(facts, width)]
