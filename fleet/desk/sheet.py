"""Everything of one system on one sheet, read and computed in one go."""

from dataclasses import dataclass
from datetime import date

from sqlalchemy import Connection

from db.columns import fetch_systems
from db.pages import FindingFilter, FindingRow, FindingSort, page
from db.sheet import SystemSheet, read_sheet
from fleet.audit.rules import rule
from fleet.desk.axis import PressureAxis, WindowRow, pressure_axis, window_rows
from fleet.desk.cautions import CAUTIONS
from fleet.desk.derivation import Derivation, plain_derivation, setting_name
from fleet.desk.findings import finding_view
from fleet.desk.opened import Desk
from fleet.desk.sentences import day_words, sentences
from fleet.desk.sheet_due import DueRow, due_of
from fleet.desk.sheet_facts import (
    FactLine,
    fact_lines,
    freezer_cautions,
    headline,
    refrigerant_cautions,
)
from fleet.desk.sheet_history import (
    CompressorLife,
    HistoryRow,
    history_of,
    lives_of,
    record_text,
)
from fleet.desk.windows import windows_of
from fleet.dictionary.words import Verdict
from fleet.errors import ChangedMeanwhileError, UnknownNameError
from fleet.targets.table import TARGET_BY_CODE
from fleet.units import UnitSystem

MOST_FINDINGS = 200
FindingKey = tuple[str, str, str]
"""Part, rule and setting."""
_RULE_SOURCES = {
    "boxes_apart": ("boxes_apart",),
    "fans_cycle": ("fans_carry_defrost",),
    "check_overdue": ("check_interval",),
    "flooded_starts": ("flooded_start_history",),
}


@dataclass(frozen=True, slots=True)
class SheetFinding:
    """One open finding in words."""

    key: FindingKey
    severity: int
    severity_words: str
    name: str
    summary: str
    sentence: str
    explained: Derivation


@dataclass(frozen=True, slots=True)
class Sheet:
    """One system with all that is known of it, in the units of the desk."""

    system_id: int
    customer: str
    site: str
    system: str
    headline: tuple[str, ...]
    findings: tuple[SheetFinding, ...]
    windows: tuple[WindowRow, ...]
    axis: PressureAxis | None
    lives: tuple[CompressorLife, ...]
    due: tuple[DueRow, ...]
    history: tuple[HistoryRow, ...]
    facts: tuple[FactLine, ...]
    cautions: tuple[str, ...]
    today: date


def sheet(desk: Desk, system_id: int) -> Sheet:
    """Return everything of one system as it stands now.

    Raises:
        ChangedMeanwhileError: the system is no longer in the register.
    """
    with desk.engine.connect() as connection:
        read = recorded(connection, system_id)
        fleet = fetch_systems(connection, [system_id])
        due = due_of(desk, connection, system_id)
        open_rows = _open_rows(desk, connection, system_id)
    windows: tuple[WindowRow, ...] = ()
    axis = None
    if len(fleet):
        computed = windows_of(fleet, desk.units)
        windows = window_rows(computed, desk.units, typed_texts(read, desk.units))
        axis = pressure_axis(computed, desk.units)
    shown = tuple(window for window in windows if window.verdict != Verdict.NOT_APPLICABLE)
    return Sheet(
        system_id=system_id,
        customer=read.customer["name"],
        site=read.site["site"],
        system=read.system["system"],
        headline=headline(read, desk.units),
        findings=_findings(desk, open_rows, windows),
        windows=shown,
        axis=axis,
        lives=lives_of(read),
        due=due,
        history=history_of(read, desk.units),
        facts=fact_lines(read, desk.units),
        cautions=(
            *refrigerant_cautions(read.system["refrigerant"]),
            *freezer_cautions(read),
            *CAUTIONS,
        ),
        today=desk.today,
    )


def recorded(connection: Connection, system_id: int) -> SystemSheet:
    """Return what the register holds of a system.

    Raises:
        ChangedMeanwhileError: the system is no longer in the register.
    """
    try:
        return read_sheet(connection, system_id)
    except UnknownNameError:
        raise ChangedMeanwhileError("The system is no longer in the register.") from None


def typed_texts(read: SystemSheet, units: UnitSystem) -> dict[tuple[str, str], str]:
    """Return the current settings as typed, by part and setting."""
    return {(entry.part, entry.setting): record_text(entry, units) for entry in read.settings}


def _open_rows(desk: Desk, connection: Connection, system_id: int) -> tuple[FindingRow, ...]:
    narrowed = FindingFilter(system_id=system_id)
    return page(connection, narrowed, FindingSort.WORST, desk.today_day, limit=MOST_FINDINGS).rows


def _findings(
    desk: Desk, rows: tuple[FindingRow, ...], windows: tuple[WindowRow, ...]
) -> tuple[SheetFinding, ...]:
    by_key = {window.key: window for window in windows}
    return tuple(
        _finding(desk, row, sentence, by_key.get((row.part, row.setting)))
        for row, sentence in zip(rows, sentences(desk, rows), strict=True)
    )


def _finding(desk: Desk, row: FindingRow, sentence: str, window: WindowRow | None) -> SheetFinding:
    view = finding_view(row, desk)
    name = _name(row, window, view.label)
    summary = f"{view.figure} {view.unit}".strip() if window is None else _summary(row, window)
    if row.rule == "check_overdue":
        summary = f"check overdue, {view.figure} days late"
    elif row.rule == "not_recorded":
        empty = len([cell for cell in (row.detail or "").split(";") if cell])
        summary = "1 cell is empty" if empty == 1 else f"{empty} cells are empty"
    seen = "" if row.first_seen is None else day_words(row.first_seen)
    also = ", ".join(TARGET_BY_CODE[code].label for code in (row.also or "").split(";") if code)
    head = plain_derivation(
        name[:1].upper() + name[1:],
        ("", sentence),
        ("severity", view.severity_words),
        ("rule", rule(row.rule).about),
        ("first seen", seen),
        ("settles too", also),
        sources=() if window is not None else _RULE_SOURCES.get(row.rule, ()),
    )
    rest = () if window is None else tuple(line for line in window.explained.lines if line[1] != sentence)
    return SheetFinding(
        key=view.key,
        severity=row.severity,
        severity_words=view.severity_words,
        name=name[:1].upper() + name[1:],
        summary=summary or rule(row.rule).label,
        sentence=sentence,
        explained=Derivation(head.title, (*head.lines, *rest)),
    )


def _name(row: FindingRow, window: WindowRow | None, label: str) -> str:
    if window is not None:
        return setting_name(row.part, TARGET_BY_CODE[row.setting].label)
    if row.setting == "receiver_hold":
        label = "receiver hold"
    elif row.rule == "check_overdue":
        label = row.setting.replace("_", " ")
    else:
        label = rule(row.rule).label
    return f"{row.part} {label}".strip()


def _summary(row: FindingRow, window: WindowRow) -> str:
    value = f"{window.value} {window.unit}" if window.recorded is not None else "not recorded"
    if " " in window.value:
        value = window.value
    if row.verdict == Verdict.NO_WINDOW:
        return f"{value}, no window"
    if row.verdict == Verdict.CONFLICTING:
        return f"{value}, settings contradict"
    if row.verdict == Verdict.BELOW:
        return f"{value}, lowest {window.lowest}"
    if row.verdict == Verdict.ABOVE:
        return f"{value}, highest {window.highest}"
    return f"{value}, inside but for the coldest day" if row.verdict == Verdict.INSIDE else value
