-- A register as the first release wrote it, with a row in every table. Never edit: later migrations are tested on it.
PRAGMA application_id = 1129270340;
BEGIN TRANSACTION;
CREATE TABLE acts (
	id INTEGER NOT NULL, 
	at DATETIME NOT NULL, 
	by_id INTEGER, 
	what VARCHAR(200) NOT NULL, 
	note TEXT, 
	undoes_id INTEGER, 
	CONSTRAINT pk_acts PRIMARY KEY (id), 
	CONSTRAINT fk_acts_by_id_people FOREIGN KEY(by_id) REFERENCES people (id), 
	CONSTRAINT fk_acts_undoes_id_acts FOREIGN KEY(undoes_id) REFERENCES acts (id)
);
INSERT INTO "acts" VALUES(1,'2026-11-25 09:30:00.000000',NULL,'add WC-1',NULL,NULL);
INSERT INTO "acts" VALUES(2,'2026-11-25 09:30:00.000000',NULL,'add WC-2',NULL,NULL);
INSERT INTO "acts" VALUES(3,'2026-11-25 09:30:00.000000',1,'visit',NULL,NULL);
CREATE TABLE alembic_version (
	version_num VARCHAR(32) NOT NULL, 
	CONSTRAINT alembic_version_pkc PRIMARY KEY (version_num)
);
INSERT INTO "alembic_version" VALUES('0001');
CREATE TABLE boxes (
	id INTEGER NOT NULL, 
	system_id INTEGER NOT NULL, 
	box VARCHAR(80) NOT NULL, 
	name TEXT, 
	kind VARCHAR(40), 
	suction_group TEXT, 
	stored VARCHAR(40), 
	make TEXT, 
	model TEXT, 
	serial TEXT, 
	installed DATE, 
	volume_m3 FLOAT, 
	lowest_temperature_k FLOAT, 
	td_k FLOAT, 
	td_low_k FLOAT, 
	td_high_k FLOAT, 
	td_basis VARCHAR(40), 
	td_source VARCHAR(40), 
	thermostat_scale VARCHAR(40), 
	sensor_allowance_k FLOAT, 
	surroundings VARCHAR(40), 
	surroundings_low_k FLOAT, 
	surroundings_high_k FLOAT, 
	expansion_valve VARCHAR(40), 
	closes_at_stop BOOLEAN, 
	closes_without_power BOOLEAN, 
	mop_pa_gauge FLOAT, 
	regulator VARCHAR(40), 
	defrost_method VARCHAR(40), 
	thermostat_senses VARCHAR(40), 
	defrost_control VARCHAR(40), 
	fans VARCHAR(40), 
	doors VARCHAR(40), 
	traffic VARCHAR(40), 
	typed JSON NOT NULL, 
	version INTEGER DEFAULT '1' NOT NULL, 
	CONSTRAINT pk_boxes PRIMARY KEY (id), 
	CONSTRAINT fk_boxes_system_id_systems FOREIGN KEY(system_id) REFERENCES systems (id), 
	CONSTRAINT uq_boxes_system_id_box UNIQUE (system_id, box)
);
INSERT INTO "boxes" VALUES(1,1,'B1',NULL,'walk-in-cooler',NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,'{}',1);
INSERT INTO "boxes" VALUES(2,2,'B1',NULL,'walk-in-cooler',NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,'{}',1);
CREATE TABLE changes (
	id INTEGER NOT NULL, 
	act_id INTEGER NOT NULL, 
	"table" VARCHAR(40) NOT NULL, 
	row_id VARCHAR(80) NOT NULL, 
	"before" JSON NOT NULL, 
	"after" JSON NOT NULL, 
	CONSTRAINT pk_changes PRIMARY KEY (id), 
	CONSTRAINT fk_changes_act_id_acts FOREIGN KEY(act_id) REFERENCES acts (id)
);
INSERT INTO "changes" VALUES(1,3,'systems','1','{"name": null}','{"name": "produce cooler [left]"}');
CREATE TABLE check_definitions (
	code VARCHAR(80) NOT NULL, 
	what TEXT, 
	who VARCHAR(40), 
	months INTEGER, 
	months_self_contained INTEGER, 
	months_display_case INTEGER, 
	months_freezer INTEGER, 
	season TEXT, 
	minutes INTEGER, 
	minutes_self_contained INTEGER, 
	skills TEXT, 
	applies TEXT, 
	tolerance_days INTEGER, 
	version INTEGER DEFAULT '1' NOT NULL, 
	CONSTRAINT pk_check_definitions PRIMARY KEY (code)
);
INSERT INTO "check_definitions" VALUES('rack',NULL,NULL,1,NULL,NULL,NULL,NULL,NULL,NULL,'rack',NULL,NULL,1);
CREATE TABLE check_records (
	id INTEGER NOT NULL, 
	system_id INTEGER NOT NULL, 
	part VARCHAR(100) NOT NULL, 
	check_code VARCHAR(80) NOT NULL, 
	done_on DATE NOT NULL, 
	done_by_id INTEGER, 
	result VARCHAR(40) NOT NULL, 
	reason TEXT, 
	until DATE, 
	found VARCHAR(40), 
	minutes_s FLOAT, 
	typed JSON NOT NULL, 
	act_id INTEGER, 
	CONSTRAINT pk_check_records PRIMARY KEY (id), 
	CONSTRAINT fk_check_records_act_id_acts FOREIGN KEY(act_id) REFERENCES acts (id), 
	CONSTRAINT fk_check_records_done_by_id_people FOREIGN KEY(done_by_id) REFERENCES people (id), 
	CONSTRAINT fk_check_records_system_id_systems FOREIGN KEY(system_id) REFERENCES systems (id)
);
INSERT INTO "check_records" VALUES(1,1,'','condenser_coil','2026-05-20',1,'done',NULL,NULL,NULL,2400.0,'{"minutes": "40min"}',3);
CREATE TABLE compressors (
	id INTEGER NOT NULL, 
	system_id INTEGER NOT NULL, 
	position INTEGER NOT NULL, 
	kind VARCHAR(40), 
	make TEXT, 
	model TEXT, 
	serial TEXT, 
	lowest_suction_pa_abs FLOAT, 
	charge_limit_kg FLOAT, 
	oil_glass BOOLEAN, 
	external_check_valve BOOLEAN, 
	injection VARCHAR(40), 
	crankcase_heater VARCHAR(40), 
	heater_watts_w FLOAT, 
	in_service DATE, 
	out_of_service DATE, 
	reason_out VARCHAR(40), 
	shell_area_m2 FLOAT, 
	size VARCHAR(40), 
	warranty_until DATE, 
	typed JSON NOT NULL, 
	version INTEGER DEFAULT '1' NOT NULL, 
	CONSTRAINT pk_compressors PRIMARY KEY (id), 
	CONSTRAINT fk_compressors_system_id_systems FOREIGN KEY(system_id) REFERENCES systems (id), 
	CONSTRAINT uq_compressors_system_id_position_in_service UNIQUE (system_id, position, in_service)
);
INSERT INTO "compressors" VALUES(1,1,1,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,'2020-01-02',NULL,NULL,NULL,NULL,NULL,'{}',1);
INSERT INTO "compressors" VALUES(2,2,1,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,'2020-01-02',NULL,NULL,NULL,NULL,NULL,'{}',1);
CREATE TABLE current_checks (
	system_id INTEGER NOT NULL, 
	part VARCHAR(100) NOT NULL, 
	check_code VARCHAR(80) NOT NULL, 
	last_done_day INTEGER, 
	waived_until_day INTEGER, 
	CONSTRAINT pk_current_checks PRIMARY KEY (system_id, part, check_code), 
	CONSTRAINT fk_current_checks_system_id_systems FOREIGN KEY(system_id) REFERENCES systems (id)
)
 WITHOUT ROWID

