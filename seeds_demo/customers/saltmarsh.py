"""Saltmarsh School Meals: invented school kitchens on a mild coast."""

from seeds_demo.climates import COAST
from seeds_demo.parts import Customer, Failed, Happened, LastDone, Turned
from seeds_demo.places import WEEKDAYS_FROM_SEVEN, site
from seeds_demo.usual import (
    INDOORS,
    PRESSURE,
    THERMOSTAT,
    cooler,
    freezer,
    hermetic,
    plug_in,
    reach_in,
    reach_in_freezer,
    room,
    scroll,
    split,
)

TERN_COURT = site(
    "Tern Court School", COAST, "40ft", "37.80 -122.30", 22,
    split("WC-1", "kitchen cooler", "R-134a", "10psig", "2psig", cooler("37F"), hermetic(),
          strategy=THERMOSTAT, charge="5lb",
          place=INDOORS),
    split("WF-1", "kitchen freezer", "R-404A", "14psig", "4psig", freezer("-5F"), charge="14lb"),
    plug_in("RI-1", "milk cabinet", "R-290", "120g", reach_in("37F", stored="dairy"),
            LastDone("condenser_coil", 150)),
    plug_in("RF-1", "pizza freezer", "R-290", "", reach_in_freezer("-4F"), charge_source=""),
    jurisdiction="US-CA", zone="America/Los_Angeles", access=WEEKDAYS_FROM_SEVEN,
)  # fmt: skip
DUNE_ROAD = site(
    "Dune Road School", COAST, "25ft", "36.60 -121.80", 63,
    split("WC-1", "kitchen cooler", "R-513A", "14psig", "5psig", cooler("37F"), scroll(),
          Turned(330, "setpoint", "34F", "37F", "milk froze at the coil", part="B1",
                 confirmed="thermometer"), charge="7lb"),
    split("WF-1", "kitchen freezer", "R-449A", "15psig", "10psig", freezer("-5F"), strategy=THERMOSTAT,
          charge="11lb"),
    plug_in("RI-1", "milk cabinet", "R-290", "4.2oz", reach_in("37F", stored="dairy")),
    plug_in("RI-2", "salad cabinet", "R-290", "118g", reach_in("38F", stored="produce")),
    jurisdiction="US-CA", zone="America/Los_Angeles", access=WEEKDAYS_FROM_SEVEN,
)  # fmt: skip
ESTUARY_KITCHEN = site(
    "Estuary Kitchen", COAST, "10ft", "37.70 -122.20", 39,
    split("WC-1", "cook-chill cooler", "R-448A", "22psig", "9psig", cooler("35F", stored="prepared-food"),
          cooler("36F", tag="B2", name="dispatch cooler", stored="prepared-food"), charge="33lb"),
    split("WC-2", "produce cooler", "R-454C", "20psig", "8psig", cooler("37F", td="9F", stored="produce"),
          charge="10lb"),
    split("WF-1", "freezer", "R-454C", "9psig", "2inHg", freezer("-5F"), age=900, charge="13lb"),
    split("WF-2", "bread freezer", "R-448A", "9psig", "2psig", freezer("-4F"),
          Failed(455, "flood_back", "cylinders washed, valve bulb hung loose",
                 "td_cylinders_worn_no_heat;st_bulb_loose;st_superheat_low"),
          Happened(455, "repair", "bulb strapped and insulated"), charge="19lb"),
    split("PR-1", "vegetable room", "R-448A", "96psig", "57psig", room("50F", stored="produce"),
          strategy=PRESSURE, charge="9lb",
          place=INDOORS),
    jurisdiction="US-CA", zone="America/Los_Angeles", leak_method="rolling", access=WEEKDAYS_FROM_SEVEN,
)  # fmt: skip
HARBOR_ANNEX = site(
    "Harbor Annex", COAST, "8ft", "", 74,
    split("WC-1", "new cooler", "R-455A", "22psig", "10psig", cooler("37F"), scroll(),
          Happened(40, "start-up", "commissioned, settings by gauge"), age=40, charge="8.5lb"),
    split("WF-1", "new freezer", "R-455A", "8psig", "1.5psig", freezer("-5F"),
          Happened(40, "start-up", "commissioned"), age=40, charge="11lb"),
    split("WC-9", "old cooler, switched off", "R-22", "20psig", "8psig", cooler("38F"),
          Happened(41, "taken-out", "stands idle"),
          idle=41, age=7400),
    jurisdiction="US-CA", zone="America/Los_Angeles", access_note="no map pin yet",
    access=WEEKDAYS_FROM_SEVEN,
)  # fmt: skip

SALTMARSH = Customer(
    "SALTMARSH",
    {"name": "Saltmarsh School Meals", "contact": "Imogen Tsai", "phone": "555 0170",
     "email": "imogen@saltmarsh.example",
     "account_manager": "G. Whitlock", "note": "demo: invented customer, invented names and numbers"},
    ("A. Petrov", "M. Tesfaye"),
    (TERN_COURT, DUNE_ROAD, ESTUARY_KITCHEN, HARBOR_ANNEX),
    review_in_days=150,
)  # fmt: skip
