"""The faults that stand in the demo on purpose, and what the audit should say of each.

Nothing else in the demo is meant to be urgent. Numbers in ``why`` are rounded; what binds is computed
from the saturation tables when the audit runs.
"""

from dataclasses import dataclass

from fleet.dictionary.words import Severity, Verdict

WINDOW, CONFLICT = "low_pressure_window", "low_pressure_conflict"
CUT_IN, CUT_OUT = "low_pressure_cut_in", "low_pressure_cut_out"
DIFFERENTIAL = "low_pressure_differential"


@dataclass(frozen=True, slots=True)
class PlantedFault:
    """One deliberate fault; ``setting`` is a setting, a column or a check, or empty."""

    customer: str
    site: str
    system: str
    part: str
    rule: str
    setting: str
    severity: Severity
    verdict: Verdict
    why: str


_ACT, _NEXT, _WATCH = Severity.ACT_NOW, Severity.NEXT_VISIT, Severity.WATCH
_BELOW, _ABOVE, _NO_WINDOW = Verdict.BELOW, Verdict.ABOVE, Verdict.NO_WINDOW


def _window(
    where: str, setting: str, severity: Severity, verdict: Verdict, why: str, part: str = ""
) -> PlantedFault:
    customer, site, system = where.split("/")
    return PlantedFault(customer, site, system, part, WINDOW, setting, severity, verdict, why)


def _other(
    where: str,
    rule: str,
    setting: str,
    severity: Severity,
    verdict: Verdict,
    why: str,
    part: str = "",
) -> PlantedFault:
    customer, site, system = where.split("/")
    return PlantedFault(customer, site, system, part, rule, setting, severity, verdict, why)


