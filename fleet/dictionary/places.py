"""Customers, people and sites."""

from fleet.dictionary.columns import (
    Column,
    FileKind,
    choice,
    day,
    difference,
    measure,
    number,
    person,
    tag,
    temperature,
    text,
)
from fleet.dictionary.kinds import Days, Pattern
from fleet.units import Dimension

CUSTOMERS = FileKind(
    "customers",
    (
        tag("customer", "ALDER"),
        text("name", "Alder Street Market", required=True, longest=200),
        text("contact", "Jo Imani", longest=200),
        text("phone", "555 0100", longest=100),
        text("email", "jo@alder.example", longest=200),
        person("account_manager", "E. Ruiz"),
        day("review_due", "2027-01-15"),
        day("records_since", "2019-04-01"),
        text("note"),
    ),
    ("customer",),
    "who owns equipment",
)

ROLES = ("planner", "lead-technician", "technician", "account-manager", "site-staff", "other")

PEOPLE = FileKind(
    "people",
    (
        tag("person", "R. Osei"),
        text("name", "Rita Osei", longest=200),
        choice("role", ROLES, "technician", required=True),
        text("phone", "555 0101", longest=100),
        text("email", "rita@service.example", longest=200),
    ),
    ("person",),
    "everybody who records, decides or drives, site staff too",
)

JURISDICTIONS = ("US", "US-CA", "EU", "GB-ENG", "GB-WLS", "GB-SCT", "GB-NIR", "other")
_WEEKDAYS = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")
_CLOCK = r"(([01]\d|2[0-3]):[0-5]\d|24:00)"
_HOURS = Pattern(rf"closed|{_CLOCK}-{_CLOCK}(;{_CLOCK}-{_CLOCK})*", "hours like 07:00-15:00, or closed")

SITES = FileKind(
    "sites",
    (
        tag("customer", "ALDER"),
        tag("site", "Ridge Street"),
        text("name", "Ridge Street store", longest=200),
        text("address", "12 Ridge Street"),
        number("latitude", -90, 90, "44.95"),
        number("longitude", -180, 180, "-93.10"),
        measure(
            "elevation",
            Dimension.LENGTH,
            "850ft",
            lowest_si=-500.0,
            highest_si=6000.0,
            bounds="from −500 m to 6,000 m (−1,640 ft to 19,685 ft)",
        ),
        text("time_zone", "America/Chicago", longest=60),
        choice("jurisdiction", JURISDICTIONS, "US"),
        text("climate", "", longest=80),
        *(temperature(f"high_{month}", "26F" if month == 1 else "") for month in range(1, 13)),
        *(temperature(f"low_{month}", "9F" if month == 1 else "") for month in range(1, 13)),
        temperature("design_cold", "-11F"),
        temperature("extreme_cold", "-20F"),
        temperature("design_hot", "91F"),
        difference("day_spread_winter"),
        difference("day_spread_summer"),
        text("contact", "Sam Birk", longest=200),
        text("phone", "555 0102", longest=100),
        text("access_note", "dock at the rear"),
        choice("call_before", ("no", "yes"), "yes"),
        *(Column(f"access_{weekday}", _HOURS, False, "07:00-15:00") for weekday in _WEEKDAYS),
        Column("closed", Days(), False, "2026-12-25"),
        choice("leak_method", ("annualizing", "rolling"), "annualizing"),
    ),
    ("customer", "site"),
    "where equipment stands",
)
