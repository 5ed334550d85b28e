"""Northgate Clinics: an invented hospital group in the cold north."""

from seeds_demo.climates import NORTH
from seeds_demo.parts import Customer, Failed, Happened, Turned
from seeds_demo.places import WEEKDAYS_FROM_SEVEN, site
from seeds_demo.usual import INDOORS, THERMOSTAT, cooler, freezer, hermetic, plug_in, reach_in, scroll, split

MAIN_PHARMACY = site(
    "Main Pharmacy", NORTH, "790ft", "46.80 -92.10", 16,
    split("VR-1", "vaccine room", "R-134a", "12psig", "3psig", cooler("39F", "3F", stored="vaccines"),
          scroll(),
          charge="6lb", leak_detection="direct", place=INDOORS),
    split("WC-1", "kitchen cooler", "R-22", "20psig", "6psig", cooler("36F"), age=9100, charge="20lb"),
    split("WF-1", "kitchen freezer", "R-507A", "14psig", "4.5psig", freezer("-5F"), charge="22lb"),
    plug_in("RI-1", "ward cabinet", "R-290", "95g", reach_in("39F", "3F", stored="vaccines")),
    plug_in("RI-2", "ward cabinet (spare)", "R-290", "95g", reach_in("39F", "3F", stored="vaccines")),
    access=WEEKDAYS_FROM_SEVEN,
)  # fmt: skip
DOCK_ANNEX = site(
    "Dock Annex", NORTH, "640ft", "46.70 -92.00", 59,
    split("WC-1", "linen and meals cooler", "R-454C", "6.8psig", "1psig", cooler("37F"),
          scroll(lowest_suction="13psia"), age=600,
          charge="7lb"),
    split("WC-2", "old staff cooler", "R-404A", "13psig", "4psig", cooler("38F"), strategy="", charge=""),
    split("WF-1", "freezer", "R-452A", "12psig", "4psig", freezer("-5F"),
          Turned(720, "low_pressure_cut_in", "18psig", "12psig", "was at no margin"),
          Failed(880, "sound", "changed in error: the contactor was open"), charge="19lb"),
    split("WC-3", "specimen cooler", "R-134a", "10psig", "2psig", cooler("40F", "3F", stored="other"),
          hermetic(), strategy=THERMOSTAT,
          charge="3lb", place=INDOORS),
    events=(Happened(90, "power-outage", "generator test that went wrong"),),
    access=WEEKDAYS_FROM_SEVEN,
)  # fmt: skip

CIVIC = Customer(
    "CIVIC",
    {"name": "Northgate Clinics", "contact": "Ada Fenwright", "phone": "555 0180",
     "email": "ada@northgate.example",
     "account_manager": "P. Castellano", "note": "demo: invented customer, invented names and numbers"},
    ("D. Sorensen", "R. Vance"),
    (MAIN_PHARMACY, DOCK_ANNEX),
    review_in_days=210,
)  # fmt: skip
