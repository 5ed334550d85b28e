"""A second implementation of the low-pressure windows: one system at a time, in °F and psi, plain ifs.

Written from the engineering basis alone, before the product's own code was read. Saturation comes from
CoolProp directly, not from the product's tables. It is slow and has no words; it only says low, high,
verdict and severity, and is what the columns of `fleet.targets` are held against.

Where the basis leaves room, both were brought to one reading after the first comparison: dry ice is a
floor in absolute pressure; a conflict is told of the differential alone; an empty window is told before
a value that is not recorded; reaching a pressure counts with the same 0.1 psi as a bound; a vacuum is
never merely the scroll's habit; with several boxes the frost limit falls away where all are heated.
"""

import atexit
from dataclasses import dataclass, field, replace
from functools import cache, lru_cache
from typing import Any

PSI = 6894.757
INF = float("inf")
SLACK_PSI = 0.7e3 / PSI
MEDIUM = {"walk-in-cooler", "reach-in-cooler", "display-case-medium", "preparation-room"}
FLUIDS = {
    "R-404A": "R404A",
    "R-134a": "R134a",
    "R-22": "R22",
    "R-744": "CO2",
    "R-290": "Propane",
    "R-448A": "R448A.mix",
    "R-454C": "R454C.mix",
    "R-450A": "R450A.mix",
    "R-513A": "R513A.mix",
}
FLAMMABLE = {"R-290", "R-454C"}
TD_BANDS = {
    "walk-in-cooler": (10.0, 12.0),
    "walk-in-freezer": (8.0, 10.0),
    "reach-in-cooler": (15.0, 25.0),
    "reach-in-freezer": (15.0, 25.0),
    "display-case-medium": (8.0, 14.0),
    "display-case-low": (5.0, 10.0),
    "preparation-room": (15.0, 20.0),
}
TD_STORED = {"produce": (8.0, 10.0), "flowers": (8.0, 10.0), "beverages": (12.0, 16.0)}


@dataclass(frozen=True)
class Box:
    tag: str = "B1"
    kind: str = "walk-in-cooler"
    stored: str | None = "general"
    suction_group: str | None = None
    setpoint: float | None = 36.0
    differential: float | None = 2.0
    td: float | None = 10.0
    td_low: float | None = None
    td_high: float | None = None
    td_basis: str | None = None
    td_source: str | None = None
    thermostat_scale: str | None = None
    defrost_method: str | None = "off-cycle"
    regulator: str | None = None


@dataclass(frozen=True)
class Compressor:
    kind: str | None = "semi-hermetic"
    lowest_suction_psia: float | None = None
    cut_out: float | None = None


@dataclass(frozen=True)
class System:
    refrigerant: str = "R-404A"
    strategy: str = "recycling-pump-down"
    control: str | None = "fitted"
    sensor: str | None = None
    elevation_ft: float = 0.0
    placement: str | None = "outdoor"
    receiver_place: str | None = None
    design_cold: float | None = 0.0
    extreme_cold: float | None = None
    room_low: float | None = None
    receiver_hold: float | None = None
    coil_above_ft: float | None = None
    line_loss: float | None = 2.0
    start_delay: str | None = None
    cut_in: float | None = None
    cut_out: float | None = None
    lp_differential: float | None = None
    boxes: tuple[Box, ...] = (Box(),)
    compressors: tuple[Compressor, ...] = (Compressor(),)
    group_suction: dict[str, float] = field(default_factory=dict)


@dataclass(frozen=True)
class Window:
    low: float | None
    high: float | None
    verdict: str
    severity: str | None = None


@cache
def _state(refrigerant: str) -> Any:
    from CoolProp.CoolProp import AbstractState

    return AbstractState("HEOS", FLUIDS[refrigerant])


# CoolProp complains at the end of the process of states that are still held.
atexit.register(_state.cache_clear)


def kelvin(t_f: float) -> float:
    return (t_f + 459.67) / 1.8


@lru_cache(maxsize=100_000)
def saturated(refrigerant: str, t_f: float, quality: int) -> tuple[float, float]:
    """Return psia and kg/m³ of saturated vapour (1) or liquid (0)."""
    import CoolProp

    state = _state(refrigerant)
    state.update(CoolProp.QT_INPUTS, quality, kelvin(t_f))
    return state.p() / PSI, state.rhomass()


def dew_psia(refrigerant: str, t_f: float) -> float:
    return saturated(refrigerant, t_f, 1)[0]


def bubble_psia(refrigerant: str, t_f: float) -> float:
    return saturated(refrigerant, t_f, 0)[0]


