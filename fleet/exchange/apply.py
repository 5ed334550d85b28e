"""Write what a plan says: all of it in one act, or nothing.

A dry run is a plan that is not written.
"""

from collections.abc import Callable, Collection, Mapping, Sequence
from datetime import date, datetime

from sqlalchemy import Engine, select
from sqlalchemy.exc import IntegrityError

from db.driver import chunks
from db.models import Base
from db.work import Work
from fleet.dictionary import FILES
from fleet.errors import ChangedMeanwhileError
from fleet.exchange.gathering import Gathered
from fleet.exchange.impossible import name_days_ahead
from fleet.exchange.outcome import Plan, Result, Update
from fleet.exchange.plan import make_plan
from fleet.exchange.progress import Progress, Step, silent
from fleet.exchange.register import MODELS, last_act, read_state
from fleet.exchange.storage import Key, Stored, is_person, storage

WHAT = "import"
_BATCH = 10_000
_REFERRED_TO = frozenset({"people", "customers", "sites", "systems"})
_PARENT_ATTRIBUTES = {"customer_id": "customers", "site_id": "sites", "system_id": "systems"}


def import_gathered(
    engine: Engine,
    gathered: Gathered,
    *,
    check_codes: Collection[str],
    by: int | None,
    today: date,
    now: datetime,
    dry_run: bool = False,
    progress: Progress = silent,
) -> Result:
    """Compare files with the register and write what differs; nothing with ``dry_run``.

    Raises:
        ImportRefusedError: something in the files cannot be accepted; all of it is named, and
            nothing was written.
        ChangedMeanwhileError: somebody else wrote between the comparison and the writing.
    """
    name_days_ahead(gathered, today)
    plan = make_plan(gathered, read_state(engine, gathered), check_codes=check_codes, progress=progress)
    if dry_run:
        return _result(plan, written=False)
    return apply_plan(engine, plan, by=by, today=today, now=now, progress=progress)


def apply_plan(
    engine: Engine,
    plan: Plan,
    *,
    by: int | None,
    today: date,
    now: datetime,
    progress: Progress = silent,
) -> Result:
    """Write a plan in one act; a plan without differences leaves no act at all.

    Raises:
        ChangedMeanwhileError: somebody else wrote since the plan was made.
    """
    if plan.is_empty:
        return _result(plan, written=False)
    try:
        with Work(engine, by=by, what=WHAT, today=today, now=now, note=_note(plan)) as work:
            _Writer(work, plan, progress).write()
            work.commit()
    except IntegrityError as error:  # on a server, another hand may add the same tag while we write
        raise _changed_meanwhile() from error
    return _result(plan, written=True)


class _Writer:
    """Writes the kinds of a plan parents first, and gives names their numbers."""

    def __init__(self, work: Work, plan: Plan, progress: Progress) -> None:
        self.work, self.plan, self.progress = work, plan, progress
        self.ids: dict[str, dict[Key, int]] = {name: dict(plan.ids.get(name, {})) for name in _REFERRED_TO}
        self.done = 0
        self.total = sum(map(len, plan.inserts.values())) + sum(map(len, plan.updates.values()))

    def write(self) -> None:
        if last_act(self.work.connection) != self.plan.stamp:
            raise _changed_meanwhile()
        _ = self.work.act_id  # people and customers alone are an act too
        for kind in FILES:
            references = _references(kind.name)
            self._insert(kind.name, self.plan.inserts.get(kind.name, []), references)
            self._update(kind.name, self.plan.updates.get(kind.name, []), references)
        self.progress(Step("working out what holds now", self.total, self.total, self.total))

    def _insert(self, name: str, rows: Sequence[dict[str, Stored]], references: Mapping[str, str]) -> None:
        model = MODELS[name]
        for batch in chunks(rows, _BATCH):
            resolved = [self._resolved(row, references) for row in batch]
            if name in _REFERRED_TO:
                made = self.work.insert_many(model, resolved, returning=True)
                self.ids[name].update(zip(map(_key_reader(name), batch), made, strict=True))
            else:
                self.work.insert_many(model, resolved)
            self._tell(name, len(batch))

    def _update(self, name: str, updates: Sequence[Update], references: Mapping[str, str]) -> None:
        model = MODELS[name]
        session = self.work.session
        for batch in chunks(updates):
            by_id = {update.id: update for update in batch}
            found = session.scalars(select(model).where(model.id.in_(by_id))).all()  # type: ignore[attr-defined]
            if len(found) != len(batch):
                raise _changed_meanwhile()
            for row in found:
                self._change(row, by_id[row.id], references)  # type: ignore[attr-defined]
            self.work.flush()
            session.expunge_all()
            self._tell(name, len(batch))

    def _change(self, row: Base, update: Update, references: Mapping[str, str]) -> None:
        if row.version != update.version:  # type: ignore[attr-defined]
            raise _changed_meanwhile()
        for attribute, value in self._resolved(dict(update.values), references).items():
            setattr(row, attribute, value)
        if update.typed:
            row.typed = {**row.typed, **update.typed}  # type: ignore[attr-defined]

    def _resolved(self, row: Mapping[str, Stored], references: Mapping[str, str]) -> dict[str, Stored]:
        """Return a row with numbers in place of names."""
        resolved = dict(row)
        for attribute, kind in references.items():
            name = resolved.get(attribute)
            if name is not None:
                key = name if isinstance(name, tuple) else (name,)
                resolved[attribute] = self.ids[kind][key]
        return resolved

    def _tell(self, name: str, rows: int) -> None:
        self.done += rows
        self.progress(Step(f"writing {name}", self.done, self.done, self.total))


def _references(name: str) -> dict[str, str]:
    """Return which attributes of a kind name a row of another kind."""
    people = {c.attribute: "people" for c in storage(name).own_columns if is_person(c)}
    return people | _PARENT_ATTRIBUTES


def _key_reader(name: str) -> Callable[[Mapping[str, Stored]], Key]:
    of = storage(name)
    tag = of.kind.key[-1]
    if of.parent is None:
        return lambda row: (row[tag],)
    parent = of.parent_attribute
    return lambda row: (*row[parent], row[tag])  # type: ignore[misc]


def _note(plan: Plan) -> str:
    return "; ".join(
        f"{name}: {counts.new} new, {counts.changed} changed" for name, counts in plan.counts.items()
    )


def _result(plan: Plan, *, written: bool) -> Result:
    return Result(plan.counts, plan.differences, plan.settings_recorded, written)


def _changed_meanwhile() -> ChangedMeanwhileError:
    return ChangedMeanwhileError(
        "Somebody else changed the register after the files were compared with it; nothing was imported. "
        "Import again."
    )
