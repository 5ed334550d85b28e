"""``coldround saturation``."""

from typing import cast

import click

from fleet.cli import options
from fleet.desk.saturation import saturation_document
from fleet.units import Dimension, UnitSystem, unit_shown


@click.command("saturation")
@click.argument("refrigerant")
@click.option(
    "--at", required=True, metavar="QUANTITY", help="A temperature like 20F, or a pressure like 55psig."
)
@click.option(
    "--elevation", metavar="LENGTH", help="Elevation of the site, like 5000ft; sea level unless given."
)
@options.units
@options.as_json
def command(refrigerant: str, at: str, elevation: str | None, units: UnitSystem, as_json: bool) -> None:
    """Dew and bubble of REFRIGERANT at a temperature or a pressure."""
    document = saturation_document(refrigerant, at, elevation, units)
    if as_json:
        options.print_document(document)
        return
    degrees, pressure = (
        unit_shown(Dimension.TEMPERATURE, units).symbol,
        unit_shown(Dimension.PRESSURE, units).symbol,
    )
    estimated = " (estimated by a mixing rule)" if document["estimated"] else ""
    click.echo(f"{document['refrigerant']}{estimated}")
    for key, unit in (
        ("temperature", degrees),
        ("pressure", pressure),
        ("dew_pressure", pressure),
        ("bubble_pressure", pressure),
        ("dew_temperature", degrees),
        ("bubble_temperature", degrees),
        ("glide", unit_shown(Dimension.TEMPERATURE_DIFFERENCE, units).symbol),
    ):
        if key in document:
            click.echo(f"  {key.replace('_', ' '):<19}{cast('float', document[key]):>9.2f} {unit}")
    click.echo("  From CoolProp's equations of state, tabulated; check with calibrated instruments.")
