"""What a cell may hold: each kind reads typed text, refuses what it cannot accept, writes it back."""

import re
from abc import ABC, abstractmethod
from dataclasses import dataclass
from datetime import date, datetime

from fleet.dictionary.words import Word
from fleet.errors import InputError, QuantityError, UnknownNameError, nearest_names
from fleet.properties.catalogue import refrigerant
from fleet.units import Dimension, Quantity, parse

Value = str | int | float | bool | date | datetime | Quantity | tuple[str, ...]
"""What a read cell can be."""


class Kind(ABC):
    """One kind of cell."""

    @abstractmethod
    def read(self, text: str) -> Value:
        """Read a cell that is not empty.

        Raises:
            InputError: the message says what would be accepted.
        """

    @property
    @abstractmethod
    def accepted(self) -> str:
        """What the cell accepts, in words, for templates and messages."""

    def write(self, value: Value) -> str:
        """Write a value so that `read` gives it back."""
        return str(value)


@dataclass(frozen=True, slots=True)
class Text(Kind):
    """Free text."""

    longest: int = 2000

    @property
    def accepted(self) -> str:
        """What the cell accepts."""
        return f"text of up to {self.longest} characters"

    def read(self, text: str) -> str:
        """Read the text, refusing what no terminal and no database can hold."""
        if "\x00" in text:
            raise InputError("a NUL character cannot be kept; expected plain text")
        if len(text) > self.longest:
            raise InputError(f"{len(text)} characters; expected {self.accepted}")
        return text


@dataclass(frozen=True, slots=True)
class TagText(Text):
    """A short human name that identifies something."""

    longest: int = 80


@dataclass(frozen=True, slots=True)
class BoxTag(Text):
    """The tag of a box; it may not read like a compressor or a group."""

    longest: int = 80

    def read(self, text: str) -> str:
        """Read the tag."""
        if text.casefold().startswith(("compressor ", "group ")):
            raise InputError("a box's tag may not begin with 'compressor ' or 'group '; expected another tag")
        return Text.read(self, text)


@dataclass(frozen=True, slots=True)
class Refrigerant(Kind):
    """A refrigerant by its ASHRAE 34 designation."""

    @property
    def accepted(self) -> str:
        """What the cell accepts."""
        return "an ASHRAE 34 designation like R-404A"

    def read(self, text: str) -> str:
        """Read the designation in any spelling; give back the catalogue's."""
        return refrigerant(text).name


@dataclass(frozen=True, slots=True)
class Number(Kind):
    """A plain number: a count, a share, an angle."""

    lowest: float
    highest: float
    whole: bool = False
    unit: str = ""

    @property
    def accepted(self) -> str:
        """What the cell accepts."""
        kind = "a whole number" if self.whole else "a number"
        unit = f" {self.unit}" if self.unit else ""
        return f"{kind} from {self.lowest:g} to {self.highest:g}{unit}"

    def read(self, text: str) -> int | float:
        """Read the number, with or without its unit."""
        bare = text.removesuffix(self.unit).strip() if self.unit else text
        try:
            number = float(bare.replace("−", "-"))
        except ValueError:
            raise InputError(f"expected {self.accepted}") from None
        if not self.lowest <= number <= self.highest or (self.whole and number != int(number)):
            raise InputError(f"expected {self.accepted}")
        return int(number) if self.whole else number


@dataclass(frozen=True, slots=True)
class Measure(Kind):
    """A quantity with its unit, of one or several dimensions."""

    dimensions: tuple[Dimension, ...]
    lowest_si: float = float("-inf")
    highest_si: float = float("inf")
    bounds: str = ""

    @property
    def accepted(self) -> str:
        """What the cell accepts."""
        words = " or ".join(f"a {d.value} like {d.example}" for d in self.dimensions)
        return f"{words}, {self.bounds}" if self.bounds else words

    def read(self, text: str) -> Quantity:
        """Read the quantity."""
        quantity = parse(text, *self.dimensions)
        if not self.lowest_si <= quantity.value_si <= self.highest_si:
            raise QuantityError(f"expected {self.accepted}")
        return quantity

    def write(self, value: Value) -> str:
        """Write the quantity as it was typed."""
        assert isinstance(value, Quantity)
        return value.text


@dataclass(frozen=True, slots=True)
class Choice(Kind):
    """One word out of a list."""

    words: tuple[str, ...]

    @classmethod
    def of(cls, words: type[Word]) -> "Choice":
        """Make the choice from a list of words."""
        return cls(tuple(word.value for word in words))

    @property
    def accepted(self) -> str:
        """What the cell accepts."""
        return "one of " + ", ".join(self.words)

    def read(self, text: str) -> str:
        """Read the word."""
        if text in self.words:
            return text
        near = nearest_names(text, self.words)
        hint = f"; nearest: {', '.join(near)}" if near else ""
        raise InputError(f"expected {self.accepted}{hint}")


