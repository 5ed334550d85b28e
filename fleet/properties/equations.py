"""Equations of state, solved live: only for making and checking the tables.

CoolProp takes a second or two to import, so it is imported where an equation is built, never when
this module is.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import combinations
from math import nan
from typing import Any

from fleet.properties.catalogue import Kind, Refrigerant

_FLUIDS = {
    "R-115": "R115",
    "R-124": "R124",
    "R-125": "R125",
    "R-142b": "R142b",
    "R-143a": "R143a",
    "R-152a": "R152A",
    "R-227ea": "R227EA",
    "R-22": "R22",
    "R-290": "n-Propane",
    "R-600": "n-Butane",
    "R-600a": "IsoButane",
    "R-601a": "Isopentane",
    "R-744": "CarbonDioxide",
    "R-1234ze(E)": "R1234ze(E)",
    "R-1336mzz(E)": "R1336mzz(E)",
}

# CoolProp keeps a rule, once applied, for the whole process, and then no longer misses the pair.
_LACKING: set[tuple[str, str]] = set()


@dataclass(frozen=True, slots=True)
class Saturated:
    """Saturated liquid and vapour in equilibrium, one of them of the nominal composition."""

    temperature_k: float
    pressure_pa_abs: float
    liquid_mol_m3: float
    vapour_mol_m3: float
    """Either is NaN on the other line of a pseudo-pure equation, which knows one phase at a time."""
    liquid: tuple[float, ...]
    """Mole fractions of the liquid."""
    vapour: tuple[float, ...]
    """Mole fractions of the vapour."""
    how: str
    """How it was found: ``flash`` by the plain solver, ``continued`` from a neighbour's answer, or which
    end of a pure fluid's curve it is."""


def component_fluid(component: str) -> str:
    """Return CoolProp's name of a component, like ``n-Butane`` for ``R-600``."""
    return _FLUIDS.get(component, component.replace("-", ""))


class Equation:
    """One refrigerant's equation of state, opened in CoolProp (HEOS)."""

    def __init__(self, refrigerant: Refrigerant) -> None:
        import CoolProp
        from CoolProp.CoolProp import AbstractState, PyGuessesStructure

        self._inputs: int = CoolProp.QT_INPUTS
        self._density_key: int = CoolProp.iDmolar
        self._guesses: Any = PyGuessesStructure
        self.refrigerant = refrigerant
        self.ruled_pairs: tuple[str, ...] = ()
        if "&" in refrigerant.coolprop:
            self.ruled_pairs = tuple(_apply_linear_rule(refrigerant))
        self._state: Any = AbstractState("HEOS", refrigerant.coolprop)
        if "&" in refrigerant.coolprop:
            self._state.set_mole_fractions(mole_fractions(refrigerant))
        self.molar_mass_kg_mol: float = self._state.molar_mass()

    def saturated(self, quality: int, temperature_k: float) -> Saturated | None:
        """Solve for vapour (quality 1) or liquid (0) of the nominal composition; None where it fails."""
        try:
            self._state.update(self._inputs, quality, temperature_k)
        except ValueError:  # CoolProp's one way of saying that the flash did not converge
            return None
        return self._read(quality, "flash")

    def continued(self, quality: int, temperature_k: float, near: Saturated) -> Saturated | None:
        """Solve with the solution at a neighbouring temperature as first guess; blends only."""
        if self.refrigerant.kind is not Kind.BLEND:
            return None
        guess = self._guesses()
        guess.T, guess.p = near.temperature_k, near.pressure_pa_abs
        guess.rhomolar_liq, guess.rhomolar_vap = near.liquid_mol_m3, near.vapour_mol_m3
        guess.x, guess.y = list(near.liquid), list(near.vapour)
        try:
            self._state.update_with_guesses(self._inputs, quality, temperature_k, guess)
        except ValueError:
            return None
        return replace(self._read(quality, "continued"), temperature_k=temperature_k)

    def triple_and_critical_k(self) -> tuple[float, float]:
        """Return the temperatures of triple and critical point of a pure fluid."""
        return self._state.Ttriple(), self._state.T_critical()

    def _read(self, quality: int, how: str) -> Saturated:
        state = self._state
        liquid = state.saturated_liquid_keyed_output(self._density_key)
        vapour = state.saturated_vapor_keyed_output(self._density_key)
        if self.refrigerant.kind is Kind.PSEUDO_PURE:
            # The other phase still holds what an earlier call left there.
            liquid, vapour = (nan, state.rhomolar()) if quality else (state.rhomolar(), nan)
        return Saturated(
            temperature_k=state.T(),
            pressure_pa_abs=state.p(),
            liquid_mol_m3=liquid,
            vapour_mol_m3=vapour,
            liquid=tuple(state.mole_fractions_liquid()),
            vapour=tuple(state.mole_fractions_vapor()),
            how=how,
        )


def mole_fractions(refrigerant: Refrigerant) -> list[float]:
    """Convert the mass composition to mole fractions with CoolProp's molar masses."""
    from CoolProp.CoolProp import PropsSI

    moles = [mass / PropsSI("M", component_fluid(name)) for name, mass in refrigerant.composition]
    return [amount / sum(moles) for amount in moles]


def _apply_linear_rule(refrigerant: Refrigerant) -> Iterator[str]:
    """Give each pair without interaction parameters linear ones; yield the pairs that lacked them."""
    from CoolProp.CoolProp import AbstractState, apply_simple_mixing_rule, get_fluid_param_string

    for first, second in combinations([name for name, _ in refrigerant.composition], 2):
        fluids = component_fluid(first), component_fluid(second)
        try:
            AbstractState("HEOS", "&".join(fluids))
        except ValueError:
            numbers = [get_fluid_param_string(fluid, "CAS") for fluid in fluids]
            apply_simple_mixing_rule(numbers[0], numbers[1], "linear")
            _LACKING.add(fluids)
        if fluids in _LACKING:
            yield f"{first}/{second}"
