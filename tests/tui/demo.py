"""A small application over invented rows, to look at the parts of the interface by themselves.

``python -m tests.tui.demo [rows]`` opens it.
"""

import sys
import time
from collections.abc import Sequence
from dataclasses import dataclass
from functools import partial
from typing import ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.content import Content
from textual.widget import Widget
from textual.widgets import Static

from fleet.errors import RegisterLockedError
from fleet.text import pad
from fleet.tui.bars import LOADING_BAR, WindowState, bar_heading, window_bar
from fleet.tui.choices import Choice
from fleet.tui.columns import Column
from fleet.tui.filters import FilterPart, FilterSentence
from fleet.tui.frame import FrameApp, FrameFacts, FrameScreen
from fleet.tui.guard import why_no_screen
from fleet.tui.headings import section_title
from fleet.tui.paging import PAGE_ROWS, Anchors, Page
from fleet.tui.rulers import Axis, AxisMarks, axis_row, reference_rows, ruler
from fleet.tui.themes import Spans, Token, lines_to_content, styles_for
from fleet.tui.windowed_list import WindowedList

SEVERITIES = (("■", Token.ACT), ("◧", Token.NEXT), ("□", Token.TEXT), ("·", Token.DIM))
SITES = ("Aspen Gate", "Birchwood [B] Hall", "冷蔵倉庫 North", "Cinder Lane Community Kitchen", "Dunmore")


@dataclass(frozen=True, slots=True)
class Finding:
    number: int
    site: str
    system: str
    severity: int
    recorded: float | None
    low: float | None
    high: float | None
    out: float
    window: WindowState = "known"


