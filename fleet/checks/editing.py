"""Changes that a company makes to the catalogue of checks, refused where they cannot be meant."""

from collections.abc import Mapping, Sequence
from dataclasses import fields, replace

from fleet.checks.applies import APPLIES
from fleet.checks.catalogue import CheckKind, check_kind
from fleet.checks.fields import VALIDATORS, NotAcceptedError
from fleet.errors import InputError, UnknownNameError

_FIXED = ("code", "scope", "source_code")
"""Another code or another scope is another check; the source tells of the catalogue as delivered."""
EDITABLE: tuple[str, ...] = tuple(field.name for field in fields(CheckKind) if field.name not in _FIXED)


def edited(
    catalogue: Sequence[CheckKind], changes: Mapping[str, Mapping[str, object]]
) -> tuple[CheckKind, ...]:
    """Return the catalogue with changes laid over it; the order, hence every position, is kept.

    Parameters
    ----------
    catalogue
        The catalogue to start from.
    changes
        By code of the check: the new value of each changed field of `EDITABLE`.

    Raises
    ------
    UnknownNameError
        A code, a field, or a question of ``applies`` is not in its list.
    InputError
        A value cannot be accepted; the message says what would be.

    Examples
    --------
    >>> from fleet.checks.catalogue import CATALOGUE
    >>> mine = edited(CATALOGUE, {"rack": {"months": 1}})
    >>> check_kind("rack", mine).months, check_kind("rack").months
    (1, 3)
    """
    for code in changes:
        check_kind(code, catalogue)
    return tuple(_changed(kind, changes.get(kind.code, {})) for kind in catalogue)


def changed_fields(kind: CheckKind) -> tuple[str, ...]:
    """Return which fields differ from the catalogue as delivered.

    >>> from fleet.checks.catalogue import CATALOGUE
    >>> changed_fields(check_kind("rack", edited(CATALOGUE, {"rack": {"months": 1}})))
    ('months',)
    """
    delivered = check_kind(kind.code)
    return tuple(name for name in EDITABLE if getattr(kind, name) != getattr(delivered, name))


def _changed(kind: CheckKind, values: Mapping[str, object]) -> CheckKind:
    accepted: dict[str, object] = {}
    for field, value in values.items():
        where = f"{kind.code}, {field}"
        if field not in EDITABLE:
            raise UnknownNameError("editable field of a check", field, EDITABLE, where=where)
        try:
            accepted[field] = VALIDATORS[field](value)
        except NotAcceptedError as refused:
            message = f"Check {kind.code}, {field}: {value!r} is not accepted; {refused.expected}."
            raise InputError(message, where=where) from None
    changed = replace(kind, **accepted)  # type: ignore[arg-type]
    _require_whole(changed)
    return changed


def _require_whole(kind: CheckKind) -> None:
    """Refuse what each field allows and the check as a whole does not."""
    if kind.scope == "system" and APPLIES[kind.applies].scope == "box":
        known = ", ".join(name for name, applies in APPLIES.items() if applies.scope == "system")
        expected = f"a check of systems accepts one of: {known}"
        message = f"Check {kind.code}, applies: {kind.applies!r} asks about boxes; {expected}."
        raise InputError(message, where=f"{kind.code}, applies")
    for field in ("months_display_case", "months_freezer"):
        if kind.scope == "system" and getattr(kind, field) is not None:
            held = getattr(kind, field)
            expected = "a check of systems cannot tell boxes apart, leave it empty"
            message = f"Check {kind.code}, {field}: {held!r} is not accepted; {expected}."
            raise InputError(message, where=f"{kind.code}, {field}")
