"""What stood before an act: the record that puts a setting back without taking anything away.

Records of acts that were undone, and those the undoing appended, are no longer alive; what is alive and
is not of the act itself is what would stand if the act had never been.
"""

from datetime import date

from sqlalchemy import select

from db.models import Act, SettingRecord
from db.work import Work
from fleet.dictionary.words import Stage
from fleet.errors import UsageError

UNDO_NOTE = "undo: the value before"


def record_order(record: SettingRecord) -> tuple[date, str, int]:
    """Return what sorts records of one setting: without a day first, as-left after as-found."""
    return record.recorded_on or date.min, record.stage, record.id


def before_of(work: Work, record: SettingRecord, act_id: int) -> SettingRecord:
    """Return a record like the one that stood before; without a value where there was none.

    Raises:
        UsageError: the setting was corrected again for the same day since; that has to be undone first.
    """
    everything, alive = _records_of(work, record, act_id)
    if any(one.id > record.id and one.recorded_on == record.recorded_on for one in alive):
        raise UsageError("That setting was corrected again since; undo the later correction first.")
    later = [one for one in alive if record_order(one) > record_order(record)]
    if later:
        # Back-dated: something later holds anyway, so only the value of that day is put back.
        earlier = [one for one in alive if record_order(one) < record_order(record)]
        return _like(work, record, earlier[-1] if earlier else None, record.recorded_on)
    # Also after what the undoing of later acts has appended, or that would still decide.
    last_day = max((one.recorded_on or date.min for one in everything), default=date.min)
    return _like(work, record, alive[-1] if alive else None, last_day if last_day > date.min else None)


def _records_of(
    work: Work, record: SettingRecord, act_id: int
) -> tuple[list[SettingRecord], list[SettingRecord]]:
    """Return all records of a setting, and those alive without the act, each in the order they count."""
    undone = set(work.session.scalars(select(Act.undoes_id).where(Act.undoes_id.is_not(None))))
    undoing = set(work.session.scalars(select(Act.id).where(Act.undoes_id.is_not(None))))
    everything = sorted(
        work.session.scalars(
            select(SettingRecord).where(
                SettingRecord.system_id == record.system_id,
                SettingRecord.part == record.part,
                SettingRecord.setting == record.setting,
            )
        ),
        key=record_order,
    )
    dead = undone | undoing | {act_id}
    return everything, [one for one in everything if one.act_id not in dead]


def _like(work: Work, record: SettingRecord, before: SettingRecord | None, day: date | None) -> SettingRecord:
    return SettingRecord(
        system_id=record.system_id,
        part=record.part,
        setting=record.setting,
        value_si=before.value_si if before else None,
        dimension=before.dimension if before else "",
        typed=before.typed if before else "",
        stage=Stage.AS_LEFT.value,
        recorded_on=day,
        recorded_by_id=work.by,
        confirmed=before.confirmed if before else None,
        note=UNDO_NOTE,
    )
