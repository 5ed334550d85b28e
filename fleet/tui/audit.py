"""Place 1: findings across sites, the worst first, with how far out each is."""

from collections.abc import Callable, Sequence
from typing import Any, ClassVar

from textual import on, work
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Horizontal, Vertical
from textual.content import Content
from textual.message import Message
from textual.widget import Widget
from textual.worker import get_current_worker

from fleet.desk.auditing import run_audit
from fleet.desk.choosing import Named, customers, refrigerants, severities, sites, strategies
from fleet.desk.correcting import last_correction, undo
from fleet.desk.detail import FindingDetail, finding_detail
from fleet.desk.findings import (
    FindingFilter,
    FindingSort,
    FindingSource,
    FindingView,
    rule_choices,
    severity_counts,
)
from fleet.desk.opened import Desk
from fleet.desk.overview import is_empty
from fleet.errors import ColdroundError, UsageError
from fleet.tui.audit_pane import FindingPane
from fleet.tui.choices import Choice
from fleet.tui.filters import FilterPart, FilterSentence
from fleet.tui.finding_columns import SPREAD_METRIC, SPREAD_US, finding_columns
from fleet.tui.frame import FrameScreen
from fleet.tui.messages import RegisterChanged
from fleet.tui.searching import SearchField
from fleet.tui.signs import counts_line
from fleet.tui.themes import styles_for, to_content
from fleet.tui.windowed_list import WindowedList
from fleet.units import UnitSystem

SORTS = (
    Choice(FindingSort.WORST, "worst first", "worst"),
    Choice(FindingSort.PLACE, "by place", "place"),
    Choice(FindingSort.RULE, "by rule", "rule"),
)
EMPTY_REGISTER = (
    "This register is empty.",
    "Bring files in:   coldround template DIR, then coldround import REGISTER DIR",
    "Or look around:   coldround demo",
)
EMPTY = ("No open finding matches these filters.", "Backspace takes all filters away, f changes one.")


def _named(choices: Callable[[], Sequence[Named]]) -> Callable[[], list[Choice]]:
    return lambda: [Choice(one.value, one.label) for one in choices()]


class SeverityCounts(Widget):
    """How many findings of each severity there are; also the legend of the shapes."""

    ALLOW_SELECT = False
    DEFAULT_CSS = "SeverityCounts { height: 2; width: 1fr; }"

    def __init__(self) -> None:
        super().__init__()
        self.counts: dict[int, int] = {}

    def show(self, counts: dict[int, int]) -> None:
        """Show other counts."""
        self.counts = counts
        self.refresh()

    def render(self) -> Content:
        """Return the line."""
        return to_content(counts_line(self.counts), styles_for(self.app))


