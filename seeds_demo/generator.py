"""Fleets of any size, made of copies of the demo's systems; the same seed gives the same rows.

About a quarter of the systems carry a fault of the kind planted in the demo. Names are put together
from lists; nothing in it is real. `generate_blocks` yields one customer after another, so that a
large fleet need not be held in memory; `generate_files` holds it all.
"""

from collections.abc import Iterator
from datetime import date, timedelta
from random import Random

from seeds_demo.people import PEOPLE
from seeds_demo.templates import SiteTemplate, Template, site_templates
from seeds_demo.visits import BETWEEN_VISITS_DAYS
from seeds_demo.writing import (
    FILES,
    HISTORY_DAYS,
    Files,
    Row,
    compressor_change,
    compressor_lives,
    life_of,
    serial_of,
)

SYSTEMS_PER_SITE = 25
SITES_PER_CUSTOMER = 12
FAULTY_SHARE = 0.25
SEVERAL_BOXES_WEIGHT = 0.85
"""How much more often a system with several boxes is copied; gives about 1.4 boxes a system."""

_FIRST = ("Amber", "Birch", "Cedar", "Dover", "Ember", "Fallow", "Garnet", "Hazel", "Ivory", "Juniper")
_SECOND = ("Fork", "Gate", "Hill", "Lane", "Mill", "Quay", "Ridge", "Spring", "Vale", "Yard")
_TRADE = ("Grocers", "Kitchens", "Provisions", "School Meals", "Dairy", "Markets", "Clinics", "Fish House")
_TECHNICIANS = tuple(person["person"] for person in PEOPLE if person["role"] == "technician")


def generate_files(boxes: int, seed: int, today: date) -> Files:
    """Return a fleet of exactly ``boxes`` boxes as rows by file name.

    >>> files = generate_files(20, seed=1, today=date(2027, 1, 15))
    >>> len(files["boxes"])
    20
    """
    files: Files = {name: [] for name in FILES}
    for block in generate_blocks(boxes, seed, today):
        for name, rows in block.items():
            files[name].extend(rows)
    return files


def generate_blocks(boxes: int, seed: int, today: date) -> Iterator[Files]:
    """Yield the same fleet customer by customer; the first block holds the people."""
    fleet = _Fleet(seed, today)
    yield {**{name: [] for name in FILES}, "people": [dict(person) for person in PEOPLE]}
    left, number = boxes, 0
    while left > 0:
        number += 1
        block = fleet.customer(number, left)
        left -= len(block["boxes"])
        yield block


