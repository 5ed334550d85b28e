"""Place 1: findings across sites, the worst first, with how far out each is."""

from collections.abc import Callable, Sequence
from functools import partial
from typing import TYPE_CHECKING, Any, ClassVar

from textual import on, work
from textual.binding import Binding, BindingType
from textual.message import Message
from textual.worker import get_current_worker

from fleet.desk.auditing import run_audit
from fleet.desk.choosing import Named, customers, refrigerants, severities, sites, strategies
from fleet.desk.correcting import Saved, last_correction, undo
from fleet.desk.detail import FindingDetail, finding_detail
from fleet.desk.findings import (
    FindingFilter,
    FindingSort,
    FindingSource,
    FindingView,
    rule_choices,
    severity_counts,
)
from fleet.desk.findings_csv import findings_csv
from fleet.desk.overview import is_empty
from fleet.errors import ColdroundError, UsageError
from fleet.tui.audit_pane import pane_lines
from fleet.tui.choices import Choice
from fleet.tui.columns import Column
from fleet.tui.filters import FilterPart, FilterSentence
from fleet.tui.finding_columns import SPREAD_METRIC, SPREAD_US, finding_columns
from fleet.tui.frame import FrameScreen
from fleet.tui.listing import ListingScreen, list_keys
from fleet.tui.messages import RegisterChanged
from fleet.tui.sheet import saved_words
from fleet.tui.signs import counts_line
from fleet.tui.windowed_list import WindowedList
from fleet.units import UnitSystem

if TYPE_CHECKING:
    from fleet.desk.csv_files import CsvList
    from fleet.desk.opened import Desk

SORTS = (
    Choice(FindingSort.WORST, "worst first", "worst"),
    Choice(FindingSort.PLACE, "by place", "place"),
    Choice(FindingSort.RULE, "by rule", "rule"),
)
ALL_SITES = Choice(None, "all sites", "sites")
EMPTY_REGISTER = (
    "This register is empty.",
    "Bring files in:   coldround template DIR, then coldround import REGISTER DIR",
    "Or look around:   coldround demo",
)
AUDITING = ("The register is being audited.", "Findings stand here when that is done.")
EMPTY = ("No open finding matches these filters.", "Backspace takes all filters away, f changes one.")


def _named(choices: Callable[[], Sequence[Named]]) -> Callable[[], list[Choice]]:
    return lambda: [Choice(one.value, one.label) for one in choices()]


