"""Rows that people change, each with a counter of its changes."""

from typing import Any

from sqlalchemy.orm import Mapped, declared_attr, mapped_column

from db.models.base import Version


class Versioned:
    """A row that people change; the second of two editors is told, nothing is overwritten."""

    version: Mapped[Version] = mapped_column(default=1, server_default="1", sort_order=900)

    @declared_attr.directive
    def __mapper_args__(cls) -> dict[str, Any]:  # noqa: N805
        """Count every change in ``version``."""
        return {"version_id_col": cls.version}
