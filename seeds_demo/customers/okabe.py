"""Okabe Fish House [岡部鮮魚]: an invented fishmonger with two places."""

from seeds_demo.climates import COAST, VALLEY
from seeds_demo.parts import Customer, Failed, Happened, Turned
from seeds_demo.places import BEFORE_OPENING, site
from seeds_demo.usual import ONE_TIME, cooler, freezer, plug_in, reach_in, scroll, semi, split

PIER_NINE = site(
    "Pier 9 岸壁", COAST, "12ft", "47.60 -122.40", 20,
    split("WC-1", "活魚 cooler [tank side]", "R-404A", "25psig", "12psig",
          cooler("34F", td="8F", stored="fish"),
          coil_above_receiver="12ft", charge="17lb"),
    split("WC-2", "oyster cooler", "R-448A", "22psig", "8psig", cooler("35F", td="9F", stored="fish"),
          scroll(),
          start_delay="call", start_delay_time="120s", charge="14lb"),
    split("WF-1", "tuna freezer 鮪", "R-404A", "8psig", "1.5psig",
          freezer("-20F", "4F", td="8F", stored="fish"),
          semi(crankcase_heater="failed"),
          Failed(500, "flooded_start", "torn journals, box had been off over the holidays",
                 "td_journals_erratic;st_after_long_rest;st_oil_high_when_off"),
          Happened(498, "repair", "new solenoid as well: it had leaked through"), charge="29lb"),
    zone="America/Los_Angeles", contact="岡部 健", phone="555 0142", access=BEFORE_OPENING,
)  # fmt: skip
MARKET_HALL = site(
    "Market Hall", VALLEY, "640ft", "39.10 -84.50", 36,
    split("WC-1", "fish cooler", "R-513A", "9psig", "2psig", cooler("35F", "", td="9F", stored="fish"),
          strategy=ONE_TIME,
          charge="10lb"),
    split("WF-1", "freezer", "R-404A", "14psig", "4psig", freezer("-5F", stored="fish"),
          Turned(130, "low_pressure_cut_out", "7psig", "4psig", "for the longest night", confirmed="none"),
          Failed(1000, "unknown", "sent back without being opened"), charge="18lb"),
    plug_in("RI-1", "sashimi case", "R-290", "130g", reach_in("33F", "3F", stored="fish")),
    access=BEFORE_OPENING,
)  # fmt: skip

OKABE = Customer(
    "OKABE",
    {"name": "Okabe Fish House [岡部鮮魚]", "contact": "Ken Okabe", "phone": "555 0142",
     "email": "ken@okabe.example",
     "account_manager": "G. Whitlock", "note": "demo: invented customer, invented names and numbers"},
    ("J. Okonjo",),
    (PIER_NINE, MARKET_HALL),
    review_in_days=5,
)  # fmt: skip
