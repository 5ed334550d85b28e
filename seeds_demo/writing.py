"""Turns the customers of the demo into rows of text cells, dated from the day of making."""

from collections.abc import Iterable
from datetime import date, timedelta

from seeds_demo.checks import check_rows
from seeds_demo.parts import Cells, Compressor, Customer, Failed, Happened, Site, System
from seeds_demo.settings import settings_rows

Row = dict[str, str]
Files = dict[str, list[Row]]

FILES = ("customers", "people", "sites", "systems", "boxes", "compressors", "settings", "events", "checks")
HISTORY_DAYS = 3 * 365
"""How far back service history goes."""


def days_before(today: date, days: int) -> str:
    """Return the day so many days before ``today`` as a cell."""
    return (today - timedelta(days=days)).isoformat()


def write_files(people: Iterable[Cells], customers: Iterable[Customer], today: date) -> Files:
    """Return the rows of every file."""
    files: Files = {name: [] for name in FILES}
    files["people"] = [dict(person) for person in people]
    for customer in customers:
        _write_customer(files, customer, today)
    # References are numbered in the order in which things happened.
    files["events"].sort(
        key=lambda row: (row["happened_on"], row["customer"], row["site"], row.get("system", ""))
    )
    for number, row in enumerate(files["events"], 1001):
        row["reference"] = f"E-{number}"
    return files


def _write_customer(files: Files, customer: Customer, today: date) -> None:
    files["customers"].append(
        {
            "customer": customer.tag,
            **customer.cells,
            "review_due": (today + timedelta(days=customer.review_in_days)).isoformat(),
            "records_since": days_before(today, HISTORY_DAYS),
        }
    )
    for site in customer.sites:
        where = {"customer": customer.tag, "site": site.tag}
        files["sites"].append({**where, **_site_cells(site, today)})
        for event in site.events:
            files["events"].append(_event({**where}, event, customer.technicians[0], today))
        for number, system in enumerate(site.systems):
            technician = customer.technicians[number % len(customer.technicians)]
            _write_system(files, where, site, system, technician, today)


def _site_cells(site: Site, today: date) -> Row:
    cells = {name: cell for name, cell in site.cells.items() if cell}
    if "closed" in cells:
        # Written as days from now, as in "30/33": closed from the 30th to the 33rd day.
        days = [today + timedelta(days=int(day)) for day in cells["closed"].split("/")]
        cells["closed"] = "/".join(day.isoformat() for day in days)
    return cells


def _write_system(files: Files, where: Row, site: Site, system: System, technician: str, today: date) -> None:
    here = {**where, "system": system.tag}
    first, dated = settings_rows(system, site.last_visit, HISTORY_DAYS)
    files["systems"].append(
        {**here, "installed": days_before(today, system.age_days), **system.cells, **first.get("", {})}
    )
    for box in system.boxes:
        cells = {"name": system.cells["name"], **box.cells, **first.get(box.tag, {})}
        files["boxes"].append({**here, "box": box.tag, **cells})
    for days, cells in dated:
        recorded = {"recorded_on": days_before(today, days), "recorded_by": technician}
        files["settings"].append({**here, **recorded, **cells})
    for compressor in system.compressors:
        files["compressors"].extend(compressor_lives(here, system, compressor, today))
    for days, cells in check_rows(system, site.last_visit, HISTORY_DAYS):
        files["checks"].append({**here, "done_on": days_before(today, days), "done_by": technician, **cells})
    for part in system.parts:
        if isinstance(part, Happened):
            files["events"].append(_event(here, part, technician, today))
        elif isinstance(part, Failed):
            serial = serial_of(here, part.position, life_of(system, part))
            files["events"].append(compressor_change(here, part, serial, technician, today))


def life_of(system: System, failed: Failed) -> int:
    """Return how many compressors stood in this place before the one that failed."""
    return [other for other in system.failed if other.position == failed.position].index(failed)


def serial_of(here: Row, position: int, life: int) -> str:
    """Return a made-up serial number, the same whenever the demo is made."""
    seed = f"{here['customer']}/{here['site']}/{here['system']}/{position}/{life}"
    number = sum(ord(character) * 31**place for place, character in enumerate(seed)) % 1_000_000
    return f"{number // 100_000}D{number % 100_000:05d}"


def compressor_lives(here: Row, system: System, compressor: Compressor, today: date) -> Iterable[Row]:
    """Yield one row for each compressor that stood in this place."""
    since = system.age_days
    failed = [part for part in system.failed if part.position == compressor.position]
    for life, end in enumerate([*failed, None]):
        row = {**here, "position": str(compressor.position), "kind": compressor.kind, **compressor.cells}
        row |= {"serial": serial_of(here, compressor.position, life), "in_service": days_before(today, since)}
        if end is not None:
            row |= {"out_of_service": days_before(today, end.days_ago), "reason_out": end.cause}
            since = end.days_ago
        yield row


def _event(where: Row, event: Happened, technician: str, today: date) -> Row:
    day = days_before(today, event.days_ago)
    row = {**where, "part": event.part, "kind": event.kind, "happened_on": day, "recorded_by": technician}
    for name, cell in event.cells.items():
        # Clock times are written without their day.
        row[name] = f"{day}T{cell}" if name.endswith("_at") else cell
    return {name: cell for name, cell in {**row, "note": event.note}.items() if cell}


def compressor_change(here: Row, failed: Failed, serial: str, technician: str, today: date) -> Row:
    """Return the event of a compressor change; the serial number is that of the one taken out."""
    cells = {"compressor_serial": serial, "evidence": failed.evidence}
    event = Happened(
        failed.days_ago, "compressor-change", failed.note, cells, f"compressor {failed.position}"
    )
    return _event(here, event, technician, today)
