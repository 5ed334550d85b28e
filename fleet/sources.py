"""Where numbers come from: one record per standard, handbook or practice.

Every constant of the product points to a record here, and every place that shows a number can show
the record's tag and title. A tag says what kind of authority stands behind the number, no more.
"""

from dataclasses import dataclass
from enum import StrEnum

from fleet.errors import UnknownNameError


class Tag(StrEnum):
    """What kind of authority stands behind a number."""

    STANDARD = "STD"
    HANDBOOK = "HB"
    PRACTICE = "CP"
    JUDGEMENT = "J"
    DERIVED = "D"

    @property
    def words(self) -> str:
        """The tag in words, as screens and reports print it."""
        return _TAG_WORDS[self]


_TAG_WORDS = {
    Tag.STANDARD: "published standard",
    Tag.HANDBOOK: "handbook",
    Tag.PRACTICE: "common practice, no source",
    Tag.JUDGEMENT: "engineering judgement",
    Tag.DERIVED: "derived from a formula and property data",
}


@dataclass(frozen=True, slots=True)
class Source:
    """One standard, handbook, practice, judgement or derivation that numbers rest on."""

    code: str
    tag: Tag
    title: str
    clause: str = ""

    def __str__(self) -> str:
        clause = f", {self.clause}" if self.clause else ""
        return f"{self.tag}: {self.title}{clause}"


_ALL = (
    Source(
        "us_standard_atmosphere_1976",
        Tag.STANDARD,
        "U.S. Standard Atmosphere, 1976 (NOAA-S/T 76-1562)",
        "troposphere, barometric formula with constant lapse rate",
    ),
    Source("si_units", Tag.STANDARD, "NIST Special Publication 811 (2008), Appendix B", "conversion factors"),
    Source(
        "ashrae_34",
        Tag.STANDARD,
        "ANSI/ASHRAE Standard 34, Designation and Safety Classification of Refrigerants",
        "designations, compositions and safety groups, from memory",
    ),
    Source("coolprop", Tag.DERIVED, "CoolProp 8, Helmholtz-energy equations of state, tabulated every 0.5 K"),
    Source("dew_line", Tag.DERIVED, "saturation temperature on the dew line, at the site's air pressure"),
    Source("lowest_of_low_side", Tag.DERIVED, "the coldest place the refrigerant rests in sets the pressure"),
    Source("liquid_column", Tag.DERIVED, "hydrostatic pressure of a standing column of liquid"),
    Source("line_loss_default", Tag.PRACTICE, "suction-line loss worth 2 °F of saturation temperature"),
    Source("td_by_class", Tag.PRACTICE, "temperature difference between air and evaporator by class of box"),
    Source("td_display", Tag.JUDGEMENT, "temperature difference of display cases"),
    Source("glide_share", Tag.JUDGEMENT, "dew point is the mean coil temperature plus 0.35 of the glide"),
    Source("margin_restart", Tag.JUDGEMENT, "margin kept below the pressure that still comes back"),
    Source("smallest_differential", Tag.JUDGEMENT, "smallest differential that does not short-cycle"),
    Source("no_trip_in_running", Tag.JUDGEMENT, "cut-out stays below the coldest normal running"),
    Source("no_vacuum", Tag.PRACTICE, "the low side is not pulled below the surrounding air"),
    Source(
        "maker_lowest_suction", Tag.PRACTICE, "the compressor maker's lowest suction pressure, as recorded"
    ),
    Source("scroll_lowest_suction", Tag.JUDGEMENT, "medium-temperature scroll kept above -20 °F suction"),
    Source("dry_ice", Tag.DERIVED, "R-744 freezes to dry ice below its triple point, 75.1 psi absolute"),
    Source("dry_ice_margin", Tag.JUDGEMENT, "15 psi kept above the triple point of R-744"),
    Source("condenser_beside", Tag.JUDGEMENT, "condenser and receiver beside the compressor"),
    Source("control_fitted", Tag.JUDGEMENT, "a low-pressure control where none is recorded as absent"),
    Source("preferred_pair", Tag.PRACTICE, "customary cut-out and differential, moved inside the window"),
    Source(
        "pressure_cycling_band", Tag.PRACTICE, "cut-in within 3 °F of the temperature the box is called at"
    ),
    Source(
        "pressure_cycling_cut_out",
        Tag.JUDGEMENT,
        "cut-out within 1 psi of the suction that the boxes run down to",
    ),
    Source("coil_clears", Tag.PRACTICE, "cut-in at or above 35 °F so that the coil clears itself of frost"),
    Source(
        "idle_coil_blend", Tag.DERIVED, "an idle coil of a blend reads between its dew and bubble pressure"
    ),
    Source("group_band", Tag.JUDGEMENT, "group suction within 5 °F of what its boxes need"),
    Source("call_delay", Tag.PRACTICE, "a delay that the call starts does not need the pressure to stand"),
    Source("boxes_apart", Tag.JUDGEMENT, "boxes on one unit without regulator within 10 °F of suction"),
    Source(
        "fans_carry_defrost",
        Tag.PRACTICE,
        "fans run on so that the idle coil clears and the sensor reads air",
    ),
    Source("differential_assumed", Tag.JUDGEMENT, "an unrecorded thermostat differential is judged as 4 °F"),
    Source("check_interval", Tag.JUDGEMENT, "interval of a preventive check"),
    Source("flooded_start_history", Tag.JUDGEMENT, "compressors taken out for a flooded start"),
)

SOURCES: dict[str, Source] = {source.code: source for source in _ALL}


def source(code: str) -> Source:
    """Return the record of a source.

    >>> source("si_units").tag.words
    'published standard'
    """
    try:
        return SOURCES[code]
    except KeyError:
        raise UnknownNameError("source", code, SOURCES) from None
