"""The values chosen from lists, in the order in which columns number them.

A column holds the position of a value in its list as a small integer, `UNRECORDED` where nothing is
recorded. The order is therefore append-only within one version of the product; the register itself
stores the words.
"""

from enum import IntEnum, StrEnum

UNRECORDED = -1
"""What a column holds where the register has an empty cell."""


class Word(StrEnum):
    """A value chosen from a list, written hyphenated."""

    @property
    def code(self) -> int:
        """The position in the list, as columns hold it."""
        return list(type(self)).index(self)

    @property
    def words(self) -> str:
        """The value as people read it."""
        return self.value.replace("-", " ")


class Strategy(Word):
    """How the box is controlled."""

    RECYCLING = "recycling-pump-down"
    ONE_TIME = "one-time-pump-down"
    PRESSURE = "pressure-cycling"
    THERMOSTAT = "thermostat-cycling"
    RACK = "remote-rack"

    @property
    def words(self) -> str:
        """The strategy as people read it."""
        return {"recycling-pump-down": "recycling pump-down", "one-time-pump-down": "one-time pump-down"}.get(
            self.value, self.value.replace("-", " ")
        )


class BoxKind(Word):
    """What kind of box is cooled."""

    WALK_IN_COOLER = "walk-in-cooler"
    WALK_IN_FREEZER = "walk-in-freezer"
    REACH_IN_COOLER = "reach-in-cooler"
    REACH_IN_FREEZER = "reach-in-freezer"
    DISPLAY_CASE_MEDIUM = "display-case-medium"
    DISPLAY_CASE_LOW = "display-case-low"
    PREPARATION_ROOM = "preparation-room"

    @property
    def words(self) -> str:
        """The kind as people read it."""
        return {
            "walk-in-cooler": "walk-in cooler",
            "walk-in-freezer": "walk-in freezer",
            "reach-in-cooler": "reach-in cooler",
            "reach-in-freezer": "reach-in freezer",
            "display-case-medium": "display case, medium",
            "display-case-low": "display case, low",
        }.get(self.value, "preparation room")

    @property
    def medium_temperature(self) -> bool:
        """Whether the box is of the medium-temperature kind."""
        return self in _MEDIUM


_MEDIUM = frozenset(
    {
        BoxKind.WALK_IN_COOLER,
        BoxKind.REACH_IN_COOLER,
        BoxKind.DISPLAY_CASE_MEDIUM,
        BoxKind.PREPARATION_ROOM,
    }
)


class Stored(Word):
    """What a box keeps."""

    GENERAL = "general"
    PRODUCE = "produce"
    FLOWERS = "flowers"
    MEAT = "meat"
    POULTRY = "poultry"
    FISH = "fish"
    DAIRY = "dairy"
    EGGS = "eggs"
    BEVERAGES = "beverages"
    PREPARED_FOOD = "prepared-food"
    FROZEN_FOOD = "frozen-food"
    ICE_CREAM = "ice-cream"
    VACCINES = "vaccines"
    VACCINES_FROZEN = "vaccines-frozen"
    ICE = "ice"
    OTHER = "other"


class Placement(Word):
    """Where the compressor stands."""

    OUTDOOR = "outdoor"
    INDOOR_UNHEATED = "indoor-unheated"
    INDOOR_HEATED = "indoor-heated"


class Place(Word):
    """Outdoors or indoors."""

    OUTDOOR = "outdoor"
    INDOOR = "indoor"


class LowPressureControl(Word):
    """Whether a low-pressure control is fitted, and of what kind."""

    FITTED = "fitted"
    LOCK_OUT = "lock-out"
    NONE = "none"


class Sensor(Word):
    """Against what a pressure control measures."""

    VENTED = "vented"
    SEALED = "sealed"
    ABSOLUTE = "absolute"


class StartDelay(Word):
    """What starts the start delay."""

    NONE = "none"
    CALL = "call"
    COMPRESSOR = "compressor"


class Heater(Word):
    """The state of a heater."""

    NONE = "none"
    WORKING = "working"
    FAILED = "failed"
    OFF = "off"


class CompressorKind(Word):
    """How a compressor is built."""

    HERMETIC_RECIPROCATING = "hermetic-reciprocating"
    SEMI_HERMETIC = "semi-hermetic"
    SCROLL = "scroll"
    SCREW = "screw"
    ROTARY = "rotary"


