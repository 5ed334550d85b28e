"""The tables of the register; columns are named as the dictionary names them."""

from db.models.acts import Act, Change
from db.models.base import Base
from db.models.equipment import Box, Compressor, System
from db.models.findings import Finding, FirstSeen
from db.models.places import Customer, Person, Site
from db.models.records import (
    CheckDefinition,
    CheckRecord,
    CurrentCheck,
    CurrentSettings,
    Event,
    SettingRecord,
)
from db.models.versioned import Versioned

__all__ = [
    "Act",
    "Base",
    "Box",
    "Change",
    "CheckDefinition",
    "CheckRecord",
    "Compressor",
    "CurrentCheck",
    "CurrentSettings",
    "Customer",
    "Event",
    "Finding",
    "FirstSeen",
    "Person",
    "SettingRecord",
    "Site",
    "System",
    "Versioned",
]