class AuditScreen(FrameScreen):
    """The list of open findings, with a pane beside it on a wide screen."""

    PLACE = "audit"
    AUTO_FOCUS = ".first-focus"
    DEFAULT_CSS = """
    AuditScreen #audit-body { height: 1fr; }
    AuditScreen #audit-left { width: 1fr; }
    AuditScreen.-wide #audit-left { width: 80; }
    AuditScreen FindingPane { display: none; }
    AuditScreen.-wide FindingPane { display: block; width: 1fr; }
    """
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("c", "correct", "correct", id="audit.correct", tooltip="Correct the settings of this system"),
        Binding("f", "filter", "filter", id="audit.filter", tooltip="Change the filters"),
        Binding(
            "slash", "search", "search", key_display="/", id="audit.search", tooltip="Search as you type"
        ),
        Binding("s", "sort", "sort", id="audit.sort", tooltip="Order by severity, place or rule"),
        Binding(
            "u",
            "undo",
            "undo",
            id="audit.undo",
            tooltip="Undo the last correction made since the program was opened",
        ),
        Binding(
            "e",
            "export",
            "csv",
            id="audit.export",
            tooltip="Write this list, as filtered and ordered, as CSV",
        ),
        Binding("backspace", "reset", "all", show=False, id="audit.reset", tooltip="Take all filters away"),
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

    class Undone(Message):
        """An undo ended; ``error`` says why it did not, where it did not."""

        def __init__(self, error: ColdroundError | None = None) -> None:
            super().__init__()
            self.error = error

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self.desk = desk
        self._search = ""
        self._opened_at = desk.now()

    def help_page(self) -> str:
        """Return the page of the handbook."""
        from fleet.handbook import page

        return page("audit")

    def compose_body(self) -> ComposeResult:
        """Yield filters, counts, list and pane."""
        yield FilterSentence(self._filter_parts())
        with Horizontal(id="audit-body"):
            with Vertical(id="audit-left"):
                yield SeverityCounts()
                yield SearchField()
                spread = SPREAD_US if self.desk.units is UnitSystem.US else SPREAD_METRIC
                yield WindowedList(
                    finding_columns(spread), self._source(), opens="sheet", empty=EMPTY, classes="first-focus"
                )
            yield FindingPane()

    def _filter_parts(self) -> list[FilterPart]:
        desk = self.desk
        rules = lambda: [Choice(code, label) for code, label in rule_choices()]  # noqa: E731
        return [
            FilterPart(
                "customer_id", Choice(None, "all customers", "customers"), _named(lambda: customers(desk))
            ),
            FilterPart("site_id", Choice(None, "all sites", "sites"), self._site_choices, wide_only=True),
            FilterPart("severity", Choice(None, "any severity", "severity"), _named(severities)),
            FilterPart("rule", Choice(None, "any rule", "rule"), rules),
            FilterPart(
                "refrigerant",
                Choice(None, "any refrigerant", "refrigerant"),
                _named(lambda: refrigerants(desk)),
                wide_only=True,
            ),
            FilterPart(
                "strategy", Choice(None, "any strategy", "strategy"), _named(strategies), wide_only=True
            ),
            FilterPart("order", SORTS[0], lambda: list(SORTS)),
        ]

    def _site_choices(self) -> list[Choice]:
        customer = self.filters.values["customer_id"]
        return [Choice(one.value, one.label) for one in sites(self.desk, customer)]  # type: ignore[arg-type]

    # What is shown ---------------------------------------------------------------------------------------

    @property
    def list(self) -> WindowedList[FindingView]:
        """The list."""
        return self.query_one(WindowedList)

    @property
    def filters(self) -> FilterSentence:
        """The sentence of filters."""
        return self.query_one(FilterSentence)

    def narrowed(self) -> FindingFilter:
        """Return what the list is narrowed to."""
        chosen: dict[str, Any] = dict(self.filters.values) if self.is_mounted else {}
        chosen.pop("order", None)
        return FindingFilter(**chosen, search=self._search)

    def sort(self) -> FindingSort:
        """Return the order of the list."""
        chosen = self.filters.values["order"] if self.is_mounted else FindingSort.WORST
        return FindingSort(str(chosen))

    def _source(self) -> FindingSource:
        return FindingSource(self.desk, self.narrowed(), self.sort())

    def on_mount(self) -> None:
        """Count, and audit what changed since the last time."""
        if is_empty(self.desk):
            self.list.set_empty(*EMPTY_REGISTER)
        self._count()
        self._audit()

    def refresh_register(self) -> None:
        """Show the register anew."""
        self.list.set_source(self._source(), cursor=self.list.cursor)
        self._count()

    def show_customer(self, customer_id: int) -> None:
        """Narrow the list to one customer, whatever it was narrowed to before."""
        name = next((one.label for one in customers(self.desk) if one.value == customer_id), "a customer")
        self.action_reset()
        self.filters.choose("customer_id", Choice(customer_id, name))

    @on(FilterSentence.Changed)
    @on(SearchField.Typed)
    def change_source(self, message: FilterSentence.Changed | SearchField.Typed) -> None:
        """Show what the filters and the search ask for."""
        if isinstance(message, SearchField.Typed):
            self._search = message.text
        if isinstance(message, FilterSentence.Changed) and message.name == "customer_id":
            self.filters.choose("site_id", Choice(None, "all sites", "sites"))
        self.list.set_source(self._source())
        self._count()

    @work(thread=True, exclusive=True, group="counts")
    def _count(self) -> None:
        try:
            self.post_message(self.Counted(severity_counts(self.desk, self.narrowed())))
        except ColdroundError:
            return  # the list says what is wrong

    @on(Counted)
    def show_counts(self, message: Counted) -> None:
        """Show the counts."""
        self.query_one(SeverityCounts).show(message.counts)

    @on(WindowedList.Positioned)
    def show_position(self, message: WindowedList.Positioned) -> None:
        """Say where one is."""
        self.filters.set_note(message.text)

    @on(WindowedList.Failed)
    def show_failure(self, message: WindowedList.Failed) -> None:
        """Say why the list is not there."""
        self.messages.failed("Not read.", message.error.message)

    @on(WindowedList.Highlighted)
    def follow(self, message: WindowedList.Highlighted) -> None:
        """Let the pane follow the cursor."""
        if message.row is None:
            self.query_one(FindingPane).show(None)
        elif self.is_wide:
            self._detail(message.row)

    def on_resize(self) -> None:
        """Fill the pane when it appears."""
        if self.is_wide and self.list.current is not None:
            self._detail(self.list.current)

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
        self.query_one(FindingPane).show(message.detail)

    # The audit -------------------------------------------------------------------------------------------

    @work(thread=True, exclusive=True, group="audit")
    def _audit(self) -> None:
        worker = get_current_worker()

        def tell(done: int, total: int) -> None:
            self.post_message(self.Audited(done, total))

        try:
            outcome = run_audit(self.desk, tell=tell, stop=lambda: worker.is_cancelled)
        except ColdroundError as error:
            self.post_message(self.Undone(error))
            return
        if outcome.systems:
            self.post_message(self.Audited(outcome.systems, outcome.systems, finished=True))

    @on(Audited)
    def show_audit(self, message: Audited) -> None:
        """Show how far the audit is; at its end show the list anew."""
        if not message.finished:
            self.messages.working(f"Auditing {message.total:,} systems", message.done, message.total)
            return
        self.messages.clear()
        self.refresh_register()

    @on(FrameScreen.WorkStopped)
    def stop_audit(self) -> None:
        """Stop the audit; what is done stays."""
        self.workers.cancel_group(self, "audit")
        self.messages.clear()
        self.refresh_register()

    # Keys ------------------------------------------------------------------------------------------------

    @on(WindowedList.Opened)
    def open_sheet(self, message: WindowedList.Opened) -> None:
        """Open the system of the finding, once however often Enter was pressed."""
        if not self.is_current:
            return
        from fleet.tui.sheet import SystemSheet

        view: FindingView = message.row
        self.app.push_screen(
            SystemSheet(self.desk, view.system_id, place=self.place, step=self.step, focus=view.key)
        )

    def step(self, by: int) -> int | None:
        """Move the cursor to another system of the list and return it, None at the end."""
        here = self.list.current
        while here is not None:
            before = self.list.cursor
            self.list.move_to(before + by)
            now = self.list.current
            if now is None or self.list.cursor == before:
                return None
            if now.system_id != here.system_id:
                return now.system_id
        return None

    def action_correct(self) -> None:
        """Correct the settings of the system under the cursor."""
        from fleet.tui.correct import CorrectScreen

        view = self.list.current
        if view is not None:
            self.app.push_screen(
                CorrectScreen(self.desk, view.system_id, place=self.place, focus=view.key), self._corrected
            )

    def _corrected(self, saved: Any) -> None:
        if saved is not None:
            self.app.post_message(RegisterChanged())
            self.messages.saved("Saved.", saved_words(saved))

    def action_filter(self) -> None:
        """Walk the filters."""
        self.filters.walk()

    def action_reset(self) -> None:
        """Take all filters away."""
        self.query_one(SearchField).leave()
        self.filters.reset()

    def action_search(self) -> None:
        """Search as one types."""
        self.query_one(SearchField).open()

    def action_sort(self) -> None:
        """Take the next order."""
        names = [choice.value for choice in SORTS]
        at = names.index(self.sort())
        self.filters.choose("order", SORTS[(at + 1) % len(SORTS)])

    def action_export(self) -> None:
        """Write the list as CSV."""
        from fleet.tui.csv_out import write_findings

        write_findings(self, self.desk, self.narrowed(), self.sort())

    @work(thread=True, exclusive=True, group="undo")
    def action_undo(self) -> None:
        """Undo the last correction."""
        try:
            act = last_correction(self.desk, since=self._opened_at)
            if act is None:
                raise UsageError("Nothing was corrected since the program was opened.")
            undo(self.desk, act)
        except ColdroundError as error:
            self.post_message(self.Undone(error))
            return
        self.post_message(self.Undone())

    @on(Undone)
    def show_undone(self, message: Undone) -> None:
        """Say what was undone."""
        if message.error is not None:
            self.messages.failed("Not done.", message.error.message)
            return
        self.app.post_message(RegisterChanged())
        self.messages.saved("Undone.", "The values before were appended.")


def saved_words(saved: Any) -> str:
    """Return what a correction changed, in words."""
    settled = "1 finding settled" if saved.settled == 1 else f"{saved.settled} findings settled"
    return f"{settled}, {saved.open} open on this system. u undoes."
