"""The demo's own systems as templates, sound ones and faulty ones, for the generator."""

from dataclasses import dataclass

from fleet.dictionary.words import Verdict
from fleet.units import Dimension, parse
from seeds_demo.checks import Line, lines
from seeds_demo.customers import CUSTOMERS
from seeds_demo.faults import PLANTED, PlantedFault
from seeds_demo.parts import Cells, LastDone, Site, System
from seeds_demo.settings import PAIR, recorded_now

SAME_AIR_M = 150.0
"""Sites this close in elevation may lend each other systems: their air differs by under 0.3 psi."""


@dataclass(frozen=True, slots=True)
class Template:
    """One system of the demo, with what does not change from copy to copy worked out once."""

    system: System
    faulty: bool
    cut_in_too_high_psig: float | None
    """The faulty cut-in, where it was typed in psig; copies may lie further out."""
    columns: Cells
    """The cells of its row in systems, with the settings that stand there."""
    part_settings: tuple[Cells, ...]
    """Rows of settings that have no column: suction groups, compressors of a rack."""
    lines: tuple[Line, ...]
    last_done: dict[tuple[str, str], int]


@dataclass(frozen=True, slots=True)
class SiteTemplate:
    """One site of the demo, and the systems that may stand in its climate and air."""

    site: Site
    sound: tuple[Template, ...]
    faulty: tuple[Template, ...]


def site_templates() -> list[SiteTemplate]:
    """Return every site of the demo as a template."""
    planted: dict[tuple[str, str, str], PlantedFault] = {}
    for fault in PLANTED:
        planted.setdefault((fault.customer, fault.site, fault.system), fault)
    made = [
        (site, _template(system, planted.get((customer.tag, site.tag, system.tag))))
        for customer in CUSTOMERS
        for site in customer.sites
        for system in site.systems
    ]
    sites = [site for customer in CUSTOMERS for site in customer.sites]
    return [_site_template(site, made) for site in sites]


def _site_template(site: Site, made: list[tuple[Site, Template]]) -> SiteTemplate:
    near = [template for other, template in made if _alike(site, other)]
    return SiteTemplate(
        site,
        tuple(template for template in near if not template.faulty),
        tuple(template for template in near if template.faulty),
    )


def _alike(site: Site, other: Site) -> bool:
    apart_m = abs(_elevation_m(site) - _elevation_m(other))
    return site.cells["climate"] == other.cells["climate"] and apart_m <= SAME_AIR_M


def _elevation_m(site: Site) -> float:
    return parse(site.cells["elevation"], Dimension.LENGTH).value_si


def _template(system: System, fault: PlantedFault | None) -> Template:
    now = recorded_now(system)
    return Template(
        system=system,
        faulty=fault is not None,
        cut_in_too_high_psig=_psig_above(system, fault),
        columns={**system.cells, **{name: now["", name] for name in PAIR if ("", name) in now}},
        part_settings=tuple(
            {"part": part, "setting": setting, "value": value, "stage": "as-left", "confirmed": "gauge"}
            for (part, setting), value in now.items()
            if part.startswith(("group ", "compressor "))
        ),
        lines=tuple(lines(system)),
        last_done={
            (part.check_code, part.part): part.days_ago for part in system.parts if isinstance(part, LastDone)
        },
    )


def _psig_above(system: System, fault: PlantedFault | None) -> float | None:
    cut_in = system.cells.get("low_pressure_cut_in", "")
    if fault is None or fault.verdict is not Verdict.ABOVE or fault.setting != "low_pressure_cut_in":
        return None
    return float(cut_in.removesuffix("psig")) if cut_in.endswith("psig") else None
