"""The windows of the low-pressure control, worked out a second time: one system at a time, in °F and psi.

Shares nothing with `fleet.targets` and its tables: pressures come straight from CoolProp. Rules and
numbers are engineering judgement and common practice, as the product's own sources say.
"""

from dataclasses import dataclass
from functools import cache

PSI_PA = 6894.757293168361
STANDARD_AIR_PSI = 101325 / PSI_PA
MEDIUM = {"walk-in-cooler", "reach-in-cooler", "display-case-medium", "preparation-room"}
FLAMMABLE_OR_DRY_ICE = {"R-744", "R-290", "R-454A", "R-454C", "R-455A"}
TD_BANDS = {
    "walk-in-cooler": (10, 12),
    "reach-in-cooler": (15, 25),
    "preparation-room": (15, 20),
    "flowers": (8, 10),
    "produce": (8, 10),
    "beverages": (12, 16),
}


@cache
def saturation_psia(refrigerant: str, temperature_f: float, quality: float) -> float:
    """Return the dew (1) or bubble (0) pressure."""
    import CoolProp.CoolProp as CoolProp

    name = refrigerant.replace("-", "")
    fluid = name if name in {"R404A", "R507A", "R407C", "R134a", "R22", "R290", "R744"} else f"{name}.mix"
    kelvin = (temperature_f + 459.67) / 1.8
    return float(CoolProp.PropsSI("P", "T", kelvin, "Q", quality, f"HEOS::{fluid}")) / PSI_PA


def air_psi(elevation_ft: float) -> float:
    """Return the air pressure of the U.S. Standard Atmosphere, 1976."""
    return float(101325 * (1 - 2.25577e-5 * elevation_ft * 0.3048) ** 5.25588 / PSI_PA)


@dataclass(frozen=True, slots=True)
class BoxByHand:
    kind: str
    stored: str
    stop_f: float
    call_f: float
    td_f: float
    regulated: bool
    off_cycle: bool


@dataclass(frozen=True, slots=True)
class SystemByHand:
    refrigerant: str
    strategy: str
    boxes: tuple[BoxByHand, ...]
    elevation_ft: float
    sealed: bool
    soak_f: float
    """What condenser and receiver soak to at design cold; infinite where nothing limits."""
    soak_extreme_f: float
    scroll: bool
    lowest_suction_psia: float | None
    call_delay: bool
    coil_above_receiver_ft: float
    line_loss_f: float

    @property
    def sensed_air(self) -> float:
        return STANDARD_AIR_PSI if self.sealed else air_psi(self.elevation_ft)

    def dew(self, temperature_f: float) -> float:
        return saturation_psia(self.refrigerant, temperature_f, 1) - self.sensed_air

    @property
    def call_f(self) -> float:
        return min(box.call_f for box in self.boxes)

    @property
    def suction_f(self) -> float:
        free = [box for box in self.boxes if not box.regulated] or list(self.boxes)
        return min(box.stop_f - box.td_f for box in free) - self.line_loss_f

    @property
    def floor(self) -> float:
        floors = [air_psi(self.elevation_ft) - self.sensed_air]
        if self.lowest_suction_psia is not None:
            floors.append(self.lowest_suction_psia - self.sensed_air)
        elif self.scroll_floor_counts:
            floors.append(self.dew(-20))
        if self.refrigerant == "R-744":
            floors.append(75 + STANDARD_AIR_PSI - self.sensed_air)
        return max(floors)

    @property
    def scroll_floor_counts(self) -> bool:
        medium = any(box.kind in MEDIUM for box in self.boxes)
        return self.scroll and medium and self.lowest_suction_psia is None

    def reach(self, soak_f: float) -> float:
        # R-404A only: 0.53 psi per ft of liquid at 0 °F.
        return self.dew(min(self.call_f, soak_f)) - 0.53 * self.coil_above_receiver_ft

    @property
    def highest_cut_in(self) -> float:
        reach = (
            self.dew(min(box.stop_f for box in self.boxes)) if self.call_delay else self.reach(self.soak_f)
        )
        return reach - max(3, 0.1 * reach)

    def smallest_differential(self, cut_in: float) -> float:
        if self.strategy in ("one-time-pump-down", "thermostat-cycling"):
            return 2
        quarter = 0.25 * (cut_in + self.sensed_air)
        return quarter if self.refrigerant == "R-744" else min(10, max(5, quarter))

    @property
    def below_running(self) -> float:
        """Return the highest cut-out that does not trip in normal running."""
        cold, warm = ((-20, 5), (0, 15)) if self.strategy in _LOSS_OF_CHARGE else ((-10, 5), (0, 10))
        share = min(1.0, max(0.0, (self.suction_f - cold[0]) / (warm[0] - cold[0])))
        return self.dew(self.suction_f - (cold[1] + share * (warm[1] - cold[1])))


