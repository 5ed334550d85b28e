"""Rows that fit together, an importer on a register, and the register's content without its numbers."""

import csv
import sqlite3
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime
from pathlib import Path
from typing import Any

from sqlalchemy import Engine

from fleet.dictionary import FILES
from fleet.errors import ImportRefusedError
from fleet.exchange.apply import import_gathered
from fleet.exchange.gathering import read_row_sets
from fleet.exchange.outcome import Result
from fleet.exchange.progress import Progress, silent

RowSets = dict[str, list[dict[str, str]]]
CHECK_CODES = {"condenser_coil", "drain", "door_gasket"}
SYSTEM = {"customer": "ALDER", "site": "Ridge Street", "system": "WC-2"}
SITE = {"customer": "ALDER", "site": "Ridge Street"}


@dataclass(frozen=True)
class Importer:
    """Imports rows into one register."""

    engine: Engine
    path: Path

    def load(self, rows: RowSets, *, dry_run: bool = False, progress: Progress = silent) -> Result:
        return import_gathered(
            self.engine,
            read_row_sets(rows),
            check_codes=CHECK_CODES,
            by=None,
            today=date(2026, 11, 25),
            now=datetime(2026, 11, 25, 12, 0),
            dry_run=dry_run,
            progress=progress,
        )

    def refused(self, rows: RowSets) -> list[str]:
        """Import what must be refused, and return the sentences."""
        before = self.dump()
        try:
            self.load(rows)
        except ImportRefusedError as error:
            assert self.dump() == before
            return [str(problem) for problem in error.problems]
        raise AssertionError("the import was not refused")

    def dump(self) -> list[str]:
        """Return the whole register as SQL."""
        with sqlite3.connect(self.path) as connection:
            return list(connection.iterdump())

    def one(self, sql: str) -> Any:
        """Return the first value of a query."""
        return self.rows(sql)[0][0]

    def rows(self, sql: str) -> list[tuple[Any, ...]]:
        with sqlite3.connect(self.path) as connection:
            return connection.execute(sql).fetchall()

    def content(self) -> dict[str, list[str]]:
        """Return every row with tags in place of numbers, sorted: what people recorded, in no order."""
        with sqlite3.connect(self.path) as connection:
            connection.row_factory = sqlite3.Row
            return _content(connection)


def _content(connection: sqlite3.Connection) -> dict[str, list[str]]:
    names: dict[str, dict[int, str]] = {"person_id": {}, "customer_id": {}, "site_id": {}, "system_id": {}}
    people = connection.execute("SELECT id, person FROM people")
    names["by_id"] = {row["id"]: row["person"] for row in people}
    names["account_manager_id"] = names["recorded_by_id"] = names["done_by_id"] = names["by_id"]
    tables = ("people", "customers", "sites", "systems", "boxes", "compressors", "setting_records")
    found = {}
    for table in (*tables, "events", "check_records", "current_settings", "current_checks"):
        rows = []
        for row in connection.execute(f"SELECT * FROM {table}"):
            named = {name: names.get(name, {}).get(value, value) for name, value in dict(row).items()}
            if table in ("customers", "sites", "systems"):
                tag = table.removesuffix("s")
                parent = {"sites": "customer_id", "systems": "site_id"}.get(table)
                above = f"{named[parent]} / " if parent else ""
                names[f"{tag}_id"][row["id"]] = above + str(row[tag])
            for number in ("id", "act_id", "input_version"):
                named.pop(number, None)
            rows.append(repr(sorted(named.items(), key=lambda item: item[0])))
        found[table] = sorted(rows)
    return found


def example() -> RowSets:
    """Return one row of each kind that fit together, as new dictionaries."""
    rows = {kind.name: [{column.name: column.example for column in kind.columns}] for kind in FILES}
    rows["people"].append({**rows["people"][0], "person": "E. Ruiz"})
    return rows


def write(folder: Path, name: str, rows: Sequence[Mapping[str, str]], **options: Any) -> Path:
    """Write rows as the csv module of Python writes them."""
    path = folder / name
    with path.open("w", newline="", encoding=options.pop("encoding", "utf-8")) as stream:
        writer = csv.DictWriter(stream, list(rows[0]), **options)
        writer.writeheader()
        writer.writerows(rows)
    return path
