"""Empty files for a company to fill in."""

from pathlib import Path

from fleet.checks.catalogue import CATALOGUE
from fleet.exchange.template import write_templates


def make_templates(folder: Path) -> list[Path]:
    """Write every file empty, with its header, one example row and the allowed values.

    Raises:
        UsageError: a file of that name exists; nothing is overwritten.
    """
    return list(write_templates(folder, check_codes=[kind.code for kind in CATALOGUE]))