def finding(number: int) -> Finding:
    """Return one invented row; the same number gives the same row."""
    severity = min(3, number // 5)
    low, high = (5.0, None) if number % 11 == 5 else (5.0, 30.2)
    out = (11.0, -9.2, -22.4, 3.0, 0.0)[number % 5] if severity < 3 else 0.0
    recorded = 30.2 + out if out > 0 else 5.0 + out if out < 0 else 8.0 + number % 20
    if number % 17 == 7:
        return Finding(number, SITES[number % 5], f"WC-{number}", severity, None, low, high, 0.0)
    if number == 4:
        return Finding(number, SITES[4], "WC-5", 0, 12.0, 20.0, 15.0, 0.0, "none")
    return Finding(number, SITES[number % 5], f"WC-{number}", severity, recorded, low, high, out)


class DemoSource:
    """Rows made on demand, as slow as one likes, and able to fail."""

    def __init__(self, total: int, *, delay_s: float = 0.0, fails: bool = False, start: int = 0) -> None:
        self.total, self.delay_s, self.fails, self.start = total, delay_s, fails, start
        self.pages_read: list[int] = []

    def _wait(self) -> None:
        if self.delay_s:
            time.sleep(self.delay_s)
        if self.fails:
            raise RegisterLockedError("The register is locked by another program.")

    def _rows(self, first: int, count: int) -> tuple[Finding, ...]:
        last = min(self.total, first + count)
        return tuple(finding(self.start + number) for number in range(first, last))

    def first(self, limit: int) -> Page[Finding]:
        self._wait()
        return Page(self._rows(0, limit), self.total > limit)

    def anchors(self) -> Anchors:
        self._wait()
        return Anchors(self.total, tuple(range(0, self.total, PAGE_ROWS)))

    def page(self, index: int, anchors: Anchors) -> Sequence[Finding]:
        self._wait()
        self.pages_read.append(index)
        first = anchors.keys[index]
        assert isinstance(first, int)
        return self._rows(first, PAGE_ROWS)


def _shape(row: Finding, width: int) -> Spans:
    return [SEVERITIES[row.severity]]


def _recorded(row: Finding, width: int) -> Spans:
    if row.recorded is None:
        return [("not recorded", Token.DIM)]
    return [(f"{row.recorded:7.1f}".replace("-", "−"), Token.TEXT), (" psig", Token.DIM)]


def _bar(row: Finding, width: int) -> Spans:
    token = SEVERITIES[row.severity][1]
    return window_bar(
        row.low, row.high, row.recorded, out=row.out, cell=2.0, severity=token, window=row.window, margin=4.0
    )


def _out(row: Finding, width: int) -> Spans:
    sign = "+" if row.out > 0 else "−"
    return [(f"{sign}{abs(row.out):.1f}°" if row.out else "", SEVERITIES[row.severity][1])]


COLUMNS: tuple[Column[Finding], ...] = (
    Column("", 1, _shape, gap=1, frozen=True, loading="·"),
    Column(
        "site", 16, lambda r, w: [(r.site, Token.TEXT)], gap=1, frozen=True, strong=True, loading="·" * 12
    ),
    Column("system", 6, lambda r, w: [(r.system, Token.TEXT)], gap=1, strong=True),
    Column("setting", 12, lambda r, w: [("cut-in", Token.TEXT)], gap=0, loading="·" * 6),
    Column("recorded", 12, _recorded, gap=1),
    Column(bar_heading("14°"), 21, _bar, gap=1, loading=LOADING_BAR),
    Column("out ", 6, _out, align="right", gap=0, loading=""),
)

CUSTOMERS = [Choice(number, f"{name} Foods") for number, name in enumerate(SITES * 9)]
REFRIGERANTS = [Choice(name, name) for name in ("R-22", "R-134a", "R-290", "R-404A", "R-448A")]


class AuditDemo(FrameScreen):
    PLACE = "audit"
    HELP_PAGE = """# Audit
Findings across all sites, the worst first. Each row draws its window as a small bar: a light line is
what is allowed, a heavy line is how far out. [b]Brackets[/b] are text here.

- ■ act now
- ◧ next visit, which is a longer item that has to be wrapped when the screen is narrow, and is

    indented text stays as it is"""
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("f", "filter", "filter", id="demo.filter", tooltip="Change the filters"),
        Binding("w", "work", "work", id="demo.work", tooltip="Show work in the message row"),
        Binding("x", "fail", "fail", id="demo.fail", tooltip="Show a failure"),
        Binding("y", "save", "save", id="demo.save", tooltip="Show that something was saved"),
        Binding("backspace", "reset", "all", show=False, id="demo.reset", tooltip="Take all filters away"),
    ]

    def __init__(self, source: DemoSource) -> None:
        super().__init__()
        self.source = source
        self.seen: list[object] = []

    def compose_body(self) -> ComposeResult:
        yield FilterSentence(
            [
                FilterPart(
                    "status", Choice("open", "Open findings"), lambda: [Choice("all", "All findings")]
                ),
                FilterPart("customer", Choice(None, "all customers", "customers"), lambda: CUSTOMERS),
                FilterPart("severity", Choice(None, "any severity"), list, wide_only=True),
                FilterPart(
                    "refrigerant", Choice(None, "any refrigerant", "refrigerant"), lambda: REFRIGERANTS
                ),
                FilterPart("order", Choice("worst", "worst first"), lambda: [Choice("site", "by site")]),
            ]
        )
        yield Counts()
        yield WindowedList(
            COLUMNS,
            self.source,
            opens="sheet",
            empty=("No open finding matches these filters.", "Backspace clears the filters, f changes one."),
        )

    @property
    def list(self) -> WindowedList[Finding]:
        return self.query_one(WindowedList)

    @property
    def filters(self) -> FilterSentence:
        return self.query_one(FilterSentence)

    @on(WindowedList.Positioned)
    def show_position(self, message: WindowedList.Positioned) -> None:
        self.filters.set_note(message.text)

    @on(WindowedList.Highlighted)
    @on(FilterSentence.Changed)
    def note_message(self, message: object) -> None:
        self.seen.append(message)

    @on(WindowedList.Opened)
    def open_sheet(self, message: WindowedList.Opened) -> None:
        self.app.push_screen(SheetDemo(self.place))

    @on(FilterSentence.Changed)
    def change_source(self, message: FilterSentence.Changed) -> None:
        none_left = message.values["refrigerant"] == "R-290"
        self.list.set_source(DemoSource(0 if none_left else 27 if message.values["customer"] else 1000))

    def action_filter(self) -> None:
        self.filters.walk()

    def action_reset(self) -> None:
        self.filters.reset()

    def action_work(self) -> None:
        self.messages.working("Auditing 100,000 boxes", 61_200, 100_000)

    def action_fail(self) -> None:
        self.messages.failed("Not saved.", "The register is locked by another program. Ctrl+S tries again.")

    def action_save(self) -> None:
        self.messages.saved("Saved.", "Cut-in 15.0 psig, inside. Finding settled. u undoes.")

    @on(FrameScreen.WorkStopped)
    def stop(self) -> None:
        self.messages.saved("Stopped.", "61,200 boxes are audited.")


