"""What happened: settings, events and checks as appended records, and what follows from them."""

from datetime import date

from sqlalchemy import ForeignKey, Index, Integer, String, UniqueConstraint
from sqlalchemy.orm import Mapped, mapped_column

from db.models.base import (
    ActId,
    Base,
    Codes,
    Day,
    DayNumber,
    Id,
    Moment,
    Part,
    PersonId,
    Prose,
    Quantity,
    Tag,
    Typed,
    Word,
    Words,
)
from db.models.versioned import Versioned

_WITHOUT_ROWID = {"sqlite_with_rowid": False}


class SettingRecord(Base):
    """A setting as it was found or left; appended, never changed.

    A record without a value withdraws what stood before it; one without a day comes before every
    dated record. A pressure is kept as the control's own scale shows it, whatever was typed.
    """

    __tablename__ = "setting_records"
    __table_args__ = (Index(None, "system_id", "part", "setting", "recorded_on", "stage", "id"),)

    id: Mapped[Id]
    system_id: Mapped[int] = mapped_column(ForeignKey("systems.id"))
    part: Mapped[Part]
    setting: Mapped[Word]
    value_si: Mapped[Quantity]
    dimension: Mapped[str] = mapped_column(String(40), default="")
    """The dimension that was typed; empty for a count."""
    typed: Mapped[str] = mapped_column(String(60), default="")
    stage: Mapped[Word]
    recorded_on: Mapped[Day]
    recorded_by_id: Mapped[PersonId]
    confirmed: Mapped[Words]
    note: Mapped[Prose]
    act_id: Mapped[ActId]


class CurrentSettings(Base):
    """The latest settings of one part; recomputed from the records, never edited."""

    __tablename__ = "current_settings"
    __table_args__ = _WITHOUT_ROWID

    system_id: Mapped[int] = mapped_column(ForeignKey("systems.id"), primary_key=True, autoincrement=False)
    part: Mapped[str] = mapped_column(String(100), primary_key=True)
    low_pressure_cut_in_pa_gauge: Mapped[Quantity]
    low_pressure_cut_out_pa_gauge: Mapped[Quantity]
    low_pressure_differential_pa: Mapped[Quantity]
    high_pressure_cut_out_pa_gauge: Mapped[Quantity]
    head_pressure_hold_k: Mapped[Quantity]
    head_pressure_hold_pa_gauge: Mapped[Quantity]
    fan_cycle_differential_pa: Mapped[Quantity]
    minimum_off_s: Mapped[Quantity]
    group_suction_pa_gauge: Mapped[Quantity]
    regulator_setting_pa_gauge: Mapped[Quantity]
    setpoint_k: Mapped[Quantity]
    differential_k: Mapped[Quantity]
    defrosts_per_day: Mapped[Quantity]
    defrost_duration_s: Mapped[Quantity]
    defrost_failsafe_s: Mapped[Quantity]
    defrost_termination_k: Mapped[Quantity]
    fan_delay_k: Mapped[Quantity]
    fan_delay_s: Mapped[Quantity]
    drip_time_s: Mapped[Quantity]
    alarm_low_k: Mapped[Quantity]
    alarm_high_k: Mapped[Quantity]
    alarm_delay_s: Mapped[Quantity]


class Event(Versioned, Base):
    """A call, a repair, a change: what happened to a system, or to a site as a whole."""

    __tablename__ = "events"
    __table_args__ = (
        UniqueConstraint("reference"),
        Index(None, "system_id", "happened_on"),
        Index(None, "site_id", "happened_on"),
    )

    id: Mapped[Id]
    site_id: Mapped[int] = mapped_column(ForeignKey("sites.id"))
    system_id: Mapped[int | None] = mapped_column(ForeignKey("systems.id"))
    reference: Mapped[Tag]
    part: Mapped[Part]
    kind: Mapped[Word]
    happened_on: Mapped[date]
    called_at: Mapped[Moment]
    arrived_at: Mapped[Moment]
    restored_at: Mapped[Moment]
    recorded_by_id: Mapped[PersonId]
    compressor_serial: Mapped[Prose]
    note: Mapped[Prose]
    evidence: Mapped[Codes]
    refrigerant_from: Mapped[Words]
    refrigerant_to: Mapped[Words]
    labour: Mapped[Quantity]
    parts: Mapped[Quantity]
    cost: Mapped[Quantity]
    currency: Mapped[Prose]
    product_lost: Mapped[Quantity]
    typed: Mapped[Typed]
    act_id: Mapped[ActId]


class CheckRecord(Base):
    """A preventive check as it was done or waived; appended, never changed."""

    __tablename__ = "check_records"
    __table_args__ = (Index(None, "system_id", "part", "check_code", "done_on", "id"),)

    id: Mapped[Id]
    system_id: Mapped[int] = mapped_column(ForeignKey("systems.id"))
    part: Mapped[Part]
    check_code: Mapped[Tag]
    done_on: Mapped[date]
    done_by_id: Mapped[PersonId]
    result: Mapped[Word]
    reason: Mapped[Prose]
    until: Mapped[Day]
    found: Mapped[Words]
    minutes_s: Mapped[Quantity]
    typed: Mapped[Typed]
    act_id: Mapped[ActId]


class CurrentCheck(Base):
    """When a check was last done, and until when it is waived; recomputed from the records."""

    __tablename__ = "current_checks"
    __table_args__ = _WITHOUT_ROWID

    system_id: Mapped[int] = mapped_column(ForeignKey("systems.id"), primary_key=True, autoincrement=False)
    part: Mapped[str] = mapped_column(String(100), primary_key=True)
    check_code: Mapped[str] = mapped_column(String(80), primary_key=True)
    last_done_day: Mapped[DayNumber]
    waived_until_day: Mapped[DayNumber]


class CheckDefinition(Versioned, Base):
    """A check of the catalogue as this company has changed it; without a row the catalogue holds."""

    __tablename__ = "check_definitions"

    code: Mapped[str] = mapped_column(String(80), primary_key=True)
    what: Mapped[Prose]
    who: Mapped[Words]
    months: Mapped[int | None] = mapped_column(Integer)
    months_self_contained: Mapped[int | None] = mapped_column(Integer)
    months_display_case: Mapped[int | None] = mapped_column(Integer)
    months_freezer: Mapped[int | None] = mapped_column(Integer)
    season: Mapped[Prose]
    minutes: Mapped[int | None] = mapped_column(Integer)
    minutes_self_contained: Mapped[int | None] = mapped_column(Integer)
    skills: Mapped[Codes]
    applies: Mapped[Prose]
    tolerance_days: Mapped[int | None] = mapped_column(Integer)
