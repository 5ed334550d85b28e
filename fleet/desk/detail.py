"""One finding beside the list: what is wrong, what would be right, who left it so, what else is open."""

from dataclasses import dataclass
from datetime import date

from sqlalchemy import text

from db.driver import day_of
from db.pages import FindingFilter, FindingRow, FindingSort, page
from fleet.desk.findings import FindingView, dimension_of, finding_view
from fleet.desk.opened import Desk
from fleet.desk.sentences import day_words, sentences
from fleet.dictionary.words import BoxKind, Placement
from fleet.targets.table import TARGET_BY_CODE
from fleet.units import Dimension, show

OTHERS_SHOWN = 6
_LEFT_BY_SQL = """
SELECT r.stage, r.recorded_on, r.confirmed, p.person FROM setting_records r
LEFT JOIN people p ON p.id = r.recorded_by_id
WHERE r.system_id = :system AND r.part = :part AND r.setting = :setting
ORDER BY r.recorded_on DESC, r.stage DESC, r.id DESC LIMIT 1"""
_FACTS_SQL = """
SELECT y.placement, b.kind, c.setpoint_k FROM systems y
LEFT JOIN boxes b ON b.system_id = y.id
LEFT JOIN current_settings c ON c.system_id = b.system_id AND c.part = b.box
WHERE y.id = :system ORDER BY b.box"""


@dataclass(frozen=True, slots=True)
class FindingDetail:
    """What stands in the pane beside the list."""

    view: FindingView
    title: str
    facts: tuple[str, ...]
    found: str
    window: str
    preferred: str
    why: str
    left_by: str
    settles: str
    others: tuple[FindingView, ...]
    others_more: int


def finding_detail(desk: Desk, row: FindingRow) -> FindingDetail:
    """Return all that is said of one finding."""
    view = finding_view(row, desk)
    others = _others(desk, row)
    return FindingDetail(
        view=view,
        title=_title(view),
        facts=_facts(desk, row),
        found=_found(view),
        window=_window(desk, row),
        preferred=_shown(desk, row, row.preferred),
        why=sentences(desk, [row])[0],
        left_by=_left_by(desk, row),
        settles=_settles(row),
        others=others[:OTHERS_SHOWN],
        others_more=max(0, len(others) - OTHERS_SHOWN),
    )


def _title(view: FindingView) -> str:
    row = view.row
    target = TARGET_BY_CODE.get(row.setting)
    if row.rule == "check_overdue":
        return f"{row.setting.replace('_', ' ').capitalize()} overdue"
    if row.rule != "low_pressure_window" or target is None:
        return view.label.capitalize()
    words = {
        "above": "above its window",
        "below": "below its window",
        "no-window": "has no window",
        "inside": "inside, but for the coldest day",
    }
    return (
        f"{target.label[0].upper()}{target.label[1:]} {words.get(row.verdict, row.verdict.replace('-', ' '))}"
    )


def _facts(desk: Desk, row: FindingRow) -> tuple[str, ...]:
    with desk.engine.connect() as connection:
        found = connection.execute(text(_FACTS_SQL), {"system": row.system_id}).all()
    boxes = [_box_words(desk, kind, setpoint) for _, kind, setpoint in found if kind]
    more = f" and {len(boxes) - 1} more" if len(boxes) > 1 else ""
    placement = Placement(found[0][0]).words if found and found[0][0] else "place not recorded"
    view = finding_view(row, desk)
    return (
        row.customer_name,
        f"{boxes[0] if boxes else 'no box recorded'}{more}  {row.refrigerant or 'refrigerant not recorded'}",
        f"{view.strategy_words}  {placement}",
    )


def _box_words(desk: Desk, kind: str, setpoint_k: float | None) -> str:
    at = (
        ""
        if setpoint_k is None
        else " " + show(setpoint_k, Dimension.TEMPERATURE, desk.units).replace(".0 ", " ")
    )
    return f"{BoxKind(kind).words}{at}"


def _found(view: FindingView) -> str:
    shown = f"{view.figure} {view.unit}".strip()
    return f"{shown}, {view.out}" if view.out and view.row.rule != "check_overdue" else shown


def _window(desk: Desk, row: FindingRow) -> str:
    if row.rule == "check_overdue":
        return "" if row.high is None else f"due by {day_words(day_of(int(row.high)))}"
    if row.verdict == "no-window":
        return "none"
    low, high = _shown(desk, row, row.low), _shown(desk, row, row.high)
    if low and high:
        return f"{low} to {high}"
    return f"lowest {low}" if low else (f"highest {high}" if high else "")


def _shown(desk: Desk, row: FindingRow, value: float | None) -> str:
    dimension = dimension_of(row)
    if value is None or dimension is None:
        return ""
    return show(value, dimension, desk.units)


def _left_by(desk: Desk, row: FindingRow) -> str:
    with desk.engine.connect() as connection:
        keys = {"system": row.system_id, "part": row.part, "setting": row.setting}
        last = connection.execute(text(_LEFT_BY_SQL), keys).first()
    if last is None:
        return ""
    _, recorded_on, confirmed, person = last
    day = day_words(_as_date(recorded_on)) if recorded_on else "undated"
    how = confirmed if confirmed and confirmed != "none" else "not confirmed"
    return ", ".join(part for part in (person or "nobody named", day, how) if part)


def _as_date(value: object) -> date:
    return value if isinstance(value, date) else date.fromisoformat(str(value))


def _settles(row: FindingRow) -> str:
    labels = [TARGET_BY_CODE[code].label for code in (row.also or "").split(";") if code in TARGET_BY_CODE]
    return ", ".join(labels)


def _others(desk: Desk, row: FindingRow) -> tuple[FindingView, ...]:
    narrowed = FindingFilter(system_id=row.system_id)
    with desk.engine.connect() as connection:
        found = page(connection, narrowed, FindingSort.WORST, desk.today_day, limit=50).rows
    same = (row.part, row.rule, row.setting)
    return tuple(finding_view(one, desk) for one in found if (one.part, one.rule, one.setting) != same)
