"""Preventive checks: what is checked, on what, how often, and what falls due when."""

from fleet.checks.catalogue import CATALOGUE, CHECK_CODES, CheckKind, check_index, check_kind
from fleet.checks.due import WHOLE_SYSTEM, CheckRecordColumns, DueBasis, DueLines, due_lines, no_records
from fleet.checks.editing import changed_fields, edited
from fleet.checks.months import add_months
from fleet.checks.overdue import NEVER_DAY, OverdueColumns, overdue

__all__ = [
    "CATALOGUE",
    "CHECK_CODES",
    "NEVER_DAY",
    "WHOLE_SYSTEM",
    "CheckKind",
    "CheckRecordColumns",
    "DueBasis",
    "DueLines",
    "OverdueColumns",
    "add_months",
    "changed_fields",
    "check_index",
    "check_kind",
    "due_lines",
    "edited",
    "no_records",
    "overdue",
]