_LOSS_OF_CHARGE = ("thermostat-cycling", "remote-rack")
Verdict = tuple[str, str]
"""Severity and verdict."""


def judge_cut_in(system: SystemByHand, cut_in: float) -> Verdict | None:
    """Return what is wrong with a cut-in."""
    if system.strategy == "pressure-cycling":
        return _judge_cycling_cut_in(system, cut_in)
    highest = system.highest_cut_in
    above_reach = not system.call_delay and cut_in > system.reach(system.soak_f) + 0.1
    if highest - system.smallest_differential(highest) < system.floor:
        return ("act-now" if above_reach else "next-visit"), "no-window"
    if above_reach:
        return "act-now", "above"
    if cut_in > highest + 0.1:
        return "next-visit", "above"
    if not system.call_delay and cut_in > system.reach(system.soak_extreme_f) + 0.1:
        return "watch", "inside"
    return None


def _judge_cycling_cut_in(system: SystemByHand, cut_in: float) -> Verdict | None:
    if system.soak_f < system.call_f:
        return "act-now", "no-window"
    low, high = system.dew(system.call_f - 3), system.dew(system.call_f + 3)
    bubble = saturation_psia(system.refrigerant, system.call_f, 0) - system.sensed_air
    if bubble > system.dew(system.call_f + 3):
        high = bubble  # a blend with glide: an idle coil reads between dew and bubble
    if all(box.off_cycle for box in system.boxes):
        low, high = max(low, system.dew(35)), max(high, system.dew(38) + 1)
    return _outside(cut_in, low, high)


def judge_cut_out(system: SystemByHand, cut_out: float) -> Verdict | None:
    """Return what is wrong with a cut-out."""
    low, high = system.floor, system.below_running
    if system.strategy == "pressure-cycling":
        box = min(system.boxes, key=lambda box: box.call_f)
        smallest, largest = TD_BANDS[box.stored if _kept_tells(box) else box.kind]
        low = max(low, system.dew(box.stop_f - largest - system.line_loss_f) - 1)
        high = system.dew(box.stop_f - smallest - system.line_loss_f) + 1
    found = _outside(cut_out, low, high)
    if found and found[1] == "below" and low == system.floor:
        if system.refrigerant in FLAMMABLE_OR_DRY_ICE:
            return "act-now", "below"
        if system.scroll_floor_counts:
            return "watch", "below"
    return found


def _kept_tells(box: BoxByHand) -> bool:
    """Return whether what a walk-in cooler keeps narrows its TD."""
    return box.kind == "walk-in-cooler" and box.stored in TD_BANDS


def judge_differential(system: SystemByHand, cut_in: float, cut_out: float) -> Verdict | None:
    """Return what is wrong with the distance of the pair, where it is not contradictory."""
    taken_at = cut_in if system.strategy == "pressure-cycling" else min(cut_in, system.highest_cut_in)
    low = system.smallest_differential(taken_at)
    return ("next-visit", "below") if cut_out < cut_in < cut_out + low - 0.1 else None


def judge_group(system: SystemByHand, suction: float) -> Verdict | None:
    """Return what is wrong with the suction of a group, given as a system of its boxes alone."""
    return _outside(suction, system.dew(system.suction_f - 5), system.dew(system.suction_f + 5))


def _outside(value: float, low: float, high: float) -> Verdict | None:
    if value < low - 0.1:
        return "next-visit", "below"
    return ("next-visit", "above") if value > high + 0.1 else None
