"""The first register."""

from typing import Any

import sqlalchemy as sa
from alembic import op

revision = "0001"
down_revision = None
branch_labels = None
depends_on = None


def _nullable(kind: Any, names: str) -> list[sa.Column[Any]]:
    return [sa.Column(name, kind) for name in names.split()]


def upgrade() -> None:
    _create_check_definitions()
    _create_people()
    _create_acts()
    _create_customers()
    _create_changes()
    _create_sites()
    _create_systems()
    _create_boxes()
    _create_check_records()
    _create_compressors()
    _create_current_checks()
    _create_current_settings()
    _create_events()
    _create_findings()
    _create_first_seen()
    _create_setting_records()


def downgrade() -> None:
    for table in reversed(_TABLES):
        op.drop_table(table)


_TABLES = (
    "check_definitions",
    "people",
    "acts",
    "customers",
    "changes",
    "sites",
    "systems",
    "boxes",
    "check_records",
    "compressors",
    "current_checks",
    "current_settings",
    "events",
    "findings",
    "first_seen",
    "setting_records",
)


def _create_check_definitions() -> None:
    op.create_table(
        "check_definitions",
        sa.Column("code", sa.String(length=80), nullable=False),
        sa.Column("what", sa.Text()),
        sa.Column("who", sa.String(length=40)),
        sa.Column("months", sa.Integer()),
        sa.Column("months_self_contained", sa.Integer(), nullable=True),
        sa.Column("months_display_case", sa.Integer(), nullable=True),
        sa.Column("months_freezer", sa.Integer(), nullable=True),
        sa.Column("season", sa.Text()),
        sa.Column("minutes", sa.Integer()),
        sa.Column("minutes_self_contained", sa.Integer(), nullable=True),
        *_nullable(sa.Text(), "skills applies"),
        sa.Column("tolerance_days", sa.Integer()),
        sa.Column("version", sa.Integer(), server_default="1", nullable=False),
        sa.PrimaryKeyConstraint("code", name="pk_check_definitions"),
    )


