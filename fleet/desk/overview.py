"""What a register holds, counted."""

from fleet.desk.choosing import severities
from fleet.desk.documents import Document
from fleet.desk.findings import FindingFilter, severity_counts
from fleet.desk.opened import Desk

_TABLES = {
    "customers": "customers",
    "sites": "sites",
    "systems": "systems",
    "boxes": "boxes",
    "compressors": "compressors",
    "setting_records": "settings recorded",
    "events": "service events",
    "check_records": "checks recorded",
}


def overview(desk: Desk) -> Document:
    """Return how much of everything there is, and the findings by severity."""
    with desk.engine.connect() as connection:
        holds: Document = {
            words: connection.exec_driver_sql(f"SELECT count(*) FROM {table}").scalar()
            for table, words in _TABLES.items()
        }
    counts = severity_counts(desk, FindingFilter())
    found: Document = {named.label: counts[int(named.value)] for named in severities()}
    return {"register": desk.name, "today": desk.today.isoformat(), "holds": holds, "findings": found}


def is_empty(desk: Desk) -> bool:
    """Tell whether the register holds no system."""
    with desk.engine.connect() as connection:
        return connection.exec_driver_sql("SELECT 1 FROM systems LIMIT 1").first() is None