;
INSERT INTO "current_checks" VALUES(1,'','condenser_coil',20593,NULL);
CREATE TABLE current_settings (
	system_id INTEGER NOT NULL, 
	part VARCHAR(100) NOT NULL, 
	low_pressure_cut_in_pa_gauge FLOAT, 
	low_pressure_cut_out_pa_gauge FLOAT, 
	low_pressure_differential_pa FLOAT, 
	high_pressure_cut_out_pa_gauge FLOAT, 
	head_pressure_hold_k FLOAT, 
	head_pressure_hold_pa_gauge FLOAT, 
	fan_cycle_differential_pa FLOAT, 
	minimum_off_s FLOAT, 
	group_suction_pa_gauge FLOAT, 
	regulator_setting_pa_gauge FLOAT, 
	setpoint_k FLOAT, 
	differential_k FLOAT, 
	defrosts_per_day FLOAT, 
	defrost_duration_s FLOAT, 
	defrost_failsafe_s FLOAT, 
	defrost_termination_k FLOAT, 
	fan_delay_k FLOAT, 
	fan_delay_s FLOAT, 
	drip_time_s FLOAT, 
	alarm_low_k FLOAT, 
	alarm_high_k FLOAT, 
	alarm_delay_s FLOAT, 
	CONSTRAINT pk_current_settings PRIMARY KEY (system_id, part), 
	CONSTRAINT fk_current_settings_system_id_systems FOREIGN KEY(system_id) REFERENCES systems (id)
)
 WITHOUT ROWID

