"""People, customers and their sites."""

from typing import TYPE_CHECKING

from sqlalchemy import ForeignKey, Index, UniqueConstraint
from sqlalchemy.orm import Mapped, mapped_column, relationship

from db.models.base import Base, Day, Id, Label, PersonId, Prose, Quantity, Tag, Typed, Word, Words
from db.models.versioned import Versioned

if TYPE_CHECKING:
    from db.models.equipment import System


class Person(Versioned, Base):
    """Somebody who records, decides or drives."""

    __tablename__ = "people"
    __table_args__ = (UniqueConstraint("person"),)

    id: Mapped[Id]
    person: Mapped[Tag]
    name: Mapped[Prose]
    role: Mapped[Word]
    phone: Mapped[Prose]
    email: Mapped[Prose]


class Customer(Versioned, Base):
    """Who owns equipment."""

    __tablename__ = "customers"
    __table_args__ = (UniqueConstraint("customer"), Index(None, "name", "id"))

    id: Mapped[Id]
    customer: Mapped[Tag]
    name: Mapped[Label]
    contact: Mapped[Prose]
    phone: Mapped[Prose]
    email: Mapped[Prose]
    account_manager_id: Mapped[PersonId]
    review_due: Mapped[Day]
    records_since: Mapped[Day]
    note: Mapped[Prose]

    sites: Mapped[list["Site"]] = relationship(back_populates="of_customer")


class Site(Versioned, Base):
    """Where equipment stands."""

    __tablename__ = "sites"
    __table_args__ = (UniqueConstraint("customer_id", "site"),)

    id: Mapped[Id]
    customer_id: Mapped[int] = mapped_column(ForeignKey("customers.id"))
    site: Mapped[Tag]
    name: Mapped[Prose]
    address: Mapped[Prose]
    latitude: Mapped[Quantity]
    longitude: Mapped[Quantity]
    elevation_m: Mapped[Quantity]
    time_zone: Mapped[Prose]
    jurisdiction: Mapped[Words]
    climate: Mapped[Prose]
    high_1_k: Mapped[Quantity]
    high_2_k: Mapped[Quantity]
    high_3_k: Mapped[Quantity]
    high_4_k: Mapped[Quantity]
    high_5_k: Mapped[Quantity]
    high_6_k: Mapped[Quantity]
    high_7_k: Mapped[Quantity]
    high_8_k: Mapped[Quantity]
    high_9_k: Mapped[Quantity]
    high_10_k: Mapped[Quantity]
    high_11_k: Mapped[Quantity]
    high_12_k: Mapped[Quantity]
    low_1_k: Mapped[Quantity]
    low_2_k: Mapped[Quantity]
    low_3_k: Mapped[Quantity]
    low_4_k: Mapped[Quantity]
    low_5_k: Mapped[Quantity]
    low_6_k: Mapped[Quantity]
    low_7_k: Mapped[Quantity]
    low_8_k: Mapped[Quantity]
    low_9_k: Mapped[Quantity]
    low_10_k: Mapped[Quantity]
    low_11_k: Mapped[Quantity]
    low_12_k: Mapped[Quantity]
    design_cold_k: Mapped[Quantity]
    extreme_cold_k: Mapped[Quantity]
    design_hot_k: Mapped[Quantity]
    day_spread_winter_k: Mapped[Quantity]
    day_spread_summer_k: Mapped[Quantity]
    contact: Mapped[Prose]
    phone: Mapped[Prose]
    access_note: Mapped[Prose]
    call_before: Mapped[Words]
    access_mon: Mapped[Prose]
    access_tue: Mapped[Prose]
    access_wed: Mapped[Prose]
    access_thu: Mapped[Prose]
    access_fri: Mapped[Prose]
    access_sat: Mapped[Prose]
    access_sun: Mapped[Prose]
    closed: Mapped[Prose]
    leak_method: Mapped[Words]
    typed: Mapped[Typed]

    of_customer: Mapped[Customer] = relationship(back_populates="sites")
    systems: Mapped[list["System"]] = relationship(back_populates="of_site")
