"""How the customers' pages write a site down."""

from seeds_demo.parts import Cells, Happened, Site, System


def site(
    tag: str,
    climate: Cells,
    elevation: str,
    position: str,
    last_visit: int,
    *systems: System,
    events: tuple[Happened, ...] = (),
    jurisdiction: str = "US",
    zone: str = "America/Chicago",
    access: Cells,
    **cells: str,
) -> Site:
    """Return a site; ``position`` is an invented latitude and longitude, or empty where unknown."""
    where = dict(zip(("latitude", "longitude"), position.split(), strict=False))
    place = {"name": tag, "elevation": elevation, "jurisdiction": jurisdiction, "time_zone": zone}
    return Site(tag, {**place, **where, **climate, **access, **cells}, last_visit, systems, events)


WEEKDAYS_FROM_SEVEN: Cells = {
    **{f"access_{day}": "07:00-15:00" for day in ("mon", "tue", "wed", "thu", "fri")},
    "access_sat": "closed",
    "access_sun": "closed",
}
ANY_TIME: Cells = {}
BEFORE_OPENING: Cells = {
    **{f"access_{day}": "06:00-11:00" for day in ("tue", "wed", "thu", "fri", "sat")},
    "access_mon": "06:00-16:00",
    "access_sun": "closed",
    "call_before": "yes",
}
