"""The health of a register: the file, the schema, what follows from the records, the backups."""

from dataclasses import dataclass

from db.engine import connect_register
from db.integrity import Report, check
from db.place import Where
from fleet.desk.documents import Document


@dataclass(frozen=True, slots=True)
class Health:
    """What was found, as lines for people and as a document."""

    sound: bool
    lines: tuple[str, ...]
    document: Document


def register_health(where: Where) -> Health:
    """Look through a register; nothing is changed.

    Raises:
        RegisterError: it is missing, locked, or something else than a register.
    """
    engine = connect_register(where, read_only=True)
    try:
        report = check(engine)
    finally:
        engine.dispose()
    return Health(report.sound, tuple(_lines(report)), _document(report))


def _lines(report: Report) -> list[str]:
    schema = "as it should be" if report.revision == report.expected_revision else "another version's"
    lines = [
        _line(not report.file_problems, "file", "; ".join(report.file_problems) or "whole"),
        _line(
            report.revision == report.expected_revision,
            "schema",
            f"revision {report.revision}, {schema} ({report.expected_revision})",
        ),
        _line(not report.orphans, "references", ", ".join(report.orphans) or "all rows belong to something"),
        _line(
            not report.wrong_settings,
            "current settings",
            _parts(report.wrong_settings) or "follow from the records",
        ),
        _line(not report.wrong_checks, "checks", _parts(report.wrong_checks) or "follow from the records"),
        f"· audit: {report.findings:,} findings stored; {report.changed_since_audit:,} of {report.systems:,} "
        "systems changed since the last audit",
    ]
    backups = report.backups
    newest = f", the newest {backups[0].path}" if backups else ""
    return [*lines, f"· backups: {len(backups)}{newest}"]


def _line(good: bool, what: str, words: str) -> str:
    return f"{'✓' if good else '✕'} {what}: {words}"


def _parts(wrong: tuple[tuple[int, str], ...]) -> str:
    return (
        "differ from the records on " + ", ".join(f"system {s} {p}".strip() for s, p in wrong)
        if wrong
        else ""
    )


def _document(report: Report) -> Document:
    return {
        "sound": report.sound,
        "revision": report.revision,
        "expected_revision": report.expected_revision,
        "file_problems": list(report.file_problems),
        "orphans": list(report.orphans),
        "wrong_settings": [[system, part] for system, part in report.wrong_settings],
        "wrong_checks": [[system, part] for system, part in report.wrong_checks],
        "systems": report.systems,
        "changed_since_audit": report.changed_since_audit,
        "never_audited": report.never_audited,
        "findings": report.findings,
        "backups": [str(backup.path) for backup in report.backups],
    }