class TDBasis(Word):
    """To what the air temperature is compared."""

    DEW = "dew"
    MEAN = "mean"


class TDSource(Word):
    """Where a temperature difference comes from."""

    DESIGN = "design"
    MEASURED = "measured"


class ThermostatScale(Word):
    """What the scale of a thermostat means."""

    STOPS_AT = "stops-at"
    STARTS_AT = "starts-at"
    CENTRED = "centred"


class Defrost(Word):
    """How frost is removed."""

    NONE = "none"
    OFF_CYCLE = "off-cycle"
    TIMED_OFF_CYCLE = "timed-off-cycle"
    ELECTRIC = "electric"
    HOT_GAS = "hot-gas"
    MANUAL = "manual"


class Fans(Word):
    """When the evaporator fans run."""

    ALWAYS = "always"
    WITH_COMPRESSOR = "with-compressor"
    OFF_IN_DEFROST = "off-in-defrost"


class Regulator(Word):
    """Where an evaporator pressure regulator sits."""

    NONE = "none"
    EVAPORATOR = "evaporator"
    RACK = "rack"


class YesNo(Word):
    """Yes or no; an empty cell is neither."""

    NO = "no"
    YES = "yes"


class Status(Word):
    """Whether a system is in use."""

    IN_SERVICE = "in-service"
    IDLE = "idle"
    REMOVED = "removed"


class Form(Word):
    """How a system is built."""

    SPLIT = "split"
    SELF_CONTAINED = "self-contained"
    RACK = "rack"


class Stage(Word):
    """Whether a value was found or left; on one day as-left comes after as-found."""

    AS_FOUND = "as-found"
    AS_LEFT = "as-left"


class Confirmed(Word):
    """With what a setting was read."""

    GAUGE = "gauge"
    THERMOMETER = "thermometer"
    SCALE = "scale"
    REMOTE = "remote"
    NONE = "none"


class CheckResult(Word):
    """What came of a check."""

    DONE = "done"
    PARTLY = "partly"
    NOT_POSSIBLE = "not-possible"
    WAIVED = "waived"


class Severity(IntEnum):
    """How urgent a finding is; lower is worse, as lists sort it."""

    ACT_NOW = 1
    NEXT_VISIT = 2
    WATCH = 3
    NOTE = 4

    @property
    def value_name(self) -> str:
        """The severity as files and JSON write it."""
        return self.name.lower().replace("_", "-")

    @property
    def words(self) -> str:
        """The severity as people read it."""
        return self.name.lower().replace("_", " ")


class Verdict(Word):
    """How a recorded value stands to its window."""

    INSIDE = "inside"
    BELOW = "below"
    ABOVE = "above"
    NO_WINDOW = "no-window"
    NOT_RECORDED = "not-recorded"
    NOT_APPLICABLE = "not-applicable"
    NOT_KNOWN = "not-known"
    STALE = "stale"
    CONFLICTING = "conflicting"


CAUSES = (
    "flooded_start",
    "flood_back",
    "slugging",
    "oil_loss",
    "overheating",
    "contamination",
    "electrical",
)
"""Why a compressor failed."""
REASONS_OUT = (*CAUSES, "sound", "upgrade", "removed", "unknown")
"""Why a compressor was taken out: a cause, or none of them."""

WORD_COLUMNS: dict[str, type[Word]] = {
    "strategy": Strategy,
    "form": Form,
    "status": Status,
    "critically_charged": YesNo,
    "low_pressure_control": LowPressureControl,
    "low_pressure_sensor": Sensor,
    "start_delay": StartDelay,
    "placement": Placement,
    "receiver_place": Place,
    "receiver_heater": Heater,
    "receiver_insulated": YesNo,
    "check_valve": YesNo,
    "stored": Stored,
    "td_basis": TDBasis,
    "td_source": TDSource,
    "thermostat_scale": ThermostatScale,
    "regulator": Regulator,
    "defrost_method": Defrost,
    "fans": Fans,
    "crankcase_heater": Heater,
}
"""The columns that hold words and go into windows; `kind` is not among them: it is a box's or a
compressor's, `BoxKind` or `CompressorKind`."""
