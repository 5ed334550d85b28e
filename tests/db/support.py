"""Small registers to test on."""

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import date, datetime
from typing import Any

from sqlalchemy import Engine, select
from sqlalchemy.orm import Session

from db.models import Box, Compressor, Customer, Person, SettingRecord, Site, System
from db.work import Work

TODAY = date(2026, 11, 25)
NOW = datetime(2026, 11, 25, 9, 30)
TODAY_DAY = 20782


def work(engine: Engine, what: str = "test", **more: Any) -> Work:
    return Work(engine, **{"by": None, "what": what, "today": TODAY, "now": NOW, **more})


@dataclass(frozen=True)
class Keys:
    """The keys of one system with everything around it."""

    person: int
    customer: int
    site: int
    system: int
    box: int
    compressor: int


def add_system(engine: Engine, tag: str = "WC-1", **facts: Any) -> Keys:
    """Add a customer of that name with one site, one system, one box and one compressor."""
    with work(engine, f"add {tag}") as adding:
        person = Person(person=f"who {tag}", name="Rita Osei", role="technician")
        customer = Customer(customer=f"of {tag}", name=f"Market of {tag}")
        site = Site(
            site="Ridge Street", of_customer=customer, elevation_m=259.0, typed={"elevation": "850ft"}
        )
        system = System(system=tag, of_site=site, **{"refrigerant": "R-404A", **facts})
        box = Box(box="B1", of_system=system, kind="walk-in-cooler")
        compressor = Compressor(of_system=system, position=1, in_service=date(2020, 1, 2))
        adding.add(person, customer, box, compressor)
        adding.commit()
        return Keys(person.id, customer.id, site.id, system.id, box.id, compressor.id)


def setting(system_id: int, value_si: float | None, recorded_on: date | None, **more: Any) -> SettingRecord:
    return SettingRecord(
        **{
            "system_id": system_id,
            "part": "B1",
            "setting": "setpoint",
            "value_si": value_si,
            "dimension": "temperature",
            "typed": "" if value_si is None else f"{value_si}K",
            "stage": "as-left",
            "recorded_on": recorded_on,
            **more,
        }
    )


def input_version(engine: Engine, system_id: int) -> int:
    with Session(engine) as session:
        return session.scalars(select(System.input_version).where(System.id == system_id)).one()


@contextmanager
def reading(engine: Engine) -> Iterator[Session]:
    with Session(engine) as session:
        yield session
