"""Lindenmarkt eG: invented markets inland and in an alpine valley; cells typed in metric."""

from seeds_demo.climates import ALPINE, INLAND
from seeds_demo.parts import Customer, Failed, Group, Happened, LastDone, Turned
from seeds_demo.places import WEEKDAYS_FROM_SEVEN, site
from seeds_demo.usual import (
    INDOORS_METRIC,
    case,
    cooler,
    freezer,
    frozen_case,
    plug_in,
    rack,
    reach_in,
    scroll,
    semi,
    split,
    with_cut_out,
)

KOEHLERSTRASSE = site(
    "Köhlerstraße", INLAND, "520m", "48.70 11.40", 27,
    rack("VB-1", "Verbund Kühlung", "R-744", Group("A", "28.8bar"), Group("B", "14.4bar"),
         *with_cut_out(semi(1), "7bar"), *with_cut_out(semi(2), "7bar"), *with_cut_out(semi(3), "7.5bar"),
         case("1.1C", "2K", tag="KM-1", td="5.6K", name="Molkereiregal", suction_group="A", stored="dairy"),
         case("1.5C", "2K", tag="KM-2", td="5.6K", name="Obst und Gemüse", suction_group="A",
              stored="produce"),
         frozen_case("-22C", "2K", tag="TK-1", td="4.5K", name="Tiefkühlinsel", suction_group="B"),
         freezer("-22C", "2K", tag="TK-2", td="4.5K", name="Tiefkühlraum", suction_group="B"),
         charge="160kg", leak_detection="direct", age=1300, place=INDOORS_METRIC),
    split("KR-1", "Anlieferung", "R-449A", "1.6bar", "0.7bar", cooler("3C", "2K", td="6K"), charge="9kg"),
    split("KR-2", "Getränke", "R-134a", "0.52bar", "0.1bar", cooler("4C", "2K", td="7K", stored="beverages"),
          charge="6kg"),
    split("TK-1", "Tiefkühlraum Bäckerei", "R-404A", "0.95bar", "0.3bar", freezer("-20C", "2K", td="5K"),
          charge="10kg",
          read_with="remote"),
    jurisdiction="EU", zone="Europe/Berlin", access=WEEKDAYS_FROM_SEVEN,
)  # fmt: skip
UFERWEG = site(
    "Uferweg", INLAND, "430m", "49.40 10.90", 55,
    rack("VB-1", "Verbund alt", "R-448A", Group("A", "2.4bar"), Group("B", "0.75bar"),
         *with_cut_out(scroll(1), "0.2bar"), *with_cut_out(scroll(2), "0.2bar"),
         *with_cut_out(scroll(3), "0.2bar"),
         case("1.1C", "2K", tag="KM-1", td="5.6K", name="Wurstregal", suction_group="A", stored="meat"),
         cooler("2C", "2K", tag="KR-9", td="5.6K", name="Fleischkühlraum", suction_group="A", stored="meat"),
         frozen_case("-22C", "2K", tag="TK-1", td="4.5K", name="Tiefkühlinsel", suction_group="B"),
         Turned(380, "group_suction", "3.2bar", "2.4bar", "lowered for a warm Wurstregal, never put back",
                part="group A"),
         Failed(505, "electrical", "windings burned evenly, contactor chattered",
                "td_all_windings_burned;st_contactor_unbalance", 2),
         LastDone("rack", 230), charge="130kg", leak_detection="indirect", place=INDOORS_METRIC),
    rack("VB-2", "Verbund Normalkühlung", "R-407A", Group("A", "3.1bar"),
         *with_cut_out(semi(1), "0.6bar"), *with_cut_out(semi(2), "2.3bar"),
         case("1.1C", "2K", tag="KM-3", td="5.6K", name="Käsetheke", suction_group="A", stored="dairy"),
         case("1.2C", "2K", tag="KM-4", td="5.6K", name="Frischfisch", suction_group="A", stored="fish"),
         charge="60kg", place=INDOORS_METRIC),
    split("KR-1", "Blumen", "R-290", "0.7bar", "-0.2bar", cooler("4C", "2K", td="5K", stored="flowers"),
          age=800, charge="0.9kg"),
    jurisdiction="EU", zone="Europe/Berlin", access=WEEKDAYS_FROM_SEVEN,
)  # fmt: skip
BERGTOR = site(
    "Bergtor", ALPINE, "1050m", "47.30 11.90", 68,
    split("KR-1", "Milchlager", "R-407A", "2.2bar", "0.6bar", cooler("2C", "2K", td="6K", stored="dairy"),
          charge="8kg"),
    split("KR-2", "Gemüselager", "R-448A", "1.1bar", "0.3bar", cooler("3C", "2K", td="5K", stored="produce"),
          Happened(120, "call", "Tür stand offen", {"called_at": "06:50", "arrived_at": "08:30",
                                                    "restored_at": "09:10"}), charge="7kg"),
    split("TK-1", "Tiefkühlraum", "R-744", "14bar", "4.5bar", freezer("-20C", "2K", td="5K"), age=1000,
          charge="9kg"),
    jurisdiction="EU", zone="Europe/Vienna", access=WEEKDAYS_FROM_SEVEN,
)  # fmt: skip
HAFENPLATZ = site(
    "Hafenplatz", INLAND, "12m", "", 49,
    split("KR-1", "Kühlraum [Süd] 冷蔵", "R-454A", "1.3bar", "0.4bar", cooler("3C", "2K", td="6K"), age=700,
          charge="4.2kg"),
    split("TK-1", "Tiefkühlraum", "R-454A", "0.7bar", "0.15bar", freezer("-20C", "2K", td="5K"), age=700,
          charge="5.5kg"),
    plug_in("KS-1", "Snackkühler", "R-290", "0.148kg", reach_in("4C", "2K", td="10K")),
    jurisdiction="EU", zone="Europe/Berlin", access_note="Zufahrt über den Kai", access=WEEKDAYS_FROM_SEVEN,
)  # fmt: skip

LINDEN = Customer(
    "LINDEN",
    {"name": "Lindenmarkt eG", "contact": "Franziska Amsel", "phone": "555 0143",
     "email": "franziska@lindenmarkt.example",
     "account_manager": "P. Castellano", "note": "demo: invented customer, invented names and numbers"},
    ("H. Lindqvist", "L. Achterberg"),
    (KOEHLERSTRASSE, UFERWEG, BERGTOR, HAFENPLATZ),
    review_in_days=33,
)  # fmt: skip