class _Fleet:
    """The state of one run: the random numbers, the days as text, the event counter."""

    def __init__(self, seed: int, today: date) -> None:
        self._random = Random(seed)
        self._today = today
        self._days = [(today - timedelta(days=days)).isoformat() for days in range(HISTORY_DAYS * 10)]
        self._templates = site_templates()
        self._events = 0

    def customer(self, number: int, boxes_left: int) -> Files:
        """Return one customer with its sites, at most ``boxes_left`` boxes."""
        files: Files = {name: [] for name in FILES}
        random = self._random
        tag = f"C{number:04d}"
        name = f"{random.choice(_FIRST)} {random.choice(_SECOND)} {random.choice(_TRADE)} {number}"
        files["customers"].append(
            {
                "customer": tag,
                "name": name,
                "email": f"{tag.lower()}@generated.example",
                "account_manager": random.choice(("P. Castellano", "G. Whitlock")),
                "review_due": (self._today + timedelta(days=random.randint(5, 360))).isoformat(),
                "records_since": self._days[HISTORY_DAYS],
                "note": "generated: invented customer, invented names and numbers",
            }
        )
        for place in range(1, random.randint(SITES_PER_CUSTOMER // 2, SITES_PER_CUSTOMER * 3 // 2) + 1):
            left = boxes_left - len(files["boxes"])
            if left <= 0:
                break
            self._site(files, tag, place, left)
        return files

    def _site(self, files: Files, customer: str, place: int, boxes_left: int) -> None:
        random = self._random
        template = random.choice(self._templates)
        tag = f"{random.choice(_FIRST)} {random.choice(_SECOND)} {place}"
        where = {"customer": customer, "site": tag}
        cells = {name: cell for name, cell in template.site.cells.items() if name not in _OWN_OF_A_SITE}
        files["sites"].append({**where, **cells, "name": tag})
        technician, last_visit = random.choice(_TECHNICIANS), random.randint(5, 85)
        count = random.randint(SYSTEMS_PER_SITE - 15, SYSTEMS_PER_SITE + 15)
        for number, chosen in enumerate(self._choose(template, count), 1):
            if boxes_left <= 0:
                break
            if len(chosen.system.boxes) > boxes_left:
                chosen = next(one for one in template.sound if len(one.system.boxes) == 1)
            here = {**where, "system": f"S-{number:02d}"}
            self._system(files, here, chosen, technician, last_visit)
            boxes_left -= len(chosen.system.boxes)

    def _choose(self, template: SiteTemplate, count: int) -> Iterator[Template]:
        random = self._random
        pools = {faulty: pool for faulty, pool in ((True, template.faulty), (False, template.sound)) if pool}
        weights = {
            faulty: [len(one.system.boxes) ** SEVERAL_BOXES_WEIGHT for one in pool]
            for faulty, pool in pools.items()
        }
        for _ in range(count):
            faulty = random.random() < FAULTY_SHARE
            if faulty not in pools:
                faulty = not faulty
            yield random.choices(pools[faulty], weights[faulty])[0]

    def _system(self, files: Files, here: Row, chosen: Template, technician: str, last_visit: int) -> None:
        """Write one system."""
        system, days = chosen.system, self._days
        row = {**here, "installed": days[system.age_days], **chosen.columns}
        if chosen.cut_in_too_high_psig is not None:
            further = chosen.cut_in_too_high_psig + self._random.randint(0, 12) / 2
            row["low_pressure_cut_in"] = f"{further:g}psig"
        files["systems"].append(row)
        name = system.cells["name"]
        files["boxes"] += [{**here, "box": box.tag, "name": name, **box.cells} for box in system.boxes]
        last_visit = min(last_visit, system.age_days)
        left = {"recorded_on": days[last_visit], "recorded_by": technician}
        files["settings"] += [{**here, **cells, **left} for cells in chosen.part_settings]
        self._settings(files, here, row, technician, last_visit)
        for compressor in system.compressors:
            files["compressors"] += compressor_lives(here, system, compressor, self._today)
        for failed in system.failed:
            self._events += 1
            serial = serial_of(here, failed.position, life_of(system, failed))
            event = compressor_change(here, failed, serial, technician, self._today)
            files["events"].append({"reference": f"G-{self._events}", **event})
        if system.idle_days is None:
            files["checks"] += self._checks(here, chosen, technician, last_visit)

    def _settings(self, files: Files, here: Row, row: Row, technician: str, last_visit: int) -> None:
        """Of every third system the pair was read again on the last visit."""
        if "low_pressure_cut_out" not in row or self._random.random() > 1 / 3:
            return
        found = {"stage": "as-found", "recorded_on": self._days[last_visit], "recorded_by": technician}
        for setting in ("low_pressure_cut_in", "low_pressure_cut_out"):
            read = {"setting": setting, "value": row[setting], "confirmed": "gauge"}
            files["settings"].append({**here, **read, **found})

    def _checks(self, here: Row, chosen: Template, technician: str, last_visit: int) -> Iterator[Row]:
        """Yield when each check was last done, where that was after the installation."""
        days = self._days
        for code, part, months, minutes in chosen.lines:
            ago = chosen.last_done.get((code, part))
            if ago is None:
                ago = last_visit + BETWEEN_VISITS_DAYS * (_VISITS_BACK[months] if last_visit % 2 else 0)
            if ago >= chosen.system.age_days:
                continue
            row = {**here, "check_code": code, "done_on": days[ago], "done_by": technician}
            row |= {"result": "done", "found": "nothing", "minutes": f"{minutes}min"}
            yield {**row, "part": part} if part else row


_VISITS_BACK = {3: 0, 6: 1, 12: 3}
"""How many visits ago a check of so many months was done, at sites of the slower turn."""
_OWN_OF_A_SITE = frozenset({"name", "address", "contact", "phone", "access_note", "closed"})
