"""Which systems a changed row bears on, and what stood in it before."""

from collections.abc import Iterable
from dataclasses import dataclass, field
from datetime import date, datetime
from typing import Any

from sqlalchemy import inspect
from sqlalchemy.orm import InstanceState

from db.models import (
    Base,
    Box,
    CheckDefinition,
    CheckRecord,
    Compressor,
    Event,
    SettingRecord,
    Site,
    System,
    Versioned,
)

OF_A_SYSTEM = (Box, Compressor, SettingRecord, Event, CheckRecord)
_NOT_TOLD = {"version", "input_version", "audited_version", "audited_through"}


@dataclass(slots=True)
class Touched:
    """The systems whose findings may differ after a piece of work."""

    systems: set[int] = field(default_factory=set)
    sites: set[int] = field(default_factory=set)
    everything: bool = False

    def add(self, row: object) -> None:
        """Note what a new, changed or deleted row bears on."""
        if isinstance(row, System):
            self.systems.add(row.id)
        elif isinstance(row, OF_A_SYSTEM):
            self.systems.update(_values(row, "system_id"))
        elif isinstance(row, Site):
            self.sites.add(row.id)
        elif isinstance(row, CheckDefinition):
            self.everything = True

    def add_rows(self, model: type[Base], rows: Iterable[dict[str, Any]]) -> None:
        """Note what rows that are inserted in bulk bear on."""
        if model in OF_A_SYSTEM:
            self.systems.update(row["system_id"] for row in rows if row.get("system_id") is not None)
        elif model is CheckDefinition:
            self.everything = True

    def clear(self) -> None:
        """Forget what was dealt with."""
        self.systems.clear()
        self.sites.clear()
        self.everything = False


def _values(row: object, name: str) -> set[int]:
    """Return the key that a row has, and the one it had: a moved box bears on both its systems."""
    history = inspect(row, raiseerr=True).attrs[name].history
    return {key for part in history if part for key in part if key is not None}


def change_of(row: object, *, deleted: bool = False) -> tuple[dict[str, Any], dict[str, Any]] | None:
    """Return the values before and after of what changed in a row, None where nothing did."""
    if not isinstance(row, Versioned):
        return None
    state: InstanceState[Any] = inspect(row, raiseerr=True)
    if deleted:
        return {attr.key: plain_value(getattr(row, attr.key)) for attr in state.mapper.column_attrs}, {}
    before: dict[str, Any] = {}
    after: dict[str, Any] = {}
    for attr in state.mapper.column_attrs:
        history = state.attrs[attr.key].history
        if attr.key not in _NOT_TOLD and history.has_changes():
            before[attr.key] = plain_value(history.deleted[0]) if history.deleted else None
            after[attr.key] = plain_value(history.added[0]) if history.added else None
    return (before, after) if after else None


def plain_value(value: Any) -> Any:
    """Return a value as JSON holds it."""
    if isinstance(value, (date, datetime)):
        return value.isoformat()
    return list(value) if isinstance(value, tuple) else value