_CUT_IN_TOO_HIGH = (
    _window(
        "QUILL/Fern Hollow/WC-2", CUT_IN, _ACT, _ABOVE, "R-404A, 30 psig; at −10 °F the low side reaches 24"
    ),
    _window(
        "QUILL/Cutbank/WC-1", CUT_IN, _ACT, _ABOVE, "R-448A at 7,900 ft, 20 psig; at −14 °F it reaches 17"
    ),
    _window(
        "QUILL/Grain Exchange/WC-2", CUT_IN, _ACT, _ABOVE, "R-134a at 5,280 ft, 12 psig; it reaches under 10"
    ),
    _window("CIVIC/Main Pharmacy/WC-1", CUT_IN, _ACT, _ABOVE, "R-22, 20 psig; at −10 °F it reaches 17"),
    _window(
        "LINDEN/Bergtor/KR-1", CUT_IN, _ACT, _ABOVE, "R-407A, 2.2 bar; at −15 °C it reaches just under 2"
    ),
    _window(
        "PERRIN/Lantern Street/WF-1", CUT_IN, _ACT, _ABOVE, "R-449A freezer: over what its own call gives"
    ),
    _window("QUILL/Grain Exchange/WC-1", CUT_IN, _NEXT, _ABOVE, "R-404A, 34.5 psig: the margin is eaten"),
    _window(
        "QUILL/Tannery Lane/WC-1",
        CUT_IN,
        _WATCH,
        Verdict.INSIDE,
        "only the extreme day of −19 °F is too cold",
    ),
)
_NO_WINDOWS = (
    _window(
        "QUILL/Tannery Lane/WC-2", CUT_IN, _ACT, _NO_WINDOW, "R-134a outdoors at −10 °F, cut-in above reach"
    ),
    _window(
        "SABLE/Prairie Dock/WC-1", CUT_IN, _NEXT, _NO_WINDOW, "R-450A at 1 °F: no room for 5 psi above vacuum"
    ),
    _window(
        "QUILL/Bluff Road/WC-2",
        CUT_IN,
        _ACT,
        _NO_WINDOW,
        "pressure cycling outdoors: winter is below the call",
    ),
)
_CUT_OUTS = (
    _window("LINDEN/Bergtor/TK-1", CUT_OUT, _ACT, _BELOW, "R-744 at 4.5 bar: close to dry ice"),
    _window("LINDEN/Uferweg/KR-1", CUT_OUT, _ACT, _BELOW, "R-290 pulled into vacuum: air drawn in can burn"),
    _window("SALTMARSH/Estuary Kitchen/WF-1", CUT_OUT, _ACT, _BELOW, "R-454C (A2L) pulled into vacuum"),
    _window("QUILL/Tannery Lane/WF-1", CUT_OUT, _NEXT, _BELOW, "R-404A cut-out at 4 inHg"),
    _window(
        "PERRIN/Customs House/WC-2", CUT_OUT, _WATCH, _BELOW, "scroll, no lowest suction recorded: 12 psig"
    ),
    _window(
        "PERRIN/Customs House/WF-1", CUT_OUT, _NEXT, _ABOVE, "17.5 psig trips a freezer in normal running"
    ),
    _window(
        "SALTMARSH/Dune Road School/WF-1",
        CUT_OUT,
        _NEXT,
        _ABOVE,
        "loss-of-charge control at 10 psig trips it",
    ),
)
_BANDS = (
    _window("SABLE/Copper Wells/CS-2", DIFFERENTIAL, _NEXT, _BELOW, "26 and 19 psig: 7 psi short-cycles"),
    _window(
        "SABLE/Mesa Gate/PR-1", CUT_IN, _NEXT, _BELOW, "pressure cycling below 35 °F: the coil never clears"
    ),
    _window("LINDEN/Uferweg/VB-1", "group_suction", _NEXT, _BELOW, "2.4 bar where 3.3 is needed", "group A"),
    _window("LINDEN/Uferweg/VB-2", CUT_OUT, _NEXT, _ABOVE, "2.3 bar is above normal running", "compressor 2"),
)
_CONTRADICTIONS = (
    _other(
        "PERRIN/Lantern Street/WC-2", CONFLICT, DIFFERENTIAL, _NEXT, Verdict.CONFLICTING, "out 14 above in 12"
    ),
    _other(
        "BRAMLEY/Fellgate Creamery/CR-2",
        CONFLICT,
        DIFFERENTIAL,
        _NEXT,
        Verdict.CONFLICTING,
        "1.7 less 0.7 bar is not the recorded 0.8",
    ),
    _other(
        "QUILL/Cutbank/WC-2", CONFLICT, "receiver_hold", _NEXT, Verdict.CONFLICTING, "its heater has failed"
    ),
    _other("PERRIN/Magnolia Row/WC-1", "boxes_apart", "", _NEXT, _ABOVE, "beer at 36 °F with dough at 55 °F"),
    _other(
        "PERRIN/Customs House/RI-1", "fans_cycle", "fans", _NEXT, Verdict.CONFLICTING, "fans stop too", "B1"
    ),
)
_EMPTY_CELLS = (
    _other(
        "PERRIN/Orchard Fork/WF-1", "not_recorded", "", _NEXT, Verdict.NOT_RECORDED, "no cut-in, no cut-out"
    ),
    _other(
        "OKABE/Market Hall/WC-1",
        "not_recorded",
        "",
        _NEXT,
        Verdict.NOT_RECORDED,
        "no thermostat differential",
    ),
    _other("BRAMLEY/Sallowmere Depot/CR-2", "not_recorded", "", _WATCH, Verdict.NOT_RECORDED, "no placement"),
    _other("CIVIC/Dock Annex/WC-2", "not_recorded", "", _WATCH, Verdict.NOT_RECORDED, "no strategy"),
)
_LATE_CHECKS = (
    _other(
        "QUILL/Bluff Road/WF-2",
        "check_overdue",
        "condenser_coil",
        _WATCH,
        _ABOVE,
        "265 days ago, due every 6 months",
    ),
    _other("PERRIN/Magnolia Row/WC-2", "check_overdue", "leak_search", _WATCH, _ABOVE, "250 days ago"),
    _other(
        "SALTMARSH/Tern Court School/RI-1",
        "check_overdue",
        "condenser_coil",
        _WATCH,
        _ABOVE,
        "150 days, due every 3 months",
    ),
    _other(
        "SABLE/Upper Basin/WC-1",
        "check_overdue",
        "pump_down_hold",
        _NEXT,
        _ABOVE,
        "480 days: over one interval late",
    ),
    _other(
        "BRAMLEY/Quarrybank Shop/CR-1", "check_overdue", "evaporator_coil", _NEXT, _ABOVE, "460 days", "B1"
    ),
    _other("LINDEN/Uferweg/VB-1", "check_overdue", "rack", _NEXT, _ABOVE, "230 days, due every 3 months"),
)
_FLOODED = (
    _other(
        "QUILL/Fern Hollow/WC-2",
        "flooded_starts",
        "",
        _ACT,
        _ABOVE,
        "twice within 24 months, and the cut-in is bad",
    ),
    _other("BRAMLEY/Fellgate Creamery/FR-1", "flooded_starts", "", _NEXT, _ABOVE, "twice, settings in order"),
    _other("PERRIN/Orchard Fork/WC-1", "flooded_starts", "", _NEXT, _ABOVE, "once, cut-in corrected since"),
    _other("SABLE/Mesa Gate/WF-1", "flooded_starts", "", _NEXT, _ABOVE, "once, heater failed again"),
    _other("OKABE/Pier 9 岸壁/WF-1", "flooded_starts", "", _NEXT, _ABOVE, "once, over the holidays"),
)

PLANTED: tuple[PlantedFault, ...] = (
    *_CUT_IN_TOO_HIGH,
    *_NO_WINDOWS,
    *_CUT_OUTS,
    *_BANDS,
    *_CONTRADICTIONS,
    *_EMPTY_CELLS,
    *_LATE_CHECKS,
    *_FLOODED,
)
"""Every deliberate fault of the demo."""
