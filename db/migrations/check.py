"""``python -m db.migrations.check``: a new register by the migrations has exactly the models' tables."""

import sys
import tempfile
from pathlib import Path

from alembic.autogenerate import compare_metadata
from alembic.migration import MigrationContext

from db.engine import open_register
from db.models import Base
from db.schema import create


def differences() -> list[object]:
    """Return what Alembic would still have to change."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "register.sqlite"
        create(path)
        engine = open_register(path)
        with engine.connect() as connection:
            found = list(compare_metadata(MigrationContext.configure(connection), Base.metadata))
        engine.dispose()
    return found


def main() -> int:
    """Print the differences; 0 where there are none."""
    found = differences()
    for difference in found:
        print(difference)
    print("models and migrations agree" if not found else f"{len(found)} differences")
    return 1 if found else 0


if __name__ == "__main__":
    sys.exit(main())