class Counts(Widget):
    DEFAULT_CSS = "Counts { height: 2; width: 1fr; }"

    def render(self) -> Content:
        words = ("act now", "next visit", "watch", "note")
        line: Spans = [(" ", Token.TEXT)]
        for (shape, token), word in zip(SEVERITIES, words, strict=True):
            line += [(f"{shape} ", token), ("5", Token.HEAD), (f" {word}   ", Token.DIM)]
        return lines_to_content([line], styles_for(self.app))


SATURATION = {-40: 4.5, -30: 10.3, -20: 17.2, -10: 24.6, 0: 33.7, 10: 44.2, 20: 55.4}


def sheet_lines(width: int) -> list[Spans]:
    axis = Axis(0, 60, width - 26)
    rows = [
        ("cut-in", AxisMarks(low=5, high=30.2, preferred=15, recorded=41, severity=Token.ACT), "41.0"),
        ("cut-out", AxisMarks(low=0, high=49.6, preferred=5, recorded=22), "22.0"),
        ("left", AxisMarks(low=5, high=30.2, recorded=15, found=41, settled=Token.WIN), "15.0"),
        ("no high", AxisMarks(low=20, recorded=10, severity=Token.NEXT), "10.0"),
        ("none", AxisMarks(low=40, high=20, recorded=50, window="none", severity=Token.ACT), "50.0"),
        ("missing", AxisMarks(low=10, high=40, severity=Token.NEXT), ""),
    ]
    scale = ruler(
        axis,
        [(float(value), str(value)) for value in range(0, 61, 10)],
        [(value, str(degrees).replace("-", "−")) for degrees, value in SATURATION.items()],
    )
    title = section_title("Low-pressure control", "psig above the line, °F dew below it", width - 2)
    lines: list[Spans] = [[(" ", Token.TEXT), *title]]
    for name, marks, value in rows:
        lead: Spans = [(f"   {pad(name, 13)}", Token.TEXT)]
        lines.append([*lead, *axis_row(axis, marks), (pad(value, 9, "right"), Token.TEXT)])
    for name, spans in (("psig", scale.above), ("", scale.line), ("°F dew", scale.below)):
        lines.append([(f"   {pad(name, 13)}", Token.DIM), *spans])
    legend: Spans = [("   ◆ recorded  ○ preferred", Token.DIM)]
    lines += reference_rows(axis, [(33.6, "design cold 0 °F, 33.6")], lead=16, legend=legend)
    return lines


class SheetDemo(FrameScreen):
    HELP_PAGE = "One system."

    def compose_body(self) -> ComposeResult:
        yield Sheet(classes="first-focus")


class Sheet(Static, can_focus=True):
    def render(self) -> Content:
        return lines_to_content(sheet_lines(self.app.size.width), styles_for(self.app))


class Plain(FrameScreen):
    def compose_body(self) -> ComposeResult:
        yield Static(f"   {self.place}", markup=False)


class DemoApp(FrameApp):
    def __init__(self, source: DemoSource) -> None:
        super().__init__(FrameFacts("demo [x]", "25 Nov 2026"))
        self.source = source
        self.audit = AuditDemo(source)

    async def on_mount(self) -> None:
        self.add_mode("audit", lambda: self.audit)
        for place in ("rounds", "customers", "register"):
            self.add_mode(place, partial(Plain, place))
        await self.switch_mode("audit")


def main() -> int:
    refusal = why_no_screen()
    if refusal is not None:
        print(refusal, file=sys.stderr)
        return 2
    app = DemoApp(DemoSource(int(sys.argv[1]) if len(sys.argv) > 1 else 100_000))
    app.run()
    return app.return_code or 0


if __name__ == "__main__":
    raise SystemExit(main())
