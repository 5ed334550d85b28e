"""What an audit found in columns, as rows that the register stores: words for codes, NULL for NaN."""

from collections.abc import Sequence
from functools import cache
from typing import Any

import numpy as np
import numpy.typing as npt
from sqlalchemy import Connection

from db.columns import which_systems
from db.findings import FINDING_FIELDS, replace_findings
from fleet.audit.findings import NEVER, FindingColumns
from fleet.audit.rules import RULE_CODES
from fleet.dictionary.words import Verdict
from fleet.targets.bounds import Bind
from fleet.targets.columns import FleetColumns
from fleet.targets.missing import names

_OWNERS_SQL = """
SELECT y.id, s.customer_id, y.site_id, y.refrigerant, y.strategy
FROM systems y JOIN sites s ON s.id = y.site_id WHERE {which}"""
_VERDICTS = tuple(verdict.value for verdict in Verdict)
_BINDS = {int(bind): bind.name.lower() for bind in Bind} | {0: None}
Owner = tuple[int, int, str | None, str | None]
"""Customer, site, refrigerant and strategy of a system, by which lists of findings are filtered."""


def store_findings(
    connection: Connection,
    system_ids: Sequence[int],
    fleet: FleetColumns,
    findings: FindingColumns,
    *,
    today_day: int,
    through_day: int,
) -> None:
    """Store what an audit of ``fleet`` found; ``system_ids`` may name removed systems besides."""
    rows = finding_rows(connection, fleet, findings)
    replace_findings(connection, system_ids, rows, today_day=today_day, through_day=through_day)


def finding_rows(
    connection: Connection, fleet: FleetColumns, findings: FindingColumns
) -> list[tuple[Any, ...]]:
    """Return findings as tuples in the order of `FINDING_FIELDS`."""
    keys = fleet.systems.system_id[findings.system].tolist()
    owners = _owners(connection, fleet)
    customers, sites, refrigerants, strategies = (
        zip(*(owners[key] for key in keys), strict=True) if keys else ((), (), (), ())
    )
    columns: dict[str, Sequence[Any]] = {
        "system_id": keys,
        "part": findings.part.tolist(),
        "rule": [RULE_CODES[code] for code in findings.rule.tolist()],
        "setting": findings.setting.tolist(),
        "from_day": findings.from_day.tolist(),
        "until_day": [None if day == NEVER else day for day in findings.until_day.tolist()],
        "severity": findings.severity.tolist(),
        "far": findings.far.tolist(),
        "verdict": [_VERDICTS[code] for code in findings.verdict.tolist()],
        "low_code": [_BINDS[code] for code in findings.low_code.tolist()],
        "high_code": [_BINDS[code] for code in findings.high_code.tolist()],
        "detail": [_missing(mask) for mask in findings.missing.tolist()],
        "also": [codes or None for codes in findings.also.tolist()],
        "customer_id": customers,
        "site_id": sites,
        "refrigerant": refrigerants,
        "strategy": strategies,
    }
    for name in ("recorded", "low", "high", "preferred", "out_by", "out_by_saturation_k"):
        columns[name] = _finite(getattr(findings, name))
    return list(zip(*(columns[name] for name in FINDING_FIELDS), strict=True))


def _owners(connection: Connection, fleet: FleetColumns) -> dict[int, Owner]:
    which = which_systems(connection, fleet.systems.system_id.tolist())
    rows = connection.exec_driver_sql(_OWNERS_SQL.format(which=which))
    return {row[0]: (row[1], row[2], row[3], row[4]) for row in rows}


@cache
def _missing(mask: int) -> str | None:
    """Return the names of the cells that are not recorded, with ``;`` between."""
    return ";".join(names(mask)) or None


def _finite(values: npt.NDArray[np.float64]) -> list[float | None]:
    """Return numbers; what is unknown or unbounded becomes NULL."""
    made: list[float | None] = values.tolist()
    for place in np.flatnonzero(~np.isfinite(values)).tolist():
        made[place] = None
    return made