class AuditScreen(ListingScreen):
    """The list of open findings, with a pane beside it on a wide screen."""

    PLACE = "audit"
    OPENS = "sheet"
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("c", "correct", "correct", id="audit.correct", tooltip="Correct the settings of this system"),
        *list_keys(
            "audit",
            search=True,
            sort="Order by severity, place or rule",
            csv="Write this list, as filtered and ordered, as CSV",
        ),
        Binding(
            "u",
            "undo",
            "undo",
            id="audit.undo",
            tooltip="Undo the last correction made since the program was opened",
        ),
    ]

    class Counted(Message):
        """The counts beside the list have come."""

        def __init__(self, counts: dict[int, int]) -> None:
            super().__init__()
            self.counts = counts

    class Detailed(Message):
        """What stands in the pane has come."""

        def __init__(self, detail: FindingDetail) -> None:
            super().__init__()
            self.detail = detail

    class Audited(Message):
        """The audit has done so many systems, or is done with all."""

        def __init__(self, done: int, total: int, *, finished: bool = False) -> None:
            super().__init__()
            self.done, self.total, self.finished = done, total, finished

    class Ended(Message):
        """An undo ended, or the audit failed; ``error`` says why it did, where it did."""

        def __init__(self, error: ColdroundError | None = None) -> None:
            super().__init__()
            self.error = error

    def __init__(self, desk: "Desk") -> None:
        super().__init__(desk)
        self._opened_at = desk.now()
        self._holds_nothing = is_empty(desk)
        self._counts_wanted = self._audit_wanted = True
        self._is_auditing = False

    def help_page(self) -> str:
        """Return the page of the handbook."""
        from fleet.handbook import page

        return page("audit")

    # What the list is ------------------------------------------------------------------------------------

    def filter_parts(self) -> Sequence[FilterPart]:
        """Return the parts of the sentence."""
        desk = self.desk
        refrigerant = Choice(None, "any refrigerant", "refrigerant")
        return [
            FilterPart(
                "customer_id",
                Choice(None, "all customers", "customers"),
                _named(partial(customers, desk)),
            ),
            FilterPart("site_id", ALL_SITES, self._site_choices, wide_only=True),
            FilterPart("severity", Choice(None, "any severity", "severity"), _named(severities)),
            FilterPart("rule", Choice(None, "any rule", "rule"), _rules),
            FilterPart("refrigerant", refrigerant, _named(partial(refrigerants, desk)), wide_only=True),
            FilterPart(
                "strategy", Choice(None, "any strategy", "strategy"), _named(strategies), wide_only=True
            ),
            FilterPart("order", SORTS[0], lambda: SORTS),
        ]

    def _site_choices(self) -> list[Choice]:
        return [Choice(one.value, one.label) for one in sites(self.desk, self.chosen("customer_id"))]

    def narrowed(self) -> FindingFilter:
        """Return what the list is narrowed to."""
        chosen: dict[str, Any] = dict(self.filters.values)
        chosen.pop("order")
        return FindingFilter(**chosen, search=self.search_text)

    def columns(self) -> Sequence[Column[FindingView]]:
        """Return the columns."""
        return finding_columns(SPREAD_US if self.desk.units is UnitSystem.US else SPREAD_METRIC)

    def source(self) -> FindingSource:
        """Return the findings for what is chosen."""
        return FindingSource(self.desk, self.narrowed(), self.chosen("order"))

    def csv(self) -> "CsvList[Any]":
        """Return the findings that are shown, with their reasons."""
        return findings_csv(self.desk, self.narrowed(), self.chosen("order"))

    def empty_sentences(self) -> Sequence[str]:
        """Return what is said where there is no finding."""
        if self._holds_nothing:
            return EMPTY_REGISTER
        return AUDITING if self._is_auditing else EMPTY

    def show_anew(self, cursor: int = 0) -> None:
        """Show what filters, search and order ask for; its counts come when its rows are there."""
        super().show_anew(cursor)
        self._counts_wanted = True

    @on(WindowedList.Positioned)
    def count_and_audit(self, message: WindowedList.Positioned) -> None:
        """Count once the first rows stand; after the very first, audit what changed since the last time."""
        if self._counts_wanted:
            self._counts_wanted = False
            self._count()
        if self._audit_wanted:
            self._audit_wanted = False
            self._is_auditing = True
            self.list.set_empty(*self.empty_sentences())
            self._audit()

    def show_customer(self, customer_id: int) -> None:
        """Narrow the list to one customer, whatever it was narrowed to before."""
        name = next((one.label for one in customers(self.desk) if one.value == customer_id), "a customer")
        self.action_reset()
        self.filters.choose("customer_id", Choice(customer_id, name))

    @on(FilterSentence.Changed)
    def forget_site(self, message: FilterSentence.Changed) -> None:
        """A site of one customer is none of another's."""
        if message.name == "customer_id":
            self.filters.choose("site_id", ALL_SITES)

    @work(thread=True, exclusive=True, group="counts")
    def _count(self) -> None:
        try:
            self.post_message(self.Counted(severity_counts(self.desk, self.narrowed())))
        except ColdroundError:
            return  # the list says what is wrong

    @on(Counted)
    def show_counts(self, message: Counted) -> None:
        """Show the counts, which are also the legend of the shapes."""
        self.head.show([counts_line(message.counts)])

    def show_row(self, row: FindingView | None) -> None:
        """Fill the pane with a finding, or empty it."""
        if row is None:
            self.pane.show(None)
        else:
            self._detail(row)

    @work(thread=True, exclusive=True, group="detail")
    def _detail(self, view: FindingView) -> None:
        try:
            detail = finding_detail(self.desk, view.row)
        except ColdroundError:
            return
        if not get_current_worker().is_cancelled:
            self.post_message(self.Detailed(detail))

    @on(Detailed)
    def show_detail(self, message: Detailed) -> None:
        """Show the finding under the cursor."""
        self.pane.show(partial(pane_lines, message.detail))

    # The audit -------------------------------------------------------------------------------------------

    @work(thread=True, exclusive=True, group="audit")
    def _audit(self) -> None:
        worker = get_current_worker()

        def tell(done: int, total: int) -> None:
            self.post_message(self.Audited(done, total))

        try:
            outcome = run_audit(self.desk, tell=tell, stop=lambda: worker.is_cancelled)
        except ColdroundError as error:
            self.post_message(self.Ended(error))
            return
        self.post_message(self.Audited(outcome.systems, outcome.systems, finished=True))

    @on(Audited)
    def show_audit(self, message: Audited) -> None:
        """Show how far the audit is; at its end show the list anew."""
        if not message.finished:
            self.messages.working(f"Auditing {message.total:,} systems", message.done, message.total)
            return
        self._is_auditing = False
        self.list.set_empty(*self.empty_sentences())
        if message.total:
            self.messages.clear()
            self.refresh_register()

    @on(FrameScreen.WorkStopped)
    def stop_audit(self) -> None:
        """Stop the audit; what is done stays."""
        self.workers.cancel_group(self, "audit")
        self._is_auditing = False
        self.messages.clear()
        self.refresh_register()

    # Keys ------------------------------------------------------------------------------------------------

    def open_row(self, row: FindingView) -> None:
        """Open the system of the finding, once however often Enter was pressed."""
        from fleet.tui.sheet import SystemSheet

        if self.is_current:
            self.app.push_screen(
                SystemSheet(self.desk, row.system_id, place=self.place, step=self.step, focus=row.key)
            )

    def action_correct(self) -> None:
        """Correct the settings of the system under the cursor."""
        from fleet.tui.correct import CorrectScreen

        view = self.list.current
        if view is not None:
            self.app.push_screen(
                CorrectScreen(self.desk, view.system_id, place=self.place, focus=view.key), self._corrected
            )

    def _corrected(self, saved: Saved | None) -> None:
        if saved is not None:
            self.app.post_message(RegisterChanged())
            self.messages.saved("Saved.", saved_words(saved))

    @work(thread=True, exclusive=True, group="undo")
    def action_undo(self) -> None:
        """Undo the last correction made since the program was opened."""
        try:
            act = last_correction(self.desk, since=self._opened_at)
            if act is None:
                raise UsageError("Nothing was corrected since the program was opened.")
            undo(self.desk, act)
        except ColdroundError as error:
            self.post_message(self.Ended(error))
            return
        self.post_message(self.Ended())

    @on(Ended)
    def show_ended(self, message: Ended) -> None:
        """Say what was undone, or why it was not."""
        if message.error is not None:
            self._is_auditing = False
            self.messages.failed("Not done.", message.error.message)
            return
        self.app.post_message(RegisterChanged())
        self.messages.saved("Undone.", "The earlier values were recorded again.")


def _rules() -> list[Choice]:
    return [Choice(code, label) for code, label in rule_choices()]