@dataclass(frozen=True, slots=True)
class Choices(Kind):
    """Several words out of a list (any words where the list is empty), with ``;`` between them."""

    words: tuple[str, ...] = ()

    @property
    def accepted(self) -> str:
        """What the cell accepts."""
        return f"any of {', '.join(self.words)}, with ; between" if self.words else "codes, with ; between"

    def read(self, text: str) -> tuple[str, ...]:
        """Read the words."""
        found = tuple(part.strip() for part in text.split(";") if part.strip())
        unknown = [part for part in found if self.words and part not in self.words]
        if unknown:
            raise InputError(f"{unknown[0]!r} is not in the list; expected {self.accepted}")
        return found

    def write(self, value: Value) -> str:
        """Write the words with ``;`` between them."""
        assert isinstance(value, tuple)
        return ";".join(value)


@dataclass(frozen=True, slots=True)
class YesOrNo(Kind):
    """``yes`` or ``no``."""

    @property
    def accepted(self) -> str:
        """What the cell accepts."""
        return "yes or no"

    def read(self, text: str) -> bool:
        """Read the answer."""
        if text.casefold() not in {"yes", "no"}:
            raise InputError("expected yes or no")
        return text.casefold() == "yes"

    def write(self, value: Value) -> str:
        """Write the answer."""
        return "yes" if value else "no"


@dataclass(frozen=True, slots=True)
class Day(Kind):
    """A calendar day."""

    @property
    def accepted(self) -> str:
        """What the cell accepts."""
        return "a date like 2026-11-25"

    def read(self, text: str) -> date:
        """Read the day."""
        try:
            day = date.fromisoformat(text)
        except ValueError:
            raise InputError(f"expected {self.accepted}") from None
        if not 1900 <= day.year <= 2200:
            raise InputError(f"expected {self.accepted}, between 1900 and 2200")
        return day


@dataclass(frozen=True, slots=True)
class Moment(Kind):
    """A day with a clock time, local to the site."""

    @property
    def accepted(self) -> str:
        """What the cell accepts."""
        return "a date and time like 2026-11-25T14:30"

    def read(self, text: str) -> datetime:
        """Read the moment."""
        try:
            moment = datetime.fromisoformat(text)
        except ValueError:
            raise InputError(f"expected {self.accepted}") from None
        if moment.tzinfo is not None:
            raise InputError(f"expected {self.accepted}, local to the site, without a zone")
        return moment

    def write(self, value: Value) -> str:
        """Write the moment."""
        assert isinstance(value, datetime)
        return value.isoformat(timespec="minutes")


@dataclass(frozen=True, slots=True)
class Pattern(Kind):
    """Text of a fixed pattern: opening hours, a day of the year, a list of dates."""

    pattern: str
    accepted_words: str

    @property
    def accepted(self) -> str:
        """What the cell accepts."""
        return self.accepted_words

    def read(self, text: str) -> str:
        """Read text of the pattern."""
        if re.fullmatch(self.pattern, text) is None:
            raise InputError(f"expected {self.accepted}")
        return text


@dataclass(frozen=True, slots=True)
class Days(Kind):
    """Days and ranges of days, with ``;`` between."""

    @property
    def accepted(self) -> str:
        """What the cell accepts."""
        return "dates or ranges like 2026-12-25;2027-01-01/2027-01-03"

    def read(self, text: str) -> str:
        """Read the days; give them back as they were typed."""
        for span in text.split(";"):
            ends = span.strip().split("/")
            try:
                days = [date.fromisoformat(end) for end in ends]
            except ValueError:
                raise InputError(f"expected {self.accepted}") from None
            if len(days) > 2 or days != sorted(days):
                raise InputError(f"expected {self.accepted}")
        return text


@dataclass(frozen=True, slots=True)
class Reference(Kind):
    """A tag of something else in the register: a person, a customer, a site."""

    to: str

    @property
    def accepted(self) -> str:
        """What the cell accepts."""
        return f"a {self.to} of the register"

    def read(self, text: str) -> str:
        """Read the tag; whether it exists is known only beside the register."""
        return text


__all__ = [
    "BoxTag",
    "Choice",
    "Choices",
    "Day",
    "Days",
    "Kind",
    "Measure",
    "Moment",
    "Number",
    "Pattern",
    "Reference",
    "Refrigerant",
    "TagText",
    "Text",
    "UnknownNameError",
    "Value",
    "YesOrNo",
]
