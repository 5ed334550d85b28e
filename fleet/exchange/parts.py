"""The part of a system that a row names: the system itself, a box, a compressor, a suction group."""

from fleet.dictionary import PartKind, SettingKind
from fleet.errors import InputError, UnknownNameError
from fleet.exchange.directory import Directory
from fleet.exchange.storage import Key

_EXPECTED = {
    PartKind.SYSTEM: "the whole system; expected an empty part",
    PartKind.SYSTEM_OR_COMPRESSOR: (
        "the system or a compressor; expected an empty part or one like 'compressor 1'"
    ),
    PartKind.GROUP: "a suction group; expected a part like 'group A'",
    PartKind.BOX: "a box; expected the tag of a box",
}


def part_kind(part: str) -> PartKind:
    """Return what kind of part a name is."""
    if not part:
        return PartKind.SYSTEM
    if part.startswith("compressor "):
        return PartKind.SYSTEM_OR_COMPRESSOR
    return PartKind.GROUP if part.startswith("group ") else PartKind.BOX


def check_part(system: Key, part: str, directory: Directory) -> None:
    """Refuse a part that the system does not have.

    Raises:
        UnknownNameError: with the nearest parts of the system.
    """
    if directory.has_part(system, part) or directory.unknown_kinds & {"boxes", "compressors"}:
        return
    raise UnknownNameError(f"part of the system {system[-1]}", part, directory.parts(system))


def check_setting_part(setting: SettingKind, system: Key, part: str, directory: Directory) -> None:
    """Refuse a part that a setting cannot belong to, or that the system does not have.

    A rack without named groups has one group, which is the system itself.

    Raises:
        InputError: the setting belongs to another kind of part.
        UnknownNameError: the system has no such part.
    """
    kind = part_kind(part)
    fits = kind is setting.part or (
        kind is PartKind.SYSTEM
        and (
            setting.part is PartKind.SYSTEM_OR_COMPRESSOR
            or (setting.part is PartKind.GROUP and not groups(system, directory))
        )
    )
    if not fits:
        of_kind = [p for p in directory.parts(system) if part_kind(p) is setting.part]
        names = f" ({system[-1]} has {', '.join(of_kind[:8])})" if of_kind else ""
        raise InputError(f"{setting.code} belongs to {_EXPECTED[setting.part]}{names}")
    check_part(system, part, directory)


def groups(system: Key, directory: Directory) -> list[str]:
    """Return the suction groups of a system, as parts."""
    return [part for part in directory.parts(system) if part_kind(part) is PartKind.GROUP]


def group_of_column(system: Key, directory: Directory) -> str:
    """Return the part that ``group_suction`` as a column of systems.csv is meant for.

    Raises:
        InputError: the system has several groups, so the column says too little.
    """
    found = groups(system, directory)
    if len(found) > 1:
        raise InputError(f"the system has {', '.join(found)}; expected a row of settings.csv for each")
    return found[0] if found else ""
