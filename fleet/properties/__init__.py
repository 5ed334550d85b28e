"""Refrigerants and their saturation properties, from tables that were made beforehand.

Nothing here imports CoolProp: it makes and checks the tables (`fleet.properties.make`), no more.
"""

from fleet.properties.catalogue import (
    REFRIGERANTS,
    UNKNOWN,
    Kind,
    Refrigerant,
    refrigerant,
    refrigerant_index,
)
from fleet.properties.saturation import (
    bubble_pressure_pa_abs,
    bubble_temperature_k,
    dew_pressure_pa_abs,
    dew_temperature_k,
    glide_k,
    liquid_density_kg_m3,
)
from fleet.properties.states import (
    SaturationRange,
    SaturationState,
    SaturationTemperatures,
    saturation_range,
    state_at_pressure,
    state_at_temperature,
)
from fleet.properties.tables import BridgedNode, bridged_nodes, coolprop_version

__all__ = [
    "REFRIGERANTS",
    "UNKNOWN",
    "BridgedNode",
    "Kind",
    "Refrigerant",
    "SaturationRange",
    "SaturationState",
    "SaturationTemperatures",
    "bridged_nodes",
    "bubble_pressure_pa_abs",
    "bubble_temperature_k",
    "coolprop_version",
    "dew_pressure_pa_abs",
    "dew_temperature_k",
    "glide_k",
    "liquid_density_kg_m3",
    "refrigerant",
    "refrigerant_index",
    "saturation_range",
    "state_at_pressure",
    "state_at_temperature",
]
