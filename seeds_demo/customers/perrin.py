"""Perrin & Holt Kitchens: four invented restaurants, three of them on a warm coast."""

from seeds_demo.climates import GULF, VALLEY
from seeds_demo.parts import Customer, Failed, Happened, LastDone, Turned
from seeds_demo.places import ANY_TIME, site
from seeds_demo.usual import (
    INDOORS,
    PRESSURE,
    cooler,
    freezer,
    hermetic,
    plug_in,
    reach_in,
    reach_in_freezer,
    room,
    scroll,
    semi,
    split,
)

LANTERN_STREET = site(
    "Lantern Street", GULF, "60ft", "29.92 -90.11", 25,
    split("WC-1", "main cooler", "R-404A", "25psig", "12psig", cooler("36F"), charge="16lb"),
    split("WC-2", "fish cooler", "R-448A", "12psig", "14psig", cooler("34F", stored="fish"), charge="12lb"),
    split("WF-1", "freezer", "R-449A", "28psig", "5psig", freezer("-5F"), scroll(), charge="15lb",
          read_with="none"),
    split("RI-1", "bar reach-in", "R-134a", "35psig", "14psig", reach_in("36F"), hermetic(),
          strategy=PRESSURE,
          charge="28oz", place=INDOORS),
    split("PR-1", "pastry room", "R-134a", "50psig", "26.5psig", room("50F"), hermetic(), strategy=PRESSURE,
          charge="5lb", place=INDOORS),
    address="9 Lantern Street", access=ANY_TIME, call_before="yes", access_note="side door, ask for the chef",
    events=(Happened(512, "power-outage", "storm, nine hours"),),
)  # fmt: skip
CUSTOMS_HOUSE = site(
    "Customs House", GULF, "45ft", "30.36 -89.10", 52,
    split("WC-1", "wine and beer", "R-134a", "12psig", "3psig", cooler("38F", td="13F", stored="beverages"),
          charge="9lb"),
    split("WC-2", "main cooler", "R-404A", "30psig", "12psig", cooler("36F"), scroll(lowest_suction=""),
          charge="17lb"),
    split("WF-1", "freezer", "R-404A", "28psig", "17.5psig", freezer("-5F"), charge="18lb",
          age=2100),
    split("RI-1", "line reach-in", "R-513A", "39.5psig", "17.5psig", reach_in("36F", fans="with-compressor"),
          hermetic(),
          strategy=PRESSURE, charge="2.1lb", place=INDOORS),
    plug_in("RI-2", "garnish reach-in", "R-290", "150g", reach_in("37F")),
    address="Customs House Quay", access=ANY_TIME, call_before="yes",
)  # fmt: skip
MAGNOLIA_ROW = site(
    "Magnolia Row", GULF, "12ft", "29.30 -94.80", 77,
    split("WC-1", "beer cooler and dough room", "R-404A", "22psig", "10psig",
          cooler("36F", td="14F", stored="beverages"),
          room("55F", tag="B2", name="dough room"), charge="22lb"),
    split("WC-2", "cooler and salad room", "R-449A", "22psig", "10psig", cooler("36F"),
          cooler("38F", tag="B2", name="salad room", stored="produce"), scroll(),
          LastDone("leak_search", 250), charge="23lb"),
    split("WF-1", "freezer", "R-407A", "8psig", "1.5psig", freezer("-5F"),
          Failed(330, "slugging", "suction reeds broken after a defrost that never ended",
                 "td_suction_reeds_broken;st_after_defrost;no:st_heater_off")),
    plug_in("BC-1", "back bar [left] \\ 2", "R-290", "138g", reach_in("38F", stored="beverages")),
    plug_in("RF-1", "dessert freezer", "R-290", "149g", reach_in_freezer("-4F")),
    address="31 Magnolia Row", access=ANY_TIME,
)  # fmt: skip
ORCHARD_FORK = site(
    "Orchard Fork", VALLEY, "1010ft", "36.15 -94.10", 18,
    split("WC-1", "main cooler", "R-448A", "20psig", "9psig", cooler("36F"), semi(crankcase_heater="working"),
          Turned(210, "low_pressure_cut_in", "27psig", "20psig", "too near the coldest day",
                 confirmed="gauge"),
          Failed(215, "flooded_start", "seized on a Monday start, heater had been unplugged",
                 "td_pump_or_one_rod_seized;st_after_long_rest;st_heater_off"),
          Happened(215, "repair", "heater wired to its own breaker"), charge="15lb"),
    split("WC-2", "cider cooler", "R-134a", "7psig", "1.5psig", cooler("38F", td="13F", stored="beverages"),
          charge="8lb"),
    split("WF-1", "freezer", "R-404A", "", "", freezer("-5F"), charge="", charge_source=""),
    plug_in("RI-1", "prep reach-in", "R-290", "150g", reach_in("36F")),
    address="Orchard Fork, exit 4", access=ANY_TIME, closed="30/44",
)  # fmt: skip

PERRIN = Customer(
    "PERRIN",
    {"name": "Perrin & Holt Kitchens", "contact": "Odile Perrin", "phone": "555 0150",
     "email": "odile@perrinholt.example",
     "account_manager": "G. Whitlock", "note": "demo: invented customer, invented names and numbers"},
    ("J. Okonjo", "R. Vance"),
    (LANTERN_STREET, CUSTOMS_HOUSE, MAGNOLIA_ROW, ORCHARD_FORK),
    review_in_days=95,
)  # fmt: skip
