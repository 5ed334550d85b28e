"""What all models share: the base, names of constraints, and the column types that recur."""

from datetime import date, datetime
from typing import Annotated, Any

from sqlalchemy import JSON, Boolean, Date, DateTime, Float, ForeignKey, Integer, MetaData, String, Text
from sqlalchemy.engine import Dialect
from sqlalchemy.orm import DeclarativeBase, mapped_column
from sqlalchemy.types import TypeDecorator

NAMING = {
    "ix": "ix_%(column_0_label)s",
    "uq": "uq_%(table_name)s_%(column_0_N_name)s",
    "ck": "ck_%(table_name)s_%(constraint_name)s",
    "fk": "fk_%(table_name)s_%(column_0_name)s_%(referred_table_name)s",
    "pk": "pk_%(table_name)s",
}


class CodesText(TypeDecorator[tuple[str, ...]]):
    """Several codes, kept as text with ``;`` between them; NULL where none is recorded."""

    impl = Text
    cache_ok = True

    def process_bind_param(self, value: Any, dialect: Dialect) -> str | None:
        """Join the codes; text is taken as already joined."""
        if not value:
            return None
        return value if isinstance(value, str) else ";".join(value)

    def process_result_value(self, value: Any, dialect: Dialect) -> tuple[str, ...] | None:
        """Split the codes."""
        return tuple(value.split(";")) if value else None


class Base(DeclarativeBase):
    """The base of every model of the register."""

    metadata = MetaData(naming_convention=NAMING)


Id = Annotated[int, mapped_column(Integer, primary_key=True)]
Tag = Annotated[str, mapped_column(String(80))]
"""A human name that identifies something; required."""
Label = Annotated[str, mapped_column(String(200))]
"""Short required text."""
Part = Annotated[str, mapped_column(String(100), default="")]
"""What of a system is meant: empty (the system), a box's tag, ``compressor 1``, ``group A``."""
Word = Annotated[str, mapped_column(String(40))]
"""One required word out of a list of the dictionary."""
Words = Annotated[str | None, mapped_column(String(40))]
"""One word out of a list of the dictionary."""
Prose = Annotated[str | None, mapped_column(Text)]
"""Text as somebody typed it."""
Codes = Annotated[tuple[str, ...] | None, mapped_column(CodesText)]
Quantity = Annotated[float | None, mapped_column(Float)]
"""A quantity in the SI unit that its name ends in, or a plain number."""
Whole = Annotated[int | None, mapped_column(Integer)]
Flag = Annotated[bool | None, mapped_column(Boolean)]
Day = Annotated[date | None, mapped_column(Date)]
Moment = Annotated[datetime | None, mapped_column(DateTime)]
"""A clock time local to the site, without a zone."""
DayNumber = Annotated[int | None, mapped_column(Integer)]
"""Days since 1970-01-01, where a value is derived and compared."""
Typed = Annotated[dict[str, str], mapped_column(JSON, default=dict)]
"""Quantities as they were typed, by the dictionary's name of the column."""
Version = Annotated[int, mapped_column(Integer)]
"""Counts the changes of a row, so that the second of two editors is told."""
PersonId = Annotated[int | None, mapped_column(ForeignKey("people.id"))]
ActId = Annotated[int | None, mapped_column(ForeignKey("acts.id"))]
