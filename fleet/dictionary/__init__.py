"""The dictionary of the register: files, columns, settings and values, written once.

Tables, CSV files, forms, command options and JSON take their names from here.
"""

from fleet.dictionary.columns import Column, FileKind
from fleet.dictionary.equipment import BOXES, COMPRESSORS, SYSTEMS
from fleet.dictionary.history import CHECKS, EVENTS
from fleet.dictionary.places import CUSTOMERS, PEOPLE, SITES
from fleet.dictionary.settings import SETTING_BY_CODE, SETTINGS, SETTINGS_FILE, PartKind, SettingKind

FILES: tuple[FileKind, ...] = (
    PEOPLE,
    CUSTOMERS,
    SITES,
    SYSTEMS,
    BOXES,
    COMPRESSORS,
    SETTINGS_FILE,
    EVENTS,
    CHECKS,
)
"""Every kind of file, in the order in which rows refer to earlier ones."""

FILE_BY_NAME: dict[str, FileKind] = {file.name: file for file in FILES}

__all__ = [
    "BOXES",
    "CHECKS",
    "COMPRESSORS",
    "CUSTOMERS",
    "EVENTS",
    "FILES",
    "FILE_BY_NAME",
    "PEOPLE",
    "SETTINGS",
    "SETTINGS_FILE",
    "SETTING_BY_CODE",
    "SITES",
    "SYSTEMS",
    "Column",
    "FileKind",
    "PartKind",
    "SettingKind",
]