def glide_f(refrigerant: str, dew_f: float) -> float:
    """Dew minus bubble temperature at one pressure, by bisection on the bubble line."""
    wanted = dew_psia(refrigerant, dew_f)
    low, high = dew_f - 40.0, dew_f + 1.0
    for _ in range(40):
        middle = (low + high) / 2
        if bubble_psia(refrigerant, middle) < wanted:
            low = middle
        else:
            high = middle
    return dew_f - (low + high) / 2


def air_psia(elevation_ft: float) -> float:
    return 101325.0 * (1 - 2.25577e-5 * elevation_ft * 0.3048) ** 5.25588 / PSI


class Reference:
    """All windows of one system."""

    def __init__(self, system: System) -> None:
        self.system = system
        self.air = air_psia(system.elevation_ft)
        # What the control's scale shows is absolute pressure less what its sensor refers to.
        self.offset = {"absolute": 0.0, "sealed": 101325.0 / PSI}.get(system.sensor or "", self.air)
        self.medium = all(box.kind in MEDIUM for box in system.boxes)

    # --- temperatures -------------------------------------------------------------------------------
    def p(self, t_f: float) -> float:
        """Dew pressure as the control reads it."""
        return dew_psia(self.system.refrigerant, t_f) - self.offset

    def differential(self, box: Box) -> float:
        return 4.0 if box.differential is None else box.differential

    def stop(self, box: Box) -> float:
        assert box.setpoint is not None
        share = {"starts-at": 1.0, "centred": 0.5}.get(box.thermostat_scale or "", 0.0)
        return box.setpoint - share * self.differential(box)

    def band(self, box: Box) -> tuple[float, float]:
        class_low, class_high = TD_BANDS[box.kind]
        if box.kind == "walk-in-cooler" and box.stored in TD_STORED:
            class_low, class_high = TD_STORED[box.stored]
        if box.td_low is not None or box.td_high is not None:
            return (
                class_low if box.td_low is None else box.td_low,
                class_high if box.td_high is None else box.td_high,
            )
        if box.td is not None and box.td_source == "measured":
            return box.td, box.td
        return class_low, class_high

    def td(self, box: Box) -> float:
        if box.td is not None:
            return box.td
        low, high = self.band(box)
        return (low + high) / 2

    def sst(self, box: Box, td: float) -> float:
        """Dew temperature at the evaporator."""
        t = self.stop(box) - td
        if box.td_basis == "mean":
            t += 0.35 * glide_f(self.system.refrigerant, t)
        return t

    @property
    def loss(self) -> float:
        return 2.0 if self.system.line_loss is None else self.system.line_loss

    @property
    def sst_comp(self) -> float:
        return min(self.sst(box, self.td(box)) for box in self.system.boxes) - self.loss

    @property
    def t_call(self) -> float:
        return min(self.stop(box) + self.differential(box) for box in self.system.boxes)

    def t_rec(self, cold: float | None) -> float | None:
        """What condenser and receiver soak to: INF where nothing limits, None where not known."""
        system = self.system
        soak = cold if system.placement == "outdoor" else system.room_low
        if system.placement is None:
            soak = None
        elif soak is None and system.placement == "indoor-heated":
            soak = INF
        # A receiver indoors is no colder than its condenser outdoors; one outdoors may be.
        if system.receiver_place == "outdoor" and system.placement != "outdoor":
            soak = None if soak is None or cold is None else min(soak, cold)
        known = soak
        if system.receiver_hold is not None:
            return system.receiver_hold if known is None else max(known, system.receiver_hold)
        return known

    def p_call(self, cold: float | None) -> float | None:
        rec = self.t_rec(cold)
        if rec is None:
            return None
        pressure = self.p(min(self.t_call, rec))
        if self.system.coil_above_ft is not None and self.system.coil_above_ft > 0:
            _, density = saturated(self.system.refrigerant, rec if rec != INF else self.t_call, 0)
            pressure -= density * 9.80665 * self.system.coil_above_ft * 0.3048 / PSI
        return pressure

    # --- bounds -------------------------------------------------------------------------------------
    def margin(self, p_call: float) -> float:
        gauge = p_call + self.offset - self.air
        return max(3.0, 0.10 * gauge)

    def ci_max(self) -> float | None:
        """Highest cut-in that restarts, margin kept."""
        base = self.ci_base(self.system.design_cold)
        return None if base is None else base - self.margin(base)

    def ci_base(self, cold: float | None) -> float | None:
        if self.system.start_delay == "call":
            return self.p(min(self.stop(box) for box in self.system.boxes))
        return self.p_call(cold)

    def d_min(self, cut_in: float) -> float:
        if self.system.strategy in {"one-time-pump-down", "thermostat-cycling"}:
            return 2.0
        quarter = 0.25 * (cut_in + self.offset)
        return quarter if self.system.refrigerant == "R-744" else min(10.0, max(5.0, quarter))

    def co_min(self, *, habit: bool = True) -> tuple[float, str]:
        """Lowest cut-out as read, and what sets it."""
        bounds = [(self.air, "air")]
        if self.system.refrigerant == "R-744":
            bounds.append((75.0 + 101325.0 / PSI, "dry ice"))
        for compressor in self.system.compressors:
            if compressor.lowest_suction_psia is not None:
                bounds.append((compressor.lowest_suction_psia, "maker"))
            elif habit and compressor.kind == "scroll" and self.medium:
                bounds.append((dew_psia(self.system.refrigerant, -20.0), "scroll"))
        psia, why = max(bounds)
        return psia - self.offset, why

    def ci_min(self, co_min: float) -> float:
        """Smallest x with x - D_min(x) >= CO_min, by bisection."""
        low, high = co_min, co_min + 500.0
        for _ in range(60):
            middle = (low + high) / 2
            if middle - self.d_min(middle) >= co_min:
                high = middle
            else:
                low = middle
        return high

    def trip_margin(self, sst: float) -> float:
        if self.system.strategy in {"thermostat-cycling", "remote-rack"}:
            warm, cold_at = 15.0, -20.0
        else:
            warm, cold_at = 10.0, -10.0
        share = min(1.0, max(0.0, (sst - cold_at) / -cold_at))
        return 5.0 + share * (warm - 5.0)

    # --- windows ------------------------------------------------------------------------------------
    def windows(self) -> dict[str, Window]:
        if self.system.control == "none":
            nothing = Window(None, None, "not-applicable")
            return {"cut_in": nothing, "cut_out": nothing, "differential": nothing}
        if self.system.strategy == "pressure-cycling":
            return self._pressure_cycling()
        return self._pump_down()

    def _conflicting(self) -> bool:
        s = self.system
        if s.cut_in is None or s.cut_out is None:
            return False
        if s.cut_out >= s.cut_in:
            return True
        return s.lp_differential is not None and (abs(s.cut_in - s.lp_differential - s.cut_out) > SLACK_PSI)

    def _pump_down(self) -> dict[str, Window]:
        co_min, why = self.co_min()
        ci_high = self.ci_max()
        thermostat = self.system.strategy == "thermostat-cycling"
        ci_low = None if thermostat else self.ci_min(co_min)
        base = self.ci_base(self.system.design_cold)
        extreme = self.system.extreme_cold
        extreme_base = None if extreme is None else self.ci_base(extreme)
        if ci_high is None:
            empty: bool | None = None
        else:
            empty = ci_high - self.d_min(ci_high) < co_min
        cut_in = self._cut_in(ci_low, ci_high, base, extreme_base, empty)
        co_high = self.p(self.sst_comp - self.trip_margin(self.sst_comp))
        cut_out = self._cut_out(co_min, co_high, why)
        return {
            "cut_in": cut_in,
            "cut_out": cut_out,
            "differential": self._differential(ci_high, bool(empty)),
        }

    def _cut_in(
        self,
        low: float | None,
        high: float | None,
        base: float | None,
        extreme_base: float | None,
        empty: bool | None,
    ) -> Window:
        value = self.system.cut_in
        if high is None or base is None:
            return Window(low, high, "not-known", "note")
        beyond = value is not None and value > base + SLACK_PSI
        if empty:
            return Window(low, high, "no-window", "act-now" if beyond else "next-visit")
        if value is None:
            return Window(low, high, "not-recorded")
        if value > high + SLACK_PSI:
            return Window(low, high, "above", "act-now" if beyond else "next-visit")
        if low is not None and value < low - SLACK_PSI:
            return Window(low, high, "below", "watch")
        if extreme_base is not None and value > extreme_base + SLACK_PSI:
            return Window(low, high, "inside", "watch")
        return Window(low, high, "inside")

    def _cut_out(self, low: float, high: float, why: str) -> Window:
        value = self.system.cut_out
        if high < low:
            return Window(low, high, "no-window", "next-visit")
        if value is None:
            return Window(low, high, "not-recorded")
        if value > high + SLACK_PSI:
            return Window(low, high, "above", "next-visit")
        if value < low - SLACK_PSI:
            return Window(low, high, "below", self._low_severity(value, why))
        return Window(low, high, "inside")

    def _low_severity(self, value: float, why: str) -> str:
        """How urgent a cut-out below CO_min is."""
        if why == "scroll" and value >= self.co_min(habit=False)[0] - SLACK_PSI:
            return "watch"
        if self.system.refrigerant == "R-744" or self.system.refrigerant in FLAMMABLE:
            return "act-now"
        return "next-visit"

    def _differential(self, ci_high: float | None, empty: bool) -> Window:
        s = self.system
        value = s.lp_differential
        if value is None and s.cut_in is not None and s.cut_out is not None:
            value = s.cut_in - s.cut_out
        if s.cut_in is None:  # then it is taken at the preferred cut-in, which is not worked out here
            low = None
        else:
            usable = ci_high is not None and not empty
            low = self.d_min(min(s.cut_in, ci_high) if usable and ci_high is not None else s.cut_in)
        if self._conflicting():
            return Window(low, None, "conflicting", "next-visit")
        if value is None:
            return Window(low, None, "not-recorded")
        if low is None:
            return Window(None, None, "unchecked")
        if value < low - SLACK_PSI:
            return Window(low, None, "below", "next-visit")
        return Window(low, None, "inside")

    def _winter_below_call(self, tc: float) -> bool:
        """Whether the coldest day of many years, not that of a usual winter, stays below the call."""
        extreme = self.system.extreme_cold
        rec = None if extreme is None else self.t_rec(extreme)
        return rec is not None and rec < tc

    def _pressure_cycling(self) -> dict[str, Window]:
        refrigerant = self.system.refrigerant
        tc = self.t_call
        low, high = self.p(tc - 3), self.p(tc + 3)
        if glide_f(refrigerant, tc) > 3.0:
            high = bubble_psia(refrigerant, tc) - self.offset
        heated = all(box.defrost_method in {"electric", "hot-gas"} for box in self.system.boxes)
        if self.medium and not heated:
            low = max(low, self.p(35.0))
            high = max(high, self.p(38.0) + 1.0)
        rec = self.t_rec(self.system.design_cold)
        value = self.system.cut_in
        if rec is None:
            cut_in = Window(low, high, "not-known", "note")
        elif rec < tc:
            cut_in = Window(low, high, "no-window", "act-now")
        elif value is None:
            cut_in = Window(low, high, "not-recorded")
        elif value > high + SLACK_PSI:
            cut_in = Window(low, high, "above", "next-visit")
        elif value < low - SLACK_PSI:
            cut_in = Window(low, high, "below", "next-visit")
        elif self._winter_below_call(tc):
            cut_in = Window(low, high, "inside", "watch")
        else:
            cut_in = Window(low, high, "inside")
        co_min, why = self.co_min()
        co_low = min(self.sst(box, self.band(box)[1]) for box in self.system.boxes) - self.loss
        co_high = min(self.sst(box, self.band(box)[0]) for box in self.system.boxes) - self.loss
        floor = self.p(co_low) - 1.0
        cut_out = self._cut_out(max(co_min, floor), self.p(co_high) + 1.0, why if co_min >= floor else "band")
        if cut_out.verdict == "below" and self.system.cut_out is not None:
            under = self.system.cut_out < co_min - SLACK_PSI
            severity = self._low_severity(self.system.cut_out, why) if under else "next-visit"
            cut_out = Window(cut_out.low, cut_out.high, "below", severity)
        return {
            "cut_in": cut_in,
            "cut_out": cut_out,
            "differential": self._differential(high, rec is not None and rec < tc),
        }

    def _group_sst(self, group: str) -> float:
        boxes = [b for b in self.system.boxes if b.suction_group == group and b.regulator in (None, "none")]
        return min(self.sst(box, self.td(box)) for box in boxes) - self.loss

    def group_verdict(self, group: str) -> Window:
        """The suction of one group of a rack."""
        sst = self._group_sst(group)
        low, high = self.p(sst - 5.0), self.p(sst + 5.0)
        value = self.system.group_suction.get(group)
        if value is None:
            return Window(low, high, "not-recorded")
        if value > high + SLACK_PSI:
            return Window(low, high, "above", "next-visit")
        if value < low - SLACK_PSI:
            return Window(low, high, "below", "next-visit")
        return Window(low, high, "inside")

    def rack_cut_out(self, position: int) -> Window:
        """The cut-out of one compressor; nobody records its group, so the coldest group counts."""
        alone = Reference(
            replace(
                self.system,
                compressors=(self.system.compressors[position],),
                cut_out=self.system.compressors[position].cut_out,
            )
        )
        low, why = alone.co_min()
        sst = min(self._group_sst(str(box.suction_group)) for box in self.system.boxes)
        return alone._cut_out(low, self.p(sst - self.trip_margin(sst)), why)
