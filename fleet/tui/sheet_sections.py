"""The sections of a system sheet as rows: what is wrong, windows, checks, history, what is recorded."""

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from fleet.text import cell_width, clean
from fleet.tui.pressure_axis import Drawing
from fleet.tui.sheet_rows import INDENT, SheetRow, Stop, StopId, blank, cells, text_rows, title_row
from fleet.tui.signs import SEVERITY_SIGNS, severity_token
from fleet.tui.themes import Spans, Token

if TYPE_CHECKING:
    from fleet.desk.axis import WindowRow
    from fleet.desk.sheet import Sheet, SheetFinding

WRONG, CONTROL, DUE, HISTORY, RECORDED, CAUTIONS = (
    "What is wrong",
    "Low-pressure control",
    "Checks due",
    "History",
    "Recorded",
    "Cautions",
)
SEVERITY_CELLS = 12
NAME_CELLS = 18
LABEL_CELLS = 13
VALUE_CELLS = 9
DAY_CELLS, WHO_CELLS = 13, 16
FACT_LABEL_CELLS = 13


# What is wrong --------------------------------------------------------------------------------------------


def wrong_rows(
    sheet: "Sheet", settled: "Sequence[SheetFinding]", width: int, cursor: StopId | None, *, all_said: bool
) -> Iterator[SheetRow]:
    """Yield the findings; the one under the cursor says its sentence, where there is room all do."""
    yield title_row(WRONG, str(len(sheet.findings)), width)
    if not sheet.findings and not settled:
        said = "Nothing is open on this system."
        yield SheetRow([("   ", Token.TEXT), ("✓ ", Token.WIN), (said, Token.TEXT)])
    widest = max((cell_width(clean(one.name)) for one in (*sheet.findings, *settled)), default=0)
    name_cells = max(NAME_CELLS, min(width // 3, widest + 2))
    for one in sheet.findings:
        shape, token = SEVERITY_SIGNS[one.severity]
        stop = finding_stop(one)
        yield _finding_row(one, (shape, one.severity_words, token), name_cells, width, stop)
        if all_said or stop.id == cursor:
            yield from text_rows(one.sentence, width, Token.TEXT if stop.id == cursor else Token.DIM)
    for one in settled:
        yield _finding_row(one, ("✓", "settled", Token.WIN), name_cells, width, None)
    yield blank()


def finding_stop(one: "SheetFinding") -> Stop:
    """Return the stop of a finding."""
    part, rule, setting = one.key
    return Stop(("finding", part, rule, setting), one.explained, (part, setting))


def _finding_row(
    one: "SheetFinding", sign: tuple[str, str, Token], name_cells: int, width: int, stop: Stop | None
) -> SheetRow:
    shape, words, token = sign
    room = width - 3 - SEVERITY_CELLS - name_cells - 1
    name = Token.HEAD if stop else Token.DIM
    spans: Spans = [(" ", Token.TEXT), (f"{shape} {cells(words, SEVERITY_CELLS)}", token)]
    spans += [(cells(one.name, name_cells - 1) + " ", name)]
    return SheetRow([*spans, (cells(one.summary, room), Token.TEXT if stop else Token.DIM)], stop)


# The low-pressure control ---------------------------------------------------------------------------------


def control_rows(sheet: "Sheet", width: int) -> Iterator[SheetRow]:
    """Yield each window on the double axis; differences as sentences under it."""
    if not sheet.windows:
        yield title_row(CONTROL, "", width)
        yield from text_rows("No low-pressure control is fitted.", width)
        yield blank()
        return
    axis = sheet.axis
    pressures = [row for row in sheet.windows if not row.difference]
    label_cells = max(LABEL_CELLS, *(cell_width(_label(row)) + 1 for row in sheet.windows))
    if axis is None:
        yield title_row(CONTROL, "", width)
        for row in pressures:
            yield _plain_window(row, label_cells, width)
    else:
        note = f"{axis.unit} above the line, {axis.saturation_unit} below it"
        yield title_row(CONTROL, note if axis.saturation else f"{axis.unit}", width)
        lead = INDENT + label_cells
        drawing = Drawing(axis, width - lead - VALUE_CELLS - 1)
        for row in pressures:
            yield _drawn_window(row, drawing, label_cells)
        yield from _scale(drawing, label_cells)
    for row in sheet.windows:
        if row.difference:
            yield _difference(row, label_cells, width)
    yield blank()


def window_stop(row: "WindowRow") -> Stop:
    """Return the stop of a window."""
    return Stop(("window", row.part, row.setting), row.explained, (row.part, row.setting))


def _label(row: "WindowRow") -> str:
    return clean(row.part or row.label)


def _drawn_window(row: "WindowRow", drawing: Drawing, label_cells: int) -> SheetRow:
    value = "—" if row.recorded is None else row.value
    token = severity_token(row.severity) if row.severity else Token.TEXT
    lead: Spans = [(" " * INDENT + cells(_label(row), label_cells), Token.TEXT)]
    return SheetRow([*lead, *drawing.window(row), (value.rjust(VALUE_CELLS), token)], window_stop(row))


def _plain_window(row: "WindowRow", label_cells: int, width: int) -> SheetRow:
    text = cells(f"{row.value}   {row.reason}", width - INDENT - label_cells - 1)
    return SheetRow(
        [(" " * INDENT + cells(_label(row), label_cells), Token.TEXT), (text, Token.TEXT)], window_stop(row)
    )


def _scale(drawing: Drawing, label_cells: int) -> Iterator[SheetRow]:
    scale = drawing.ruler
    names = (drawing.shown.unit, "", drawing.shown.saturation_unit if drawing.shown.saturation else "")
    for name, line in zip(names, (scale.above, scale.line, scale.below), strict=True):
        yield SheetRow([(" " * INDENT + cells(name, label_cells), Token.DIM), *line])
    for line in drawing.references(INDENT + label_cells, "sheet", INDENT):
        yield SheetRow(line)


def _difference(row: "WindowRow", label_cells: int, width: int) -> SheetRow:
    value = row.value if row.recorded is None else f"{row.value} {row.unit}"
    bounds = f"lowest {row.lowest}, " + ("no highest" if row.highest == "none" else f"highest {row.highest}")
    shape, word, token = _verdict(row)
    room = width - INDENT - label_cells - 1 - cell_width(word) - 3
    middle: Spans = [(f"{value}   ", severity_token(row.severity)), (bounds, Token.WIN)]
    if row.state == "unknown":
        middle = [(row.reason, Token.DIM)]
    used = sum(cell_width(text) for text, _ in middle)
    return SheetRow(
        [
            (" " * INDENT + cells(_label(row), label_cells), Token.TEXT),
            *middle,
            (" " * max(1, room - used), Token.TEXT),
            (f"{shape} {word}", token),
        ],
        window_stop(row),
    )


def _verdict(row: "WindowRow") -> tuple[str, str, Token]:
    if row.severity:
        shape, token = SEVERITY_SIGNS[row.severity]
        return shape, row.severity_words, token
    return ("✓", "inside", Token.WIN) if row.verdict == "inside" else ("?", row.verdict_words, Token.DIM)


# Checks, history, facts, cautions -------------------------------------------------------------------------


def due_rows(sheet: "Sheet", width: int) -> Iterator[SheetRow]:
    """Yield when each check falls due, the most pressing first."""
    yield title_row(DUE, "", width)
    if not sheet.due:
        yield from text_rows(
            "No check has a day to count from: nothing is dated, or it is out of use.", width
        )
    name_cells = max((cell_width(clean(f"{one.check} {one.part}")) for one in sheet.due), default=0) + 2
    for one in sheet.due:
        late = one.overdue_days > 0
        when = one.due_from <= sheet.today and not late
        state = f"due, {one.state}" if when else one.state
        token = Token.NEXT if late else Token.TEXT if when else Token.DIM
        name = cells(f"{one.check} {one.part}".strip(), name_cells)
        yield SheetRow(
            [(" " * INDENT + name, Token.TEXT), (state, token)],
            Stop(("due", one.check, one.part), one.explained),
        )
    yield blank()


def history_rows(sheet: "Sheet", width: int) -> Iterator[SheetRow]:
    """Yield what happened, newest first: day, who and what, on two lines where it is narrow."""
    yield title_row(HISTORY, f"{len(sheet.history):,}", width)
    if not sheet.history:
        yield from text_rows("Nothing is recorded yet.", width)
    tight = width < DAY_CELLS + WHO_CELLS + 36
    for number, one in enumerate(sheet.history):
        stop = Stop(("history", str(number)), one.explained)
        who = one.who or "nobody named"
        lead: Spans = [(" " * (1 if tight else INDENT) + one.day_words.rjust(11) + "  ", Token.DIM)]
        lead.append((cells(who, WHO_CELLS), Token.TEXT if one.who else Token.DIM))
        if tight:
            yield SheetRow(lead, stop)
            yield from text_rows(one.what, width, Token.TEXT)
        else:
            room = width - INDENT - DAY_CELLS - WHO_CELLS - 1
            yield SheetRow([*lead, (cells(one.what, room), Token.TEXT)], stop)
    yield blank()


def recorded_rows(sheet: "Sheet", width: int) -> Iterator[SheetRow]:
    """Yield what is recorded; what is not is said."""
    indent = 1 if width < 60 else INDENT
    yield title_row(RECORDED, "", width)
    widest = max((cell_width(clean(line.label)) for line in sheet.facts), default=0)
    label_cells = max(FACT_LABEL_CELLS, min(widest + 2, width // 2))
    for number, line in enumerate(sheet.facts):
        about = (line.part, line.setting) if line.setting else None
        spans: Spans = [(" " * indent + cells(line.label, label_cells), Token.DIM)]
        room = width - indent - label_cells - 1
        spans.append((cells(line.value, room), Token.DIM if line.missing else Token.TEXT))
        yield SheetRow(spans, Stop(("fact", str(number)), line.explained, about))
    yield blank()


def caution_rows(sheet: "Sheet", width: int) -> Iterator[SheetRow]:
    """Yield the cautions that go with every advice."""
    yield title_row(CAUTIONS, "", width)
    for text in sheet.cautions:
        for number, row in enumerate(text_rows(text, width, Token.DIM, INDENT + 2)):
            mark = " " * INDENT + "· " if number == 0 else " " * (INDENT + 2)
            yield SheetRow([(mark, Token.DIM), *row.spans[1:]])
