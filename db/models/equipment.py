"""Systems, boxes and compressors."""

from sqlalchemy import ForeignKey, Index, Integer, UniqueConstraint, text
from sqlalchemy.orm import Mapped, mapped_column, relationship

from db.models.base import Base, Codes, Day, DayNumber, Flag, Id, Prose, Quantity, Tag, Typed, Whole, Words
from db.models.places import Site
from db.models.versioned import Versioned

_CHANGED = text("input_version <> audited_version")


class System(Versioned, Base):
    """One refrigerant circuit."""

    __tablename__ = "systems"
    __table_args__ = (
        UniqueConstraint("site_id", "system"),
        Index("ix_systems_changed", "id", sqlite_where=_CHANGED, postgresql_where=_CHANGED),
        Index("ix_systems_audited_through", "audited_through", "id"),
    )

    id: Mapped[Id]
    site_id: Mapped[int] = mapped_column(ForeignKey("sites.id"))
    system: Mapped[Tag]
    name: Mapped[Prose]
    form: Mapped[Words]
    make: Mapped[Prose]
    model: Mapped[Prose]
    serial: Mapped[Prose]
    installed: Mapped[Day]
    warranty_until: Mapped[Day]
    manual_note: Mapped[Prose]
    status: Mapped[Words]
    voltage_v: Mapped[Quantity]
    phases: Mapped[Whole]
    end_use: Mapped[Words]
    grease: Mapped[Flag]
    fitted: Mapped[Codes]
    refrigerant: Mapped[Words]
    refrigerant_since: Mapped[Day]
    charge_kg: Mapped[Quantity]
    charge_source: Mapped[Words]
    charge_low_kg: Mapped[Quantity]
    charge_high_kg: Mapped[Quantity]
    pump_down_charge_kg: Mapped[Quantity]
    critically_charged: Mapped[Flag]
    sealed_labelled: Mapped[Flag]
    leak_detection: Mapped[Words]
    detection_calibrated: Mapped[Day]
    strategy: Mapped[Words]
    low_pressure_control: Mapped[Words]
    low_pressure_sensor: Mapped[Words]
    high_pressure_sensor: Mapped[Words]
    low_pressure_reset: Mapped[Words]
    high_pressure_reset: Mapped[Words]
    solenoid: Mapped[Words]
    hold_test: Mapped[Words]
    hold_settle_pa: Mapped[Quantity]
    hold_rise_pa_per_s: Mapped[Quantity]
    start_delay: Mapped[Words]
    start_delay_time_s: Mapped[Quantity]
    run_hours_per_day: Mapped[Quantity]
    starts_per_hour: Mapped[Quantity]
    power_off_at_rest: Mapped[Flag]
    season_from: Mapped[Prose]
    season_to: Mapped[Prose]
    placement: Mapped[Words]
    room_low_k: Mapped[Quantity]
    room_high_k: Mapped[Quantity]
    wind: Mapped[Words]
    receiver_place: Mapped[Words]
    receiver_heater: Mapped[Words]
    receiver_hold_k: Mapped[Quantity]
    receiver_insulated: Mapped[Flag]
    check_valve: Mapped[Flag]
    coil_above_receiver_m: Mapped[Quantity]
    unit_above_coil_m: Mapped[Quantity]
    line_length_m: Mapped[Quantity]
    line_place: Mapped[Words]
    line_loss_k: Mapped[Quantity]
    accumulator: Mapped[Flag]
    suction_limiter: Mapped[Flag]
    typed: Mapped[Typed]
    input_version: Mapped[int] = mapped_column(Integer, default=1, server_default="1")
    """Rises with every change of anything that a finding of this system depends on."""
    audited_version: Mapped[int] = mapped_column(Integer, default=0, server_default="0")
    """The input version that the stored findings were computed from."""
    audited_through: Mapped[DayNumber]
    """The last day for which the stored findings hold."""

    of_site: Mapped[Site] = relationship(back_populates="systems")
    boxes: Mapped[list["Box"]] = relationship(back_populates="of_system")
    compressors: Mapped[list["Compressor"]] = relationship(back_populates="of_system")


class Box(Versioned, Base):
    """What is cooled."""

    __tablename__ = "boxes"
    __table_args__ = (UniqueConstraint("system_id", "box"),)

    id: Mapped[Id]
    system_id: Mapped[int] = mapped_column(ForeignKey("systems.id"))
    box: Mapped[Tag]
    name: Mapped[Prose]
    kind: Mapped[Words]
    suction_group: Mapped[Prose]
    stored: Mapped[Words]
    make: Mapped[Prose]
    model: Mapped[Prose]
    serial: Mapped[Prose]
    installed: Mapped[Day]
    volume_m3: Mapped[Quantity]
    lowest_temperature_k: Mapped[Quantity]
    td_k: Mapped[Quantity]
    td_low_k: Mapped[Quantity]
    td_high_k: Mapped[Quantity]
    td_basis: Mapped[Words]
    td_source: Mapped[Words]
    thermostat_scale: Mapped[Words]
    sensor_allowance_k: Mapped[Quantity]
    surroundings: Mapped[Words]
    surroundings_low_k: Mapped[Quantity]
    surroundings_high_k: Mapped[Quantity]
    expansion_valve: Mapped[Words]
    closes_at_stop: Mapped[Flag]
    closes_without_power: Mapped[Flag]
    mop_pa_gauge: Mapped[Quantity]
    regulator: Mapped[Words]
    defrost_method: Mapped[Words]
    thermostat_senses: Mapped[Words]
    defrost_control: Mapped[Words]
    fans: Mapped[Words]
    doors: Mapped[Words]
    traffic: Mapped[Words]
    typed: Mapped[Typed]

    of_system: Mapped[System] = relationship(back_populates="boxes")


class Compressor(Versioned, Base):
    """One life of a compressor in a system."""

    __tablename__ = "compressors"
    __table_args__ = (
        UniqueConstraint("system_id", "position", "in_service"),
        Index(None, "reason_out", "system_id"),
    )

    id: Mapped[Id]
    system_id: Mapped[int] = mapped_column(ForeignKey("systems.id"))
    position: Mapped[int] = mapped_column(Integer, default=1)
    kind: Mapped[Words]
    make: Mapped[Prose]
    model: Mapped[Prose]
    serial: Mapped[Prose]
    lowest_suction_pa_abs: Mapped[Quantity]
    charge_limit_kg: Mapped[Quantity]
    oil_glass: Mapped[Flag]
    external_check_valve: Mapped[Flag]
    injection: Mapped[Words]
    crankcase_heater: Mapped[Words]
    heater_watts_w: Mapped[Quantity]
    in_service: Mapped[Day]
    out_of_service: Mapped[Day]
    reason_out: Mapped[Words]
    shell_area_m2: Mapped[Quantity]
    size: Mapped[Words]
    warranty_until: Mapped[Day]
    typed: Mapped[Typed]

    of_system: Mapped[System] = relationship(back_populates="compressors")
