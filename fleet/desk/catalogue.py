"""The catalogue of checks as a company keeps it: the delivered one with its own changes laid over it."""

from collections.abc import Mapping

from sqlalchemy import Connection, select

from db.models import CheckDefinition
from db.work import Work
from fleet.checks.catalogue import CATALOGUE, CheckKind, check_kind
from fleet.checks.editing import EDITABLE, changed_fields, edited
from fleet.desk.documents import Document, Json
from fleet.desk.opened import Desk
from fleet.errors import InputError, UnknownNameError

WHAT = "change the catalogue of checks"
_TEXTS = {"what", "who", "season", "applies"}


def catalogue_of(connection: Connection) -> tuple[CheckKind, ...]:
    """Return the catalogue that holds in a register."""
    table = CheckDefinition.__table__
    changes = {row.code: _changes(dict(row._mapping)) for row in connection.execute(select(table))}
    return edited(CATALOGUE, changes)


def _changes(row: Mapping[str, object]) -> dict[str, object]:
    """Return what a row changes; an empty field leaves the delivered value, no skills among them."""
    return {name: row[name] for name in EDITABLE if row[name] is not None and row[name] != ()}


def change_check(desk: Desk, code: str, typed: Mapping[str, str]) -> CheckKind:
    """Change fields of one check, as typed; every system is due another audit.

    Raises:
        UnknownNameError: there is no such check or field.
        InputError: a value is not accepted; nothing is changed.
    """
    check_kind(code)
    changes = {field: _value(code, field, text) for field, text in typed.items()}
    with Work(desk.engine, by=desk.person_id(), what=WHAT, today=desk.today, now=desk.now()) as work:
        row = work.session.get(CheckDefinition, code)
        if row is None:
            row = CheckDefinition(code=code)
            work.add(row)
        for field, value in changes.items():
            setattr(row, field, value)
        work.flush()
        kept = check_kind(code, catalogue_of(work.connection))
        work.commit()
    return kept


def _value(code: str, field: str, text: str) -> object:
    if field not in EDITABLE:
        raise UnknownNameError("editable field of a check", field, EDITABLE, where=f"{code}, {field}")
    if field == "skills":
        return tuple(word.strip() for word in text.split(";") if word.strip())
    if field in _TEXTS:
        return text
    try:
        return int(text)
    except ValueError:
        raise InputError(
            f"Check {code}, {field}: {text!r} is not accepted; expected a whole number.",
            where=f"{code}, {field}",
        ) from None


def catalogue_document(desk: Desk) -> Document:
    """Return what ``coldround catalogue --json`` prints."""
    with desk.engine.connect() as connection:
        kinds = catalogue_of(connection)
    checks: list[Json] = [
        {
            "check": kind.code,
            "what": kind.what,
            "applies": kind.applies,
            "who": kind.who,
            "months": kind.months,
            "months_self_contained": kind.months_self_contained,
            "months_display_case": kind.months_display_case,
            "months_freezer": kind.months_freezer,
            "season": kind.season,
            "minutes": kind.minutes,
            "minutes_self_contained": kind.minutes_self_contained,
            "skills": list(kind.skills),
            "tolerance_days": kind.tolerance_days,
            "changed": list(changed_fields(kind)),
            "source": str(kind.source),
        }
        for kind in kinds
    ]
    return {"units": {"months": "months", "minutes": "min", "tolerance_days": "d"}, "checks": checks}
