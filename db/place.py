"""Where a register is: a file, or the URL of a database server."""

from dataclasses import dataclass
from pathlib import Path
from urllib.parse import quote

from sqlalchemy.engine import URL, make_url
from sqlalchemy.exc import ArgumentError

from fleet.errors import NotARegisterError

Where = str | Path
"""A path, or any SQLAlchemy URL."""


@dataclass(frozen=True, slots=True)
class RegisterPlace:
    """A register's place: of a file its path, of a server only the URL."""

    url: URL
    path: Path | None

    @property
    def name(self) -> str:
        """The place as messages name it, without a password."""
        return str(self.path) if self.path else self.url.render_as_string(hide_password=True)

    def file_uri(self, mode: str, *, immutable: bool = False) -> str:
        """Return the URI by which SQLite opens the file in ``mode``: ``ro``, ``rw`` or ``rwc``."""
        assert self.path is not None
        extra = "&immutable=1" if immutable else ""
        return f"file:{quote(str(self.path.absolute()))}?mode={mode}{extra}"


def place_of(where: Where) -> RegisterPlace:
    """Read a path or URL.

    Raises:
        NotARegisterError: a URL that cannot be read, or one of a database that lives in memory only.
    """
    if isinstance(where, str) and "://" in where:
        try:
            url = make_url(where)
        except (ArgumentError, ValueError):
            raise NotARegisterError(
                f"{where!r} is no database URL; expected a path, or a URL like postgresql://host/name.",
                where=where,
            ) from None
        if url.get_backend_name() != "sqlite":
            return RegisterPlace(url, None)
        if not url.database or url.database == ":memory:":
            raise NotARegisterError(f"{where} names no file; a register needs one.", where=where)
        where = url.database
    if "\x00" in str(where):
        raise NotARegisterError("A register's name cannot hold a NUL character.", where=None)
    path = Path(where)
    return RegisterPlace(URL.create("sqlite", database=str(path)), path)
