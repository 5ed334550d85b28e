"""Who did what, and what stood there before."""

from datetime import datetime
from typing import Any

from sqlalchemy import JSON, DateTime, ForeignKey, Index, String
from sqlalchemy.orm import Mapped, mapped_column

from db.models.base import Base, Id, Label, PersonId, Prose


class Act(Base):
    """One committed piece of work by one person."""

    __tablename__ = "acts"

    id: Mapped[Id]
    at: Mapped[datetime] = mapped_column(DateTime)
    by_id: Mapped[PersonId]
    what: Mapped[Label]
    note: Mapped[Prose]
    undoes_id: Mapped[int | None] = mapped_column(ForeignKey("acts.id"))


class Change(Base):
    """What an act changed in one row: the values before and after."""

    __tablename__ = "changes"
    __table_args__ = (Index(None, "table", "row_id"), Index(None, "act_id"))

    id: Mapped[Id]
    act_id: Mapped[int] = mapped_column(ForeignKey("acts.id"))
    table: Mapped[str] = mapped_column(String(40))
    row_id: Mapped[str] = mapped_column(String(80))
    before: Mapped[dict[str, Any]] = mapped_column(JSON)
    after: Mapped[dict[str, Any]] = mapped_column(JSON)
