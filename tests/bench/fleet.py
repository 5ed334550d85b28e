"""A generated register for measurements, made once per size and kept in the temporary folder."""

import tempfile
from datetime import date
from pathlib import Path

from fleet import __version__
from fleet.desk.importing import import_rows
from seeds_demo.generator import generate_files

TODAY = date(2026, 11, 25)


def generated_register(boxes: int, seed: int = 1) -> Path:
    """Return a register with so many generated boxes, not audited yet."""
    path = Path(tempfile.gettempdir()) / f"coldround-bench-{__version__}-{boxes}-{seed}.sqlite"
    if not path.exists():
        rows = {name: list(cells) for name, cells in generate_files(boxes, seed, TODAY).items()}
        import_rows(path, rows, today=TODAY)
    return path
