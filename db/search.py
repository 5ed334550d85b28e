"""Search as one types: every word has to occur somewhere in what names a thing."""

from sqlalchemy import Connection

_ESCAPED = str.maketrans({"\\": r"\\", "%": r"\%", "_": r"\_"})


def search_condition(
    connection: Connection, typed: str, expressions: tuple[str, ...]
) -> tuple[str, dict[str, str]]:
    """Return the SQL condition and its values; empty where nothing was typed."""
    like = "LIKE" if connection.dialect.name == "sqlite" else "ILIKE"
    conditions = []
    values = {}
    for place, word in enumerate(typed.split()):
        name = f"word{place}"
        values[name] = f"%{word.translate(_ESCAPED)}%"
        anywhere = " OR ".join(f"{expression} {like} :{name} ESCAPE '\\'" for expression in expressions)
        conditions.append(f"({anywhere})")
    return " AND ".join(conditions), values
