"""Bramley Fold Dairy: an invented dairy with four places on a cool island; cells typed in metric."""

from seeds_demo.climates import LOWLAND, UPLAND
from seeds_demo.parts import Customer, Failed, Happened, LastDone, Turned
from seeds_demo.places import WEEKDAYS_FROM_SEVEN, site
from seeds_demo.usual import (
    INDOORS_METRIC,
    THERMOSTAT,
    cooler,
    freezer,
    plug_in,
    reach_in,
    scroll,
    semi,
    split,
)

COLDHARBOUR = site(
    "Coldharbour", LOWLAND, "35m", "52.20 0.40", 15,
    split("CR-1", "milk store", "R-448A", "1.5bar", "0.6bar", cooler("2.2C", "2K", td="5.6K", stored="dairy"),
          cooler("3C", "2K", tag="B2", td="5.6K", name="cream store", stored="dairy"), charge="14.5kg",
          line_loss="1.1K"),
    split("CR-2", "cheese store", "R-407A", "1.4bar", "0.55bar", cooler("4C", "2K", td="5K", stored="dairy"),
          charge="9.2kg"),
    split("CR-3", "dispatch", "R-134a", "0.75bar", "0.2bar", cooler("3C", "2K", td="6K"),
          scroll(lowest_suction="0.83bara"),
          Turned(545, "low_pressure_cut_in", "1.15bar", "0.75bar", "margin for the cold week"),
          charge="6.1kg"),
    split("FR-1", "butter freezer", "R-404A", "0.9bar", "0.3bar",
          freezer("-20C", "2K", td="5K", stored="dairy"), charge="11kg"),
    jurisdiction="GB-ENG", zone="Europe/London", access=WEEKDAYS_FROM_SEVEN,
)  # fmt: skip
FELLGATE = site(
    "Fellgate Creamery", UPLAND, "240m", "55.60 -2.80", 44,
    split("CR-1", "ripening room", "R-449A", "103kPa", "21kPa", cooler("6C", "2K", td="5K", stored="dairy"),
          charge="8kg"),
    split("CR-2", "whey store", "R-404A", "1.7bar", "0.7bar", cooler("2C", "2K", td="6K", stored="dairy"),
          charge="10.4kg",
          low_pressure_differential="0.8bar"),
    split("FR-1", "culture freezer", "R-448A", "0.65bar", "0.15bar", freezer("-20C", "2K", td="5K"),
          semi(crankcase_heater="off"),
          Failed(640, "flooded_start", "knocked and stopped after the shutdown",
                 "st_knock_start_fades;st_heater_off"),
          Failed(250, "flooded_start", "seized; heater found switched off again",
                 "td_journals_erratic;td_washout;st_heater_off"),
          Happened(250, "repair", "heater labelled: leave on"), charge="7kg"),
    jurisdiction="GB-SCT", zone="Europe/London", access=WEEKDAYS_FROM_SEVEN,
)  # fmt: skip
SALLOWMERE = site(
    "Sallowmere Depot", LOWLAND, "12m", "51.60 -3.00", 69,
    split("CR-1", "yoghurt store", "R-455A", "1.4bar", "0.6bar", cooler("3C", "2K", td="6K", stored="dairy"),
          age=1100,
          charge="5.9kg"),
    split("CR-2", "returns cooler", "R-449A", "1.5bar", "0.6bar", cooler("4C", "2K", td="6K"), placement="",
          receiver_place="",
          charge="", manual_note="behind the racking, nobody has seen the unit"),
    split("FR-1", "ice cream", "R-455A", "0.55bar", "0.1bar",
          freezer("-20C", "2K", td="5K", stored="ice-cream"), age=1100,
          charge="7.7kg"),
    jurisdiction="GB-WLS", zone="Europe/London", access=WEEKDAYS_FROM_SEVEN,
)  # fmt: skip
QUARRYBANK = site(
    "Quarrybank Shop", UPLAND, "180m", "54.10 -2.30", 97,
    split("CR-1", "farm shop cooler", "R-449A", "1.05bar", "0.25bar", cooler("3C", "2K", td="6K"),
          LastDone("evaporator_coil", 460, "B1"),
          charge="4.8kg"),
    split("CR-2", "cheese counter", "R-134a", "0.7bar", "0.15bar",
          cooler("4C", "2K", td="6K", stored="dairy"), strategy=THERMOSTAT,
          low_pressure_control="lock-out", charge="3.3kg", place=INDOORS_METRIC),
    plug_in("RI-1", "drinks cabinet", "R-290", "0.11kg", reach_in("4C", "2K", td="10K", stored="beverages")),
    plug_in("RI-2", "sandwich cabinet", "R-290", "98g", reach_in("3C", "2K", td="10K")),
    jurisdiction="GB-ENG", zone="Europe/London", access=WEEKDAYS_FROM_SEVEN,
)  # fmt: skip

BRAMLEY = Customer(
    "BRAMLEY",
    {"name": "Bramley Fold Dairy", "contact": "Stella Pym", "phone": "555 0144",
     "email": "stella@bramley.example",
     "account_manager": "G. Whitlock", "note": "demo: invented customer, invented names and numbers"},
    ("H. Lindqvist",),
    (COLDHARBOUR, FELLGATE, SALLOWMERE, QUARRYBANK),
    review_in_days=75,
)  # fmt: skip
