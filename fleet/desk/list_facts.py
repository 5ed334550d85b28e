"""What the rows of a page tell beside their own cells: how much there is below them, who looks after them.

Each is one question for a whole page of rows.
"""

from collections.abc import Iterable
from typing import Any

from sqlalchemy import Connection

from db.driver import id_list
from db.pages import open_on

Facts = dict[int, tuple[Any, ...]]
"""By the key of the row."""

_OF_CUSTOMERS = """
SELECT c.id, p.name, p.person,
  (SELECT count(*) FROM sites s WHERE s.customer_id = c.id),
  (SELECT count(*) FROM sites s JOIN systems y ON y.site_id = s.id WHERE s.customer_id = c.id),
  (SELECT count(*) FROM sites s JOIN systems y ON y.site_id = s.id JOIN boxes b ON b.system_id = y.id
    WHERE s.customer_id = c.id)
FROM customers c LEFT JOIN people p ON p.id = c.account_manager_id WHERE c.id IN ({ids})"""
_OF_SITES = """
SELECT s.id, s.elevation_m, s.design_cold_k,
  (SELECT count(*) FROM systems y WHERE y.site_id = s.id),
  (SELECT count(*) FROM systems y JOIN boxes b ON b.system_id = y.id WHERE y.site_id = s.id)
FROM sites s WHERE s.id IN ({ids})"""
_OF_SYSTEMS = "SELECT system_id, count(*) FROM boxes WHERE system_id IN ({ids}) GROUP BY system_id"
_OF_BOXES = """
SELECT b.id, y.strategy, k.setpoint_k
FROM boxes b JOIN systems y ON y.id = b.system_id
LEFT JOIN current_settings k ON k.system_id = b.system_id AND k.part = b.box WHERE b.id IN ({ids})"""
_OVERDUE = (
    "SELECT f.customer_id, count(*) FROM findings f WHERE f.customer_id IN ({ids}) "
    "AND f.rule = 'check_overdue' AND {open_on} GROUP BY f.customer_id"
)


def facts_of_customers(connection: Connection, ids: Iterable[int]) -> Facts:
    """Return account manager's name and tag, number of sites, of systems, of boxes."""
    return _asked(connection, _OF_CUSTOMERS, ids)


def facts_of_sites(connection: Connection, ids: Iterable[int]) -> Facts:
    """Return elevation, design cold, number of systems, of boxes."""
    return _asked(connection, _OF_SITES, ids)


def facts_of_systems(connection: Connection, ids: Iterable[int]) -> Facts:
    """Return the number of boxes."""
    return _asked(connection, _OF_SYSTEMS, ids)


def facts_of_boxes(connection: Connection, ids: Iterable[int]) -> Facts:
    """Return strategy and setpoint."""
    return _asked(connection, _OF_BOXES, ids)


def overdue_of_customers(connection: Connection, ids: Iterable[int], today_day: int) -> dict[int, int]:
    """Return how many checks are overdue, as the audit found them."""
    question = _OVERDUE.replace("{open_on}", open_on(today_day))
    return {key: row[0] for key, row in _asked(connection, question, ids).items()}


def _asked(connection: Connection, question: str, ids: Iterable[int]) -> Facts:
    rows = connection.exec_driver_sql(question.format(ids=id_list(ids)))
    return {row[0]: tuple(row[1:]) for row in rows}