;
INSERT INTO "current_settings" VALUES(1,'',100000.0,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL);
INSERT INTO "current_settings" VALUES(1,'B1',NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,275.0,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL);
CREATE TABLE customers (
	id INTEGER NOT NULL, 
	customer VARCHAR(80) NOT NULL, 
	name VARCHAR(200) NOT NULL, 
	contact TEXT, 
	phone TEXT, 
	email TEXT, 
	account_manager_id INTEGER, 
	review_due DATE, 
	records_since DATE, 
	note TEXT, 
	version INTEGER DEFAULT '1' NOT NULL, 
	CONSTRAINT pk_customers PRIMARY KEY (id), 
	CONSTRAINT fk_customers_account_manager_id_people FOREIGN KEY(account_manager_id) REFERENCES people (id), 
	CONSTRAINT uq_customers_customer UNIQUE (customer)
);
INSERT INTO "customers" VALUES(1,'of WC-1','Market of WC-1',NULL,NULL,NULL,NULL,NULL,NULL,NULL,1);
INSERT INTO "customers" VALUES(2,'of WC-2','Market of WC-2',NULL,NULL,NULL,NULL,NULL,NULL,NULL,1);
CREATE TABLE events (
	id INTEGER NOT NULL, 
	site_id INTEGER NOT NULL, 
	system_id INTEGER, 
	reference VARCHAR(80) NOT NULL, 
	part VARCHAR(100) NOT NULL, 
	kind VARCHAR(40) NOT NULL, 
	happened_on DATE NOT NULL, 
	called_at DATETIME, 
	arrived_at DATETIME, 
	restored_at DATETIME, 
	recorded_by_id INTEGER, 
	compressor_serial TEXT, 
	note TEXT, 
	evidence TEXT, 
	refrigerant_from VARCHAR(40), 
	refrigerant_to VARCHAR(40), 
	labour FLOAT, 
	parts FLOAT, 
	cost FLOAT, 
	currency TEXT, 
	product_lost FLOAT, 
	typed JSON NOT NULL, 
	act_id INTEGER, 
	version INTEGER DEFAULT '1' NOT NULL, 
	CONSTRAINT pk_events PRIMARY KEY (id), 
	CONSTRAINT fk_events_act_id_acts FOREIGN KEY(act_id) REFERENCES acts (id), 
	CONSTRAINT fk_events_recorded_by_id_people FOREIGN KEY(recorded_by_id) REFERENCES people (id), 
	CONSTRAINT fk_events_site_id_sites FOREIGN KEY(site_id) REFERENCES sites (id), 
	CONSTRAINT fk_events_system_id_systems FOREIGN KEY(system_id) REFERENCES systems (id), 
	CONSTRAINT uq_events_reference UNIQUE (reference)
);
INSERT INTO "events" VALUES(1,1,1,'E-1','','call','2026-02-03','2026-02-03 06:10:00.000000',NULL,NULL,NULL,NULL,NULL,'seized;no:burnt_oil',NULL,NULL,NULL,NULL,NULL,NULL,NULL,'{}',3,1);
CREATE TABLE findings (
	system_id INTEGER NOT NULL, 
	part VARCHAR(100) NOT NULL, 
	rule VARCHAR(60) NOT NULL, 
	setting VARCHAR(60) NOT NULL, 
	from_day INTEGER NOT NULL, 
	until_day INTEGER, 
	severity INTEGER NOT NULL, 
	far FLOAT NOT NULL, 
	verdict VARCHAR(40) NOT NULL, 
	recorded FLOAT, 
	low FLOAT, 
	high FLOAT, 
	preferred FLOAT, 
	out_by FLOAT, 
	out_by_saturation_k FLOAT, 
	low_code VARCHAR(40), 
	high_code VARCHAR(40), 
	detail TEXT, 
	also TEXT, 
	customer_id INTEGER NOT NULL, 
	site_id INTEGER NOT NULL, 
	refrigerant VARCHAR(40), 
	strategy VARCHAR(40), 
	CONSTRAINT pk_findings PRIMARY KEY (system_id, part, rule, setting, from_day), 
	CONSTRAINT fk_findings_system_id_systems FOREIGN KEY(system_id) REFERENCES systems (id)
)
 WITHOUT ROWID

