"""A column of a file, and the short spellings in which the files are written down."""

from dataclasses import dataclass

from fleet.dictionary.kinds import (
    Choice,
    Choices,
    Day,
    Kind,
    Measure,
    Moment,
    Number,
    Pattern,
    Reference,
    TagText,
    Text,
    YesOrNo,
)
from fleet.dictionary.words import Word
from fleet.units import Dimension

BOX_RANGE = (173.15, 393.15, "from −100 °C to 120 °C (−148 °F to 248 °F)")
"""The temperatures that a place on Earth or a box can have, in K and in words."""


@dataclass(frozen=True, slots=True)
class Column:
    """One column: its name in files and options, what its cells hold, whether it may be empty."""

    name: str
    kind: Kind
    required: bool = False
    example: str = ""

    @property
    def attribute(self) -> str:
        """The name inside, with the unit at its end: ``charge`` is ``charge_kg``."""
        if isinstance(self.kind, Measure) and len(self.kind.dimensions) == 1:
            return f"{self.name}_{self.kind.dimensions[0].suffix}"
        if isinstance(self.kind, Reference):
            return f"{self.name}_id"
        return self.name

    @property
    def option(self) -> str:
        """The name of the command option."""
        return "--" + self.name.replace("_", "-")


@dataclass(frozen=True, slots=True)
class FileKind:
    """One kind of file: its columns, and those that together identify a row."""

    name: str
    columns: tuple[Column, ...]
    key: tuple[str, ...]
    about: str
    settings_columns: tuple[Column, ...] = ()
    """Settings that may stand as columns here; each becomes a first as-found."""

    @property
    def file_name(self) -> str:
        """The name of the CSV file."""
        return f"{self.name}.csv"

    @property
    def all_columns(self) -> tuple[Column, ...]:
        """Own columns, then those of settings."""
        return self.columns + self.settings_columns

    def column(self, name: str) -> Column | None:
        """Return a column by name, None where there is none."""
        return next((column for column in self.all_columns if column.name == name), None)


def text(name: str, example: str = "", *, required: bool = False, longest: int = 2000) -> Column:
    """Return a column of free text."""
    return Column(name, Text(longest), required, example)


def tag(name: str, example: str) -> Column:
    """Return a required column that identifies something."""
    return Column(name, TagText(), True, example)


def choice(
    name: str, words: type[Word] | tuple[str, ...], example: str = "", *, required: bool = False
) -> Column:
    """Return a column of one word out of a list."""
    kind = Choice(words) if isinstance(words, tuple) else Choice.of(words)
    return Column(name, kind, required, example)


def choices(name: str, words: tuple[str, ...] = (), example: str = "") -> Column:
    """Return a column of several words."""
    return Column(name, Choices(words), False, example)


def measure(name: str, dimension: Dimension, example: str = "", **bounds: float | str) -> Column:
    """Return a column of a quantity."""
    return Column(name, Measure((dimension,), **bounds), False, example)  # type: ignore[arg-type]


def difference(name: str, example: str = "") -> Column:
    """Return a column of a temperature difference, which is never negative here."""
    kind = Measure((Dimension.TEMPERATURE_DIFFERENCE,), 0.0, 100.0, "from 0 to 100 K (180 °F)")
    return Column(name, kind, False, example)


def temperature(name: str, example: str = "") -> Column:
    """Return a column of a temperature that a place on Earth or a box can have."""
    kind = Measure((Dimension.TEMPERATURE,), *BOX_RANGE)
    return Column(name, kind, False, example)


def number(
    name: str,
    lowest: float,
    highest: float,
    example: str = "",
    *,
    whole: bool = False,
    unit: str = "",
    required: bool = False,
) -> Column:
    """Return a column of a plain number."""
    return Column(name, Number(lowest, highest, whole, unit), required, example)


def day(name: str, example: str = "", *, required: bool = False) -> Column:
    """Return a column of a calendar day."""
    return Column(name, Day(), required, example)


def moment(name: str, example: str = "") -> Column:
    """Return a column of a day with a clock time."""
    return Column(name, Moment(), False, example)


def yes_no(name: str, example: str = "") -> Column:
    """Return a column of yes or no."""
    return Column(name, YesOrNo(), False, example)


def person(name: str, example: str = "", *, required: bool = False) -> Column:
    """Return a column that names a person of people.csv."""
    return Column(name, Reference("person"), required, example)


def month_day(name: str, example: str = "") -> Column:
    """Return a column of a day of the year."""
    kind = Pattern(r"(0[1-9]|1[0-2])-(0[1-9]|[12]\d|3[01])", "a day of the year like 05-15")
    return Column(name, kind, False, example)
