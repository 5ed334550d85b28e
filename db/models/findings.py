"""Findings, as audits rebuild them, and when each was first seen."""

from datetime import date

from sqlalchemy import Date, Float, ForeignKey, Index, Integer, String
from sqlalchemy.orm import Mapped, mapped_column

from db.models.base import Base, DayNumber, Prose, Quantity, Word, Words

# The last column makes the indexes answer alone which findings hold on a day.
_BY_WORST = ("severity", "far", "system_id", "part", "rule", "setting", "from_day", "until_day")
_BY_RULE = ("rule", "severity", "far", "system_id", "part", "setting", "from_day", "until_day")


class Finding(Base):
    """One judged setting, check or compressor; codes and figures only, no sentence."""

    __tablename__ = "findings"
    __table_args__ = (
        Index("ix_findings_worst", *_BY_WORST),
        Index("ix_findings_customer", "customer_id", *_BY_WORST),
        Index("ix_findings_site", "site_id", *_BY_WORST),
        Index("ix_findings_rule", *_BY_RULE),
        Index("ix_findings_refrigerant", "refrigerant", "strategy", *_BY_WORST),
        Index("ix_findings_strategy", "strategy", *_BY_RULE),
        {"sqlite_with_rowid": False},
    )

    system_id: Mapped[int] = mapped_column(ForeignKey("systems.id"), primary_key=True, autoincrement=False)
    part: Mapped[str] = mapped_column(String(100), primary_key=True)
    rule: Mapped[str] = mapped_column(String(60), primary_key=True)
    setting: Mapped[str] = mapped_column(String(60), primary_key=True)
    from_day: Mapped[int] = mapped_column(Integer, primary_key=True, autoincrement=False)
    until_day: Mapped[DayNumber]
    severity: Mapped[int] = mapped_column(Integer)
    far: Mapped[float] = mapped_column(Float)
    """Minus the distance outside the window, so that the farthest sorts first."""
    verdict: Mapped[Word]
    recorded: Mapped[Quantity]
    low: Mapped[Quantity]
    high: Mapped[Quantity]
    preferred: Mapped[Quantity]
    out_by: Mapped[Quantity]
    out_by_saturation_k: Mapped[Quantity]
    low_code: Mapped[Words]
    high_code: Mapped[Words]
    detail: Mapped[Prose]
    """Codes that the sentence is made of."""
    also: Mapped[Prose]
    """Codes of what else the same act settles."""
    customer_id: Mapped[int] = mapped_column(Integer)
    site_id: Mapped[int] = mapped_column(Integer)
    refrigerant: Mapped[Words]
    strategy: Mapped[Words]


class FirstSeen(Base):
    """The day on which an audit first saw a finding; a rebuild only adds to it."""

    __tablename__ = "first_seen"
    __table_args__ = ({"sqlite_with_rowid": False},)

    system_id: Mapped[int] = mapped_column(ForeignKey("systems.id"), primary_key=True, autoincrement=False)
    part: Mapped[str] = mapped_column(String(100), primary_key=True)
    rule: Mapped[str] = mapped_column(String(60), primary_key=True)
    setting: Mapped[str] = mapped_column(String(60), primary_key=True)
    first_seen: Mapped[date] = mapped_column(Date)