def _create_people() -> None:
    op.create_table(
        "people",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("person", sa.String(length=80), nullable=False),
        sa.Column("name", sa.Text()),
        sa.Column("role", sa.String(length=40), nullable=False),
        *_nullable(sa.Text(), "phone email"),
        sa.Column("version", sa.Integer(), server_default="1", nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_people"),
        sa.UniqueConstraint("person", name="uq_people_person"),
    )


def _create_acts() -> None:
    op.create_table(
        "acts",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("at", sa.DateTime(), nullable=False),
        sa.Column("by_id", sa.Integer()),
        sa.Column("what", sa.String(length=200), nullable=False),
        sa.Column("note", sa.Text()),
        sa.Column("undoes_id", sa.Integer()),
        sa.ForeignKeyConstraint(["by_id"], ["people.id"], name="fk_acts_by_id_people"),
        sa.ForeignKeyConstraint(["undoes_id"], ["acts.id"], name="fk_acts_undoes_id_acts"),
        sa.PrimaryKeyConstraint("id", name="pk_acts"),
    )


def _create_customers() -> None:
    op.create_table(
        "customers",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("customer", sa.String(length=80), nullable=False),
        sa.Column("name", sa.String(length=200), nullable=False),
        *_nullable(sa.Text(), "contact phone email"),
        sa.Column("account_manager_id", sa.Integer()),
        *_nullable(sa.Date(), "review_due records_since"),
        sa.Column("note", sa.Text()),
        sa.Column("version", sa.Integer(), server_default="1", nullable=False),
        sa.ForeignKeyConstraint(
            ["account_manager_id"], ["people.id"], name="fk_customers_account_manager_id_people"
        ),
        sa.PrimaryKeyConstraint("id", name="pk_customers"),
        sa.UniqueConstraint("customer", name="uq_customers_customer"),
    )
    op.create_index("ix_customers_name", "customers", ["name", "id"])


def _create_changes() -> None:
    op.create_table(
        "changes",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("act_id", sa.Integer(), nullable=False),
        sa.Column("table", sa.String(length=40), nullable=False),
        sa.Column("row_id", sa.String(length=80), nullable=False),
        sa.Column("before", sa.JSON(), nullable=False),
        sa.Column("after", sa.JSON(), nullable=False),
        sa.ForeignKeyConstraint(["act_id"], ["acts.id"], name="fk_changes_act_id_acts"),
        sa.PrimaryKeyConstraint("id", name="pk_changes"),
    )
    op.create_index("ix_changes_act_id", "changes", ["act_id"])
    op.create_index("ix_changes_table", "changes", ["table", "row_id"])


def _create_sites() -> None:
    op.create_table(
        "sites",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("customer_id", sa.Integer(), nullable=False),
        sa.Column("site", sa.String(length=80), nullable=False),
        *_nullable(sa.Text(), "name address"),
        *_nullable(sa.Float(), "latitude longitude elevation_m"),
        sa.Column("time_zone", sa.Text()),
        sa.Column("jurisdiction", sa.String(length=40)),
        sa.Column("climate", sa.Text()),
        *_nullable(
            sa.Float(),
            "high_1_k high_2_k high_3_k high_4_k high_5_k high_6_k high_7_k high_8_k high_9_k "
            "high_10_k high_11_k high_12_k low_1_k low_2_k low_3_k low_4_k low_5_k low_6_k "
            "low_7_k low_8_k low_9_k low_10_k low_11_k low_12_k design_cold_k extreme_cold_k "
            "design_hot_k day_spread_winter_k day_spread_summer_k",
        ),
        *_nullable(sa.Text(), "contact phone access_note"),
        sa.Column("call_before", sa.String(length=40)),
        *_nullable(
            sa.Text(), "access_mon access_tue access_wed access_thu access_fri access_sat access_sun closed"
        ),
        sa.Column("leak_method", sa.String(length=40)),
        sa.Column("typed", sa.JSON(), nullable=False),
        sa.Column("version", sa.Integer(), server_default="1", nullable=False),
        sa.ForeignKeyConstraint(["customer_id"], ["customers.id"], name="fk_sites_customer_id_customers"),
        sa.PrimaryKeyConstraint("id", name="pk_sites"),
        sa.UniqueConstraint("customer_id", "site", name="uq_sites_customer_id_site"),
    )


def _create_systems() -> None:
    op.create_table(
        "systems",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("site_id", sa.Integer(), nullable=False),
        sa.Column("system", sa.String(length=80), nullable=False),
        sa.Column("name", sa.Text()),
        sa.Column("form", sa.String(length=40)),
        *_nullable(sa.Text(), "make model serial"),
        *_nullable(sa.Date(), "installed warranty_until"),
        sa.Column("manual_note", sa.Text()),
        sa.Column("status", sa.String(length=40)),
        sa.Column("voltage_v", sa.Float()),
        sa.Column("phases", sa.Integer()),
        sa.Column("end_use", sa.String(length=40)),
        sa.Column("grease", sa.Boolean()),
        sa.Column("fitted", sa.Text()),
        sa.Column("refrigerant", sa.String(length=40)),
        sa.Column("refrigerant_since", sa.Date()),
        sa.Column("charge_kg", sa.Float()),
        sa.Column("charge_source", sa.String(length=40)),
        *_nullable(sa.Float(), "charge_low_kg charge_high_kg pump_down_charge_kg"),
        *_nullable(sa.Boolean(), "critically_charged sealed_labelled"),
        sa.Column("leak_detection", sa.String(length=40)),
        sa.Column("detection_calibrated", sa.Date()),
        *_nullable(
            sa.String(length=40),
            "strategy low_pressure_control low_pressure_sensor high_pressure_sensor "
            "low_pressure_reset high_pressure_reset solenoid hold_test",
        ),
        *_nullable(sa.Float(), "hold_settle_pa hold_rise_pa_per_s"),
        sa.Column("start_delay", sa.String(length=40)),
        *_nullable(sa.Float(), "start_delay_time_s run_hours_per_day starts_per_hour"),
        sa.Column("power_off_at_rest", sa.Boolean()),
        *_nullable(sa.Text(), "season_from season_to"),
        sa.Column("placement", sa.String(length=40)),
        *_nullable(sa.Float(), "room_low_k room_high_k"),
        *_nullable(sa.String(length=40), "wind receiver_place receiver_heater"),
        sa.Column("receiver_hold_k", sa.Float()),
        *_nullable(sa.Boolean(), "receiver_insulated check_valve"),
        *_nullable(sa.Float(), "coil_above_receiver_m unit_above_coil_m line_length_m"),
        sa.Column("line_place", sa.String(length=40)),
        sa.Column("line_loss_k", sa.Float()),
        *_nullable(sa.Boolean(), "accumulator suction_limiter"),
        sa.Column("typed", sa.JSON(), nullable=False),
        sa.Column("input_version", sa.Integer(), server_default="1", nullable=False),
        sa.Column("audited_version", sa.Integer(), server_default="0", nullable=False),
        sa.Column("audited_through", sa.Integer()),
        sa.Column("version", sa.Integer(), server_default="1", nullable=False),
        sa.ForeignKeyConstraint(["site_id"], ["sites.id"], name="fk_systems_site_id_sites"),
        sa.PrimaryKeyConstraint("id", name="pk_systems"),
        sa.UniqueConstraint("site_id", "system", name="uq_systems_site_id_system"),
    )
    op.create_index("ix_systems_audited_through", "systems", ["audited_through", "id"])
    op.create_index(
        "ix_systems_changed",
        "systems",
        ["id"],
        sqlite_where=sa.text("input_version <> audited_version"),
        postgresql_where=sa.text("input_version <> audited_version"),
    )


def _create_boxes() -> None:
    op.create_table(
        "boxes",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("system_id", sa.Integer(), nullable=False),
        sa.Column("box", sa.String(length=80), nullable=False),
        sa.Column("name", sa.Text()),
        sa.Column("kind", sa.String(length=40)),
        sa.Column("suction_group", sa.Text()),
        sa.Column("stored", sa.String(length=40)),
        *_nullable(sa.Text(), "make model serial"),
        sa.Column("installed", sa.Date()),
        *_nullable(sa.Float(), "volume_m3 lowest_temperature_k td_k td_low_k td_high_k"),
        *_nullable(sa.String(length=40), "td_basis td_source thermostat_scale"),
        sa.Column("sensor_allowance_k", sa.Float()),
        sa.Column("surroundings", sa.String(length=40)),
        *_nullable(sa.Float(), "surroundings_low_k surroundings_high_k"),
        sa.Column("expansion_valve", sa.String(length=40)),
        *_nullable(sa.Boolean(), "closes_at_stop closes_without_power"),
        sa.Column("mop_pa_gauge", sa.Float()),
        *_nullable(
            sa.String(length=40),
            "regulator defrost_method thermostat_senses defrost_control fans doors traffic",
        ),
        sa.Column("typed", sa.JSON(), nullable=False),
        sa.Column("version", sa.Integer(), server_default="1", nullable=False),
        sa.ForeignKeyConstraint(["system_id"], ["systems.id"], name="fk_boxes_system_id_systems"),
        sa.PrimaryKeyConstraint("id", name="pk_boxes"),
        sa.UniqueConstraint("system_id", "box", name="uq_boxes_system_id_box"),
    )


def _create_check_records() -> None:
    op.create_table(
        "check_records",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("system_id", sa.Integer(), nullable=False),
        sa.Column("part", sa.String(length=100), nullable=False),
        sa.Column("check_code", sa.String(length=80), nullable=False),
        sa.Column("done_on", sa.Date(), nullable=False),
        sa.Column("done_by_id", sa.Integer()),
        sa.Column("result", sa.String(length=40), nullable=False),
        sa.Column("reason", sa.Text()),
        sa.Column("until", sa.Date()),
        sa.Column("found", sa.String(length=40)),
        sa.Column("minutes_s", sa.Float()),
        sa.Column("typed", sa.JSON(), nullable=False),
        sa.Column("act_id", sa.Integer()),
        sa.ForeignKeyConstraint(["act_id"], ["acts.id"], name="fk_check_records_act_id_acts"),
        sa.ForeignKeyConstraint(["done_by_id"], ["people.id"], name="fk_check_records_done_by_id_people"),
        sa.ForeignKeyConstraint(["system_id"], ["systems.id"], name="fk_check_records_system_id_systems"),
        sa.PrimaryKeyConstraint("id", name="pk_check_records"),
    )
    op.create_index(
        "ix_check_records_system_id", "check_records", ["system_id", "part", "check_code", "done_on", "id"]
    )


def _create_compressors() -> None:
    op.create_table(
        "compressors",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("system_id", sa.Integer(), nullable=False),
        sa.Column("position", sa.Integer(), nullable=False),
        sa.Column("kind", sa.String(length=40)),
        *_nullable(sa.Text(), "make model serial"),
        *_nullable(sa.Float(), "lowest_suction_pa_abs charge_limit_kg"),
        *_nullable(sa.Boolean(), "oil_glass external_check_valve"),
        *_nullable(sa.String(length=40), "injection crankcase_heater"),
        sa.Column("heater_watts_w", sa.Float()),
        *_nullable(sa.Date(), "in_service out_of_service"),
        sa.Column("reason_out", sa.String(length=40)),
        sa.Column("shell_area_m2", sa.Float()),
        sa.Column("size", sa.String(length=40)),
        sa.Column("warranty_until", sa.Date()),
        sa.Column("typed", sa.JSON(), nullable=False),
        sa.Column("version", sa.Integer(), server_default="1", nullable=False),
        sa.ForeignKeyConstraint(["system_id"], ["systems.id"], name="fk_compressors_system_id_systems"),
        sa.PrimaryKeyConstraint("id", name="pk_compressors"),
        sa.UniqueConstraint(
            "system_id", "position", "in_service", name="uq_compressors_system_id_position_in_service"
        ),
    )
    op.create_index("ix_compressors_reason_out", "compressors", ["reason_out", "system_id"])


def _create_current_checks() -> None:
    op.create_table(
        "current_checks",
        sa.Column("system_id", sa.Integer(), autoincrement=False, nullable=False),
        sa.Column("part", sa.String(length=100), nullable=False),
        sa.Column("check_code", sa.String(length=80), nullable=False),
        *_nullable(sa.Integer(), "last_done_day waived_until_day"),
        sa.ForeignKeyConstraint(["system_id"], ["systems.id"], name="fk_current_checks_system_id_systems"),
        sa.PrimaryKeyConstraint("system_id", "part", "check_code", name="pk_current_checks"),
        sqlite_with_rowid=False,
    )


def _create_current_settings() -> None:
    op.create_table(
        "current_settings",
        sa.Column("system_id", sa.Integer(), autoincrement=False, nullable=False),
        sa.Column("part", sa.String(length=100), nullable=False),
        *_nullable(
            sa.Float(),
            "low_pressure_cut_in_pa_gauge low_pressure_cut_out_pa_gauge "
            "low_pressure_differential_pa high_pressure_cut_out_pa_gauge head_pressure_hold_k "
            "head_pressure_hold_pa_gauge fan_cycle_differential_pa minimum_off_s "
            "group_suction_pa_gauge regulator_setting_pa_gauge setpoint_k differential_k "
            "defrosts_per_day defrost_duration_s defrost_failsafe_s defrost_termination_k "
            "fan_delay_k fan_delay_s drip_time_s alarm_low_k alarm_high_k alarm_delay_s",
        ),
        sa.ForeignKeyConstraint(["system_id"], ["systems.id"], name="fk_current_settings_system_id_systems"),
        sa.PrimaryKeyConstraint("system_id", "part", name="pk_current_settings"),
        sqlite_with_rowid=False,
    )


def _create_events() -> None:
    op.create_table(
        "events",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("site_id", sa.Integer(), nullable=False),
        sa.Column("system_id", sa.Integer()),
        sa.Column("reference", sa.String(length=80), nullable=False),
        sa.Column("part", sa.String(length=100), nullable=False),
        sa.Column("kind", sa.String(length=40), nullable=False),
        sa.Column("happened_on", sa.Date(), nullable=False),
        *_nullable(sa.DateTime(), "called_at arrived_at restored_at"),
        sa.Column("recorded_by_id", sa.Integer()),
        *_nullable(sa.Text(), "compressor_serial note evidence"),
        *_nullable(sa.String(length=40), "refrigerant_from refrigerant_to"),
        *_nullable(sa.Float(), "labour parts cost"),
        sa.Column("currency", sa.Text()),
        sa.Column("product_lost", sa.Float()),
        sa.Column("typed", sa.JSON(), nullable=False),
        sa.Column("act_id", sa.Integer()),
        sa.Column("version", sa.Integer(), server_default="1", nullable=False),
        sa.ForeignKeyConstraint(["act_id"], ["acts.id"], name="fk_events_act_id_acts"),
        sa.ForeignKeyConstraint(["recorded_by_id"], ["people.id"], name="fk_events_recorded_by_id_people"),
        sa.ForeignKeyConstraint(["site_id"], ["sites.id"], name="fk_events_site_id_sites"),
        sa.ForeignKeyConstraint(["system_id"], ["systems.id"], name="fk_events_system_id_systems"),
        sa.PrimaryKeyConstraint("id", name="pk_events"),
        sa.UniqueConstraint("reference", name="uq_events_reference"),
    )
    op.create_index("ix_events_site_id", "events", ["site_id", "happened_on"])
    op.create_index("ix_events_system_id", "events", ["system_id", "happened_on"])


def _create_findings() -> None:
    op.create_table(
        "findings",
        sa.Column("system_id", sa.Integer(), autoincrement=False, nullable=False),
        sa.Column("part", sa.String(length=100), nullable=False),
        sa.Column("rule", sa.String(length=60), nullable=False),
        sa.Column("setting", sa.String(length=60), nullable=False),
        sa.Column("from_day", sa.Integer(), autoincrement=False, nullable=False),
        sa.Column("until_day", sa.Integer()),
        sa.Column("severity", sa.Integer(), nullable=False),
        sa.Column("far", sa.Float(), nullable=False),
        sa.Column("verdict", sa.String(length=40), nullable=False),
        *_nullable(sa.Float(), "recorded low high preferred out_by out_by_saturation_k"),
        *_nullable(sa.String(length=40), "low_code high_code"),
        *_nullable(sa.Text(), "detail also"),
        sa.Column("customer_id", sa.Integer(), nullable=False),
        sa.Column("site_id", sa.Integer(), nullable=False),
        *_nullable(sa.String(length=40), "refrigerant strategy"),
        sa.ForeignKeyConstraint(["system_id"], ["systems.id"], name="fk_findings_system_id_systems"),
        sa.PrimaryKeyConstraint("system_id", "part", "rule", "setting", "from_day", name="pk_findings"),
        sqlite_with_rowid=False,
    )
    op.create_index(
        "ix_findings_customer",
        "findings",
        ["customer_id", "severity", "far", "system_id", "part", "rule", "setting", "from_day", "until_day"],
    )
    op.create_index(
        "ix_findings_refrigerant",
        "findings",
        [
            "refrigerant",
            "strategy",
            "severity",
            "far",
            "system_id",
            "part",
            "rule",
            "setting",
            "from_day",
            "until_day",
        ],
    )
    op.create_index(
        "ix_findings_rule",
        "findings",
        ["rule", "severity", "far", "system_id", "part", "setting", "from_day", "until_day"],
    )
    op.create_index(
        "ix_findings_site",
        "findings",
        ["site_id", "severity", "far", "system_id", "part", "rule", "setting", "from_day", "until_day"],
    )
    op.create_index(
        "ix_findings_strategy",
        "findings",
        ["strategy", "rule", "severity", "far", "system_id", "part", "setting", "from_day", "until_day"],
    )
    op.create_index(
        "ix_findings_worst",
        "findings",
        ["severity", "far", "system_id", "part", "rule", "setting", "from_day", "until_day"],
    )


def _create_first_seen() -> None:
    op.create_table(
        "first_seen",
        sa.Column("system_id", sa.Integer(), autoincrement=False, nullable=False),
        sa.Column("part", sa.String(length=100), nullable=False),
        sa.Column("rule", sa.String(length=60), nullable=False),
        sa.Column("setting", sa.String(length=60), nullable=False),
        sa.Column("first_seen", sa.Date(), nullable=False),
        sa.ForeignKeyConstraint(["system_id"], ["systems.id"], name="fk_first_seen_system_id_systems"),
        sa.PrimaryKeyConstraint("system_id", "part", "rule", "setting", name="pk_first_seen"),
        sqlite_with_rowid=False,
    )


def _create_setting_records() -> None:
    op.create_table(
        "setting_records",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("system_id", sa.Integer(), nullable=False),
        sa.Column("part", sa.String(length=100), nullable=False),
        sa.Column("setting", sa.String(length=40), nullable=False),
        sa.Column("value_si", sa.Float()),
        sa.Column("dimension", sa.String(length=40), nullable=False),
        sa.Column("typed", sa.String(length=60), nullable=False),
        sa.Column("stage", sa.String(length=40), nullable=False),
        sa.Column("recorded_on", sa.Date()),
        sa.Column("recorded_by_id", sa.Integer()),
        sa.Column("confirmed", sa.String(length=40)),
        sa.Column("note", sa.Text()),
        sa.Column("act_id", sa.Integer()),
        sa.ForeignKeyConstraint(["act_id"], ["acts.id"], name="fk_setting_records_act_id_acts"),
        sa.ForeignKeyConstraint(
            ["recorded_by_id"], ["people.id"], name="fk_setting_records_recorded_by_id_people"
        ),
        sa.ForeignKeyConstraint(["system_id"], ["systems.id"], name="fk_setting_records_system_id_systems"),
        sa.PrimaryKeyConstraint("id", name="pk_setting_records"),
    )
    op.create_index(
        "ix_setting_records_system_id",
        "setting_records",
        ["system_id", "part", "setting", "recorded_on", "stage", "id"],
    )
