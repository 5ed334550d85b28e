"""Sable Mesa Provisions: an invented wholesaler between a hot desert and a mountain valley."""

from seeds_demo.climates import DESERT, MOUNTAIN, PLAINS
from seeds_demo.parts import Customer, Failed, Happened, LastDone, Turned
from seeds_demo.places import WEEKDAYS_FROM_SEVEN, site
from seeds_demo.usual import INDOORS, ONE_TIME, PRESSURE, cooler, freezer, room, scroll, semi, split

COPPER_WELLS = site(
    "Copper Wells", DESERT, "1100ft", "33.40 -112.20", 29,
    split("CS-1", "long store", "R-507A", "24psig", "10psig", cooler("35F"),
          cooler("36F", tag="B2", name="long store, east"),
          strategy=ONE_TIME, charge="44lb"),
    split("CS-2", "dairy store", "R-404A", "26psig", "19psig", cooler("36F", stored="dairy"), charge="25lb"),
    split("CS-3", "old egg store", "R-22", "20psig", "8psig", cooler("38F", stored="eggs"), age=9800,
          charge="24lb",
          manual_note="plate unreadable", make="", read_with="scale"),
    split("CF-1", "old freezer", "R-22", "11psig", "3psig", freezer("-5F"), age=9400, charge=""),
    split("CF-2", "meat freezer", "R-404A", "14psig", "4psig",
          freezer("-5F", defrost_method="hot-gas", stored="meat"),
          charge="36lb", fitted="liquid_injection;suction_filter"),
    zone="America/Phoenix", address="Copper Wells Industrial 14", access=WEEKDAYS_FROM_SEVEN,
)  # fmt: skip
MESA_GATE = site(
    "Mesa Gate", DESERT, "1350ft", "32.30 -110.90", 66,
    split("WC-1", "cash-and-carry cooler", "R-407C", "22psig", "10psig", cooler("36F"), charge="19lb",
          refrigerant_since="2016-04-02"),
    split("WC-2", "produce cooler", "R-448A", "36.0psia", "10psig", cooler("37F", td="9F", stored="produce"),
          scroll()),
    split("WF-1", "freezer", "R-452A", "13psig", "4psig", freezer("-5F"), semi(crankcase_heater="failed"),
          Failed(300, "flooded_start", "oil foamed over at start, two rods gone",
                 "td_rods_broken_seizure;st_foam_start_settles;st_heater_off"),
          Happened(299, "note", "heater failed again, part ordered"), charge="20lb"),
    split("PR-1", "cut-flower cooler", "R-404A", "70psig", "57psig", cooler("34F", "3F"), strategy=PRESSURE,
          charge="8lb", place=INDOORS),
    zone="America/Phoenix", address="Mesa Gate 3", access=WEEKDAYS_FROM_SEVEN,
)  # fmt: skip
PRAIRIE_DOCK = site(
    "Prairie Dock", PLAINS, "5430ft", "40.40 -104.70", 41,
    split("WC-1", "bottle store", "R-450A", "5.8psig", "0.5psig",
          cooler("37F", td="13F", stored="beverages"), charge="13lb"),
    split("WC-2", "dock cooler", "R-513A", "6.5psig", "1psig", cooler("36F"),
          Turned(490, "low_pressure_cut_in", "9psig", "6.5psig", "set by gauge for the elevation"),
          Turned(314, "low_pressure_cut_in", "8.5psig", "6.5psig",
                 "left at 6.5 last time; nobody knows who turned it"),
          charge="14lb"),
    split("WF-1", "freezer", "R-404A", "16psig", "6psig", freezer("-5F"),
          Failed(610, "oil_loss", "little oil left, long riser without a trap",
                 "td_all_scored_little_oil;st_oil_trip_running")),
    zone="America/Denver", access=WEEKDAYS_FROM_SEVEN,
)  # fmt: skip
UPPER_BASIN = site(
    "Upper Basin", MOUNTAIN, "7450ft", "37.90 -107.60", 58,
    split("WC-1", "lodge cooler", "R-404A", "14psig", "5.5psig", cooler("36F"),
          LastDone("pump_down_hold", 480), charge="18lb"),
    split("WC-2", "old lodge cooler", "R-22", "9psig", "3psig", cooler("37F"), idle=240, age=8800,
          season_from="12-01", season_to="04-15"),
    split("WF-1", "lodge freezer", "R-449A", "9.5psig", "3psig", freezer("-5F"),
          Happened(95, "call", "box warm after a delivery",
                   {"called_at": "18:10", "restored_at": "21:45", "product_lost": "180"})),
    split("PR-1", "kitchen prep room", "R-134a", "52psig", "28.5psig", room("50F"), strategy=PRESSURE,
          charge="6lb", place=INDOORS),
    zone="America/Denver", access=WEEKDAYS_FROM_SEVEN,
)  # fmt: skip

SABLE = Customer(
    "SABLE",
    {"name": "Sable Mesa Provisions", "contact": "Rafa Ortegon", "phone": "555 0160",
     "email": "rafa@sablemesa.example",
     "account_manager": "P. Castellano", "note": "demo: invented customer, invented names and numbers"},
    ("M. Tesfaye",),
    (COPPER_WELLS, MESA_GATE, PRAIRIE_DOCK, UPPER_BASIN),
    review_in_days=12,
)  # fmt: skip
