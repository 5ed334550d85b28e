"""What the register is to hold: files, columns and values, copied from its description."""

FILES = {
    "customers": "customer name contact phone email account_manager review_due records_since note",
    "people": "person name role phone email",
    "sites": "customer site name address latitude longitude elevation time_zone jurisdiction climate "
    + " ".join(f"high_{month}" for month in range(1, 13))
    + " "
    + " ".join(f"low_{month}" for month in range(1, 13))
    + " design_cold extreme_cold design_hot day_spread_winter day_spread_summer contact phone access_note "
    "call_before access_mon access_tue access_wed access_thu access_fri access_sat access_sun "
    "closed leak_method",
    "systems": "customer site system name form make model serial installed warranty_until manual_note status "
    "voltage phases end_use grease fitted "
    "refrigerant refrigerant_since charge charge_source charge_low charge_high pump_down_charge "
    "critically_charged sealed_labelled leak_detection detection_calibrated "
    "strategy low_pressure_control low_pressure_sensor high_pressure_sensor low_pressure_reset "
    "high_pressure_reset solenoid hold_test hold_settle hold_rise start_delay start_delay_time "
    "run_hours_per_day starts_per_hour power_off_at_rest season_from season_to "
    "placement room_low room_high wind receiver_place receiver_heater receiver_hold receiver_insulated "
    "check_valve coil_above_receiver unit_above_coil line_length line_place line_loss accumulator "
    "suction_limiter",
    "boxes": "customer site system box name kind suction_group stored make model serial installed volume "
    "lowest_temperature td td_low td_high td_basis td_source thermostat_scale sensor_allowance surroundings "
    "surroundings_low surroundings_high expansion_valve closes_at_stop closes_without_power mop regulator "
    "defrost_method thermostat_senses defrost_control fans doors traffic",
    "compressors": "customer site system position kind make model serial lowest_suction "
    "charge_limit oil_glass "
    "external_check_valve injection crankcase_heater heater_watts in_service out_of_service reason_out "
    "shell_area size warranty_until",
    "settings": "customer site system part setting value stage recorded_on recorded_by confirmed note",
    "events": "reference customer site system part kind happened_on called_at arrived_at "
    "restored_at recorded_by "
    "compressor_serial note evidence refrigerant_from refrigerant_to labour parts cost currency product_lost",
    "checks": "customer site system part check_code done_on done_by result reason until found minutes",
}

SETTINGS = (
    "low_pressure_cut_in low_pressure_cut_out low_pressure_differential high_pressure_cut_out "
    "head_pressure_hold "
    "fan_cycle_differential minimum_off group_suction regulator_setting setpoint differential "
    "defrosts_per_day "
    "defrost_duration defrost_failsafe defrost_termination fan_delay drip_time alarm_low alarm_high "
    "alarm_delay"
)

WORDS = {
    ("people", "role"): "planner lead-technician technician account-manager site-staff other",
    ("sites", "jurisdiction"): "US US-CA EU GB-ENG GB-WLS GB-SCT GB-NIR other",
    ("sites", "leak_method"): "annualizing rolling",
    ("systems", "form"): "split self-contained rack",
    ("systems", "status"): "in-service idle removed",
    ("systems", "end_use"): "commercial industrial-process comfort other",
    (
        "systems",
        "fitted",
    ): "relief_heater suction_filter alarm_probe liquid_injection oil_separator heat_recovery",
    ("systems", "charge_source"): "maker calculated weighed range",
    ("systems", "leak_detection"): "none direct indirect",
    (
        "systems",
        "strategy",
    ): "recycling-pump-down one-time-pump-down pressure-cycling thermostat-cycling remote-rack",
    ("systems", "low_pressure_control"): "fitted lock-out none",
    ("systems", "low_pressure_sensor"): "vented sealed absolute",
    ("systems", "high_pressure_sensor"): "vented sealed absolute",
    ("systems", "low_pressure_reset"): "automatic manual counted",
    ("systems", "solenoid"): "fitted none",
    ("systems", "hold_test"): "tight leaking untested",
    ("systems", "start_delay"): "none call compressor",
    ("systems", "placement"): "outdoor indoor-unheated indoor-heated",
    ("systems", "wind"): "indoor sheltered windy",
    ("systems", "receiver_place"): "outdoor indoor",
    ("systems", "receiver_heater"): "none working failed off",
    ("systems", "line_place"): "outdoor indoor",
    ("boxes", "kind"): "walk-in-cooler walk-in-freezer reach-in-cooler reach-in-freezer display-case-medium "
    "display-case-low preparation-room",
    (
        "boxes",
        "stored",
    ): "general produce flowers meat poultry fish dairy eggs beverages prepared-food frozen-food "
    "ice-cream vaccines vaccines-frozen ice other",
    ("boxes", "td_basis"): "dew mean",
    ("boxes", "td_source"): "design measured",
    ("boxes", "thermostat_scale"): "stops-at starts-at centred",
    ("boxes", "surroundings"): "room outdoor",
    ("boxes", "expansion_valve"): "conventional balanced-port electronic capillary",
    ("boxes", "regulator"): "none evaporator rack",
    ("boxes", "defrost_method"): "none off-cycle timed-off-cycle electric hot-gas manual",
    ("boxes", "thermostat_senses"): "return discharge",
    ("boxes", "defrost_control"): "clock demand",
    ("boxes", "fans"): "always with-compressor off-in-defrost",
    ("boxes", "doors"): "open closed",
    ("boxes", "traffic"): "low usual high",
    ("compressors", "kind"): "hermetic-reciprocating semi-hermetic scroll screw rotary",
    ("compressors", "injection"): "none liquid vapour rated",
    ("compressors", "crankcase_heater"): "none working failed off",
    ("compressors", "reason_out"): "flooded_start flood_back slugging oil_loss overheating contamination "
    "electrical sound upgrade removed unknown",
    ("compressors", "size"): "small medium large",
    ("settings", "stage"): "as-found as-left",
    ("settings", "confirmed"): "gauge thermometer scale remote none",
    (
        "events",
        "kind",
    ): "call repair start-up power-outage refrigerant-change compressor-change taken-out returned note",
    ("checks", "result"): "done partly not-possible waived",
    ("checks", "found"): "nothing adjusted fault",
}

SEVERITIES = "act-now next-visit watch note"
VERDICTS = "inside below above no-window not-recorded not-applicable not-known stale conflicting"
