"""Service events and preventive checks: what happened."""

from fleet.dictionary.columns import (
    Column,
    FileKind,
    choice,
    choices,
    day,
    measure,
    moment,
    number,
    person,
    tag,
    text,
)
from fleet.dictionary.kinds import Refrigerant
from fleet.dictionary.words import CheckResult
from fleet.units import Dimension

EVENT_KINDS = (
    "call",
    "repair",
    "start-up",
    "power-outage",
    "refrigerant-change",
    "compressor-change",
    "taken-out",
    "returned",
    "note",
)

EVENTS = FileKind(
    "events",
    (
        tag("reference", "E-1042"),
        tag("customer", "ALDER"),
        tag("site", "Ridge Street"),
        text("system", "WC-2", longest=80),
        text("part", "compressor 1", longest=100),
        choice("kind", EVENT_KINDS, "compressor-change", required=True),
        day("happened_on", "2025-02-09", required=True),
        moment("called_at", "2025-02-09T06:10"),
        moment("arrived_at", "2025-02-09T08:00"),
        moment("restored_at", "2025-02-09T15:30"),
        person("recorded_by", "R. Osei"),
        text("compressor_serial", "9C0442", longest=100),
        text("note", "seized at start"),
        choices("evidence"),
        Column("refrigerant_from", Refrigerant()),
        Column("refrigerant_to", Refrigerant()),
        number("labour", 0, 1e7),
        number("parts", 0, 1e7),
        number("cost", 0, 1e7),
        text("currency", "", longest=3),
        number("product_lost", 0, 1e7),
    ),
    ("reference",),
    "calls, repairs, changes: what happened to a system",
)

CHECKS = FileKind(
    "checks",
    (
        tag("customer", "ALDER"),
        tag("site", "Ridge Street"),
        tag("system", "WC-2"),
        text("part", "", longest=100),
        Column("check_code", text("check_code").kind, True, "condenser_coil"),
        day("done_on", "2026-05-20", required=True),
        person("done_by", "R. Osei"),
        choice("result", CheckResult, "done", required=True),
        text("reason"),
        day("until"),
        choice("found", ("nothing", "adjusted", "fault"), "nothing"),
        measure("minutes", Dimension.TIME, "40min"),
    ),
    ("customer", "site", "system", "part", "check_code", "done_on"),
    "preventive checks as they were done",
)