;
INSERT INTO "findings" VALUES(1,'','low_pressure_window','low_pressure_cut_in',0,NULL,2,-1.5,'above',100000.0,NULL,90000.0,NULL,10000.0,NULL,NULL,'restart_cold',NULL,NULL,1,1,'R-404A','recycling-pump-down');
CREATE TABLE first_seen (
	system_id INTEGER NOT NULL, 
	part VARCHAR(100) NOT NULL, 
	rule VARCHAR(60) NOT NULL, 
	setting VARCHAR(60) NOT NULL, 
	first_seen DATE NOT NULL, 
	CONSTRAINT pk_first_seen PRIMARY KEY (system_id, part, rule, setting), 
	CONSTRAINT fk_first_seen_system_id_systems FOREIGN KEY(system_id) REFERENCES systems (id)
)
 WITHOUT ROWID

;
INSERT INTO "first_seen" VALUES(1,'','low_pressure_window','low_pressure_cut_in','2026-11-25');
CREATE TABLE people (
	id INTEGER NOT NULL, 
	person VARCHAR(80) NOT NULL, 
	name TEXT, 
	role VARCHAR(40) NOT NULL, 
	phone TEXT, 
	email TEXT, 
	version INTEGER DEFAULT '1' NOT NULL, 
	CONSTRAINT pk_people PRIMARY KEY (id), 
	CONSTRAINT uq_people_person UNIQUE (person)
);
INSERT INTO "people" VALUES(1,'who WC-1','Rita Osei','technician',NULL,NULL,1);
INSERT INTO "people" VALUES(2,'who WC-2','Rita Osei','technician',NULL,NULL,1);
CREATE TABLE setting_records (
	id INTEGER NOT NULL, 
	system_id INTEGER NOT NULL, 
	part VARCHAR(100) NOT NULL, 
	setting VARCHAR(40) NOT NULL, 
	value_si FLOAT, 
	dimension VARCHAR(40) NOT NULL, 
	typed VARCHAR(60) NOT NULL, 
	stage VARCHAR(40) NOT NULL, 
	recorded_on DATE, 
	recorded_by_id INTEGER, 
	confirmed VARCHAR(40), 
	note TEXT, 
	act_id INTEGER, 
	CONSTRAINT pk_setting_records PRIMARY KEY (id), 
	CONSTRAINT fk_setting_records_act_id_acts FOREIGN KEY(act_id) REFERENCES acts (id), 
	CONSTRAINT fk_setting_records_recorded_by_id_people FOREIGN KEY(recorded_by_id) REFERENCES people (id), 
	CONSTRAINT fk_setting_records_system_id_systems FOREIGN KEY(system_id) REFERENCES systems (id)
);
INSERT INTO "setting_records" VALUES(1,1,'B1','setpoint',275.0,'temperature','275.0K','as-left','2026-01-01',NULL,NULL,NULL,3);
INSERT INTO "setting_records" VALUES(2,1,'B1','setpoint',276.0,'temperature','276.0K','as-found',NULL,NULL,NULL,NULL,3);
INSERT INTO "setting_records" VALUES(3,1,'','low_pressure_cut_in',100000.0,'gauge pressure','14.5psig','as-left','2026-01-01',NULL,NULL,NULL,3);
CREATE TABLE sites (
	id INTEGER NOT NULL, 
	customer_id INTEGER NOT NULL, 
	site VARCHAR(80) NOT NULL, 
	name TEXT, 
	address TEXT, 
	latitude FLOAT, 
	longitude FLOAT, 
	elevation_m FLOAT, 
	time_zone TEXT, 
	jurisdiction VARCHAR(40), 
	climate TEXT, 
	high_1_k FLOAT, 
	high_2_k FLOAT, 
	high_3_k FLOAT, 
	high_4_k FLOAT, 
	high_5_k FLOAT, 
	high_6_k FLOAT, 
	high_7_k FLOAT, 
	high_8_k FLOAT, 
	high_9_k FLOAT, 
	high_10_k FLOAT, 
	high_11_k FLOAT, 
	high_12_k FLOAT, 
	low_1_k FLOAT, 
	low_2_k FLOAT, 
	low_3_k FLOAT, 
	low_4_k FLOAT, 
	low_5_k FLOAT, 
	low_6_k FLOAT, 
	low_7_k FLOAT, 
	low_8_k FLOAT, 
	low_9_k FLOAT, 
	low_10_k FLOAT, 
	low_11_k FLOAT, 
	low_12_k FLOAT, 
	design_cold_k FLOAT, 
	extreme_cold_k FLOAT, 
	design_hot_k FLOAT, 
	day_spread_winter_k FLOAT, 
	day_spread_summer_k FLOAT, 
	contact TEXT, 
	phone TEXT, 
	access_note TEXT, 
	call_before VARCHAR(40), 
	access_mon TEXT, 
	access_tue TEXT, 
	access_wed TEXT, 
	access_thu TEXT, 
	access_fri TEXT, 
	access_sat TEXT, 
	access_sun TEXT, 
	closed TEXT, 
	leak_method VARCHAR(40), 
	typed JSON NOT NULL, 
	version INTEGER DEFAULT '1' NOT NULL, 
	CONSTRAINT pk_sites PRIMARY KEY (id), 
	CONSTRAINT fk_sites_customer_id_customers FOREIGN KEY(customer_id) REFERENCES customers (id), 
	CONSTRAINT uq_sites_customer_id_site UNIQUE (customer_id, site)
);
INSERT INTO "sites" VALUES(1,1,'Ridge Street',NULL,NULL,NULL,NULL,259.0,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,'{"elevation": "850ft"}',1);
INSERT INTO "sites" VALUES(2,2,'Ridge Street',NULL,NULL,NULL,NULL,259.0,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,'{"elevation": "850ft"}',1);
CREATE TABLE systems (
	id INTEGER NOT NULL, 
	site_id INTEGER NOT NULL, 
	system VARCHAR(80) NOT NULL, 
	name TEXT, 
	form VARCHAR(40), 
	make TEXT, 
	model TEXT, 
	serial TEXT, 
	installed DATE, 
	warranty_until DATE, 
	manual_note TEXT, 
	status VARCHAR(40), 
	voltage_v FLOAT, 
	phases INTEGER, 
	end_use VARCHAR(40), 
	grease BOOLEAN, 
	fitted TEXT, 
	refrigerant VARCHAR(40), 
	refrigerant_since DATE, 
	charge_kg FLOAT, 
	charge_source VARCHAR(40), 
	charge_low_kg FLOAT, 
	charge_high_kg FLOAT, 
	pump_down_charge_kg FLOAT, 
	critically_charged BOOLEAN, 
	sealed_labelled BOOLEAN, 
	leak_detection VARCHAR(40), 
	detection_calibrated DATE, 
	strategy VARCHAR(40), 
	low_pressure_control VARCHAR(40), 
	low_pressure_sensor VARCHAR(40), 
	high_pressure_sensor VARCHAR(40), 
	low_pressure_reset VARCHAR(40), 
	high_pressure_reset VARCHAR(40), 
	solenoid VARCHAR(40), 
	hold_test VARCHAR(40), 
	hold_settle_pa FLOAT, 
	hold_rise_pa_per_s FLOAT, 
	start_delay VARCHAR(40), 
	start_delay_time_s FLOAT, 
	run_hours_per_day FLOAT, 
	starts_per_hour FLOAT, 
	power_off_at_rest BOOLEAN, 
	season_from TEXT, 
	season_to TEXT, 
	placement VARCHAR(40), 
	room_low_k FLOAT, 
	room_high_k FLOAT, 
	wind VARCHAR(40), 
	receiver_place VARCHAR(40), 
	receiver_heater VARCHAR(40), 
	receiver_hold_k FLOAT, 
	receiver_insulated BOOLEAN, 
	check_valve BOOLEAN, 
	coil_above_receiver_m FLOAT, 
	unit_above_coil_m FLOAT, 
	line_length_m FLOAT, 
	line_place VARCHAR(40), 
	line_loss_k FLOAT, 
	accumulator BOOLEAN, 
	suction_limiter BOOLEAN, 
	typed JSON NOT NULL, 
	input_version INTEGER DEFAULT '1' NOT NULL, 
	audited_version INTEGER DEFAULT '0' NOT NULL, 
	audited_through INTEGER, 
	version INTEGER DEFAULT '1' NOT NULL, 
	CONSTRAINT pk_systems PRIMARY KEY (id), 
	CONSTRAINT fk_systems_site_id_sites FOREIGN KEY(site_id) REFERENCES sites (id), 
	CONSTRAINT uq_systems_site_id_system UNIQUE (site_id, system)
);
INSERT INTO "systems" VALUES(1,1,'WC-1','produce cooler [left]',NULL,NULL,NULL,NULL,'2019-05-14',NULL,NULL,NULL,NULL,NULL,NULL,NULL,'relief_heater','R-404A',NULL,9.979,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,'recycling-pump-down',NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,'{"charge": "22lb"}',3,3,20812,2);
INSERT INTO "systems" VALUES(2,2,'WC-2',NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,'removed',NULL,NULL,NULL,NULL,NULL,'R-404A',NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,'{}',3,3,20812,1);
CREATE INDEX ix_customers_name ON customers (name, id);
CREATE INDEX ix_changes_act_id ON changes (act_id);
CREATE INDEX ix_changes_table ON changes ("table", row_id);
CREATE INDEX ix_systems_audited_through ON systems (audited_through, id);
CREATE INDEX ix_systems_changed ON systems (id) WHERE input_version <> audited_version;
CREATE INDEX ix_check_records_system_id ON check_records (system_id, part, check_code, done_on, id);
CREATE INDEX ix_compressors_reason_out ON compressors (reason_out, system_id);
CREATE INDEX ix_events_site_id ON events (site_id, happened_on);
CREATE INDEX ix_events_system_id ON events (system_id, happened_on);
CREATE INDEX ix_findings_customer ON findings (customer_id, severity, far, system_id, part, rule, setting, from_day, until_day);
CREATE INDEX ix_findings_refrigerant ON findings (refrigerant, strategy, severity, far, system_id, part, rule, setting, from_day, until_day);
CREATE INDEX ix_findings_rule ON findings (rule, severity, far, system_id, part, setting, from_day, until_day);
CREATE INDEX ix_findings_site ON findings (site_id, severity, far, system_id, part, rule, setting, from_day, until_day);
CREATE INDEX ix_findings_strategy ON findings (strategy, rule, severity, far, system_id, part, setting, from_day, until_day);
CREATE INDEX ix_findings_worst ON findings (severity, far, system_id, part, rule, setting, from_day, until_day);
CREATE INDEX ix_setting_records_system_id ON setting_records (system_id, part, setting, recorded_on, stage, id);
COMMIT;
