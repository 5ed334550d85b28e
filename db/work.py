"""The unit of work: one person's act on the register, done wholly or not at all.

Everything that follows from the rows that were changed is done here and nowhere else: the act is
recorded, what stood there before is kept, current settings and checks are made anew, and every system
whose findings may differ is marked for the next audit.
"""

from collections.abc import Iterable, Mapping, Sequence
from datetime import date, datetime
from types import TracebackType
from typing import Any, Self, TypeVar, cast

from sqlalchemy import JSON, Column, ColumnDefault, Connection, Engine, Table, insert, select, update
from sqlalchemy import event as listening
from sqlalchemy.orm import Session, UOWTransaction
from sqlalchemy.orm.exc import StaleDataError

from db.current import recompute_checks, recompute_settings
from db.driver import chunks
from db.engine import writer
from db.models import Act, Base, Change, CheckRecord, Event, SettingRecord, System
from db.touched import Touched, change_of
from fleet.errors import ChangedMeanwhileError

Model = TypeVar("Model", bound=Base)
_RECORDS = (SettingRecord, CheckRecord, Event)
_BATCH = 20_000


class Work:
    """One act: everything inside is rolled back unless `commit` is called.

    The write lock is taken when the work is entered, so what is read inside cannot change before it is
    written. ``by`` is the key of a person, None for the program itself.
    """

    def __init__(
        self,
        engine: Engine,
        *,
        by: int | None,
        what: str,
        today: date,
        now: datetime,
        note: str | None = None,
        undoes: int | None = None,
    ) -> None:
        self.by = by
        self.today = today
        self.now = now
        self._act = {"at": now, "by_id": by, "what": what, "note": note, "undoes_id": undoes}
        self._act_id: int | None = None
        self._touched = Touched()
        self.session = Session(writer(engine), autoflush=True, expire_on_commit=False)
        listening.listen(self.session, "before_flush", self._name_the_act)
        listening.listen(self.session, "after_flush", self._keep_what_changed)

    def __enter__(self) -> Self:
        self.session.connection().exec_driver_sql("SELECT 1")
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self.session.rollback()
        self.session.close()

    @property
    def connection(self) -> Connection:
        """The connection of this work, for statements of one's own."""
        return self.session.connection()

    @property
    def act_id(self) -> int:
        """The key of this act; its row is written when it is first asked for."""
        if self._act_id is None:
            made = self.connection.execute(insert(Act).values(**self._act)).inserted_primary_key
            assert made is not None
            self._act_id = int(made[0])
        return self._act_id

    def add(self, *rows: Base) -> None:
        """Add new rows."""
        self.session.add_all(rows)

    def get(self, model: type[Model], key: int | str, *, version: int | None = None) -> Model:
        """Return a row to change; ``version`` is the one that the person saw.

        Raises:
            ChangedMeanwhileError: the row has changed since, or is gone.
        """
        row = self.session.get(model, key)
        if row is None:
            raise ChangedMeanwhileError(f"Row {key} of {model.__tablename__} is no longer there.")
        if version is not None and getattr(row, "version", version) != version:
            raise ChangedMeanwhileError(
                f"{_name_of(row)} was changed by somebody else after you opened it; nothing was overwritten. "
                "Look at it again, then repeat your change."
            )
        return row

    def insert_many(
        self, model: type[Base], rows: Sequence[Mapping[str, Any]], *, returning: bool = False
    ) -> list[int]:
        """Insert rows in bulk; with ``returning`` give back their keys, in order."""
        prepared = self._prepared(model, rows)
        keys: list[int] = []
        table = cast(Table, model.__table__)
        for batch in chunks(prepared, _BATCH):
            if returning:
                with_keys = insert(table).returning(table.c.id, sort_by_parameter_order=True)
                keys.extend(self.connection.execute(with_keys, batch).scalars())
            else:
                self.connection.execute(insert(table), batch)
        self._touched.add_rows(model, prepared)
        return keys

    def touch(self, system_ids: Iterable[int]) -> None:
        """Mark systems whose inputs changed in a way that the rows themselves do not show."""
        self._touched.systems.update(system_ids)

    def recompute_settings(self, system_ids: Sequence[int] | None = None) -> None:
        """Make current settings anew before the commit does; of all systems without keys."""
        self.session.flush()
        recompute_settings(self.connection, self._all_systems() if system_ids is None else system_ids)

    def recompute_checks(self, system_ids: Sequence[int] | None = None) -> None:
        """Make the current state of checks anew before the commit does; of all systems without keys."""
        self.session.flush()
        recompute_checks(self.connection, self._all_systems() if system_ids is None else system_ids)

    def flush(self) -> None:
        """Send pending rows, so that their keys are known.

        Raises:
            ChangedMeanwhileError: a row was changed by somebody else.
        """
        try:
            self.session.flush()
        except StaleDataError as error:
            raise ChangedMeanwhileError(
                "Somebody else changed the same record after you opened it; nothing was overwritten. "
                "Look at it again, then repeat your change."
            ) from error

    def commit(self) -> int | None:
        """Keep everything; return the key of the act, None where nothing was done."""
        self.flush()
        self._settle()
        self.session.commit()
        return self._act_id

    def _settle(self) -> None:
        """Make what follows from the touched systems, and mark them for the next audit."""
        touched = sorted(self._touched_systems())
        if not touched:
            return
        _ = self.act_id
        recompute_settings(self.connection, touched)
        recompute_checks(self.connection, touched)
        for ids in chunks(touched):
            self.connection.execute(
                update(System).where(System.id.in_(ids)).values(input_version=System.input_version + 1)
            )
        self._touched.clear()

    def _touched_systems(self) -> set[int]:
        if self._touched.everything:
            return set(self._all_systems())
        systems = set(self._touched.systems)
        for sites in chunks(sorted(self._touched.sites)):
            systems.update(self.session.scalars(select(System.id).where(System.site_id.in_(sites))))
        return systems

    def _all_systems(self) -> list[int]:
        return list(self.session.scalars(select(System.id).order_by(System.id)))

    def _prepared(self, model: type[Base], rows: Sequence[Mapping[str, Any]]) -> list[dict[str, Any]]:
        """Return rows of one shape, because a bulk insert takes its columns from the first."""
        names = {name for row in rows for name in row}
        columns = cast(Table, model.__table__).columns
        shape = {name: _default_of(columns[name]) for name in names}
        act = {"act_id": self.act_id} if "act_id" in columns and model is not Change else {}
        return [{**shape, **act, **row} for row in rows]

    def _name_the_act(self, session: Session, context: UOWTransaction, instances: object) -> None:
        pending = [
            *session.new,
            *session.deleted,
            *(row for row in session.dirty if session.is_modified(row)),
        ]
        if not pending:
            return
        for row in session.new:
            if isinstance(row, _RECORDS) and row.act_id is None:
                row.act_id = self.act_id
        _ = self.act_id

    def _keep_what_changed(self, session: Session, context: UOWTransaction) -> None:
        changes = []
        for row in session.new:
            self._touched.add(row)
        for rows, deleted in ((session.dirty, False), (session.deleted, True)):
            for row in rows:
                change = change_of(row, deleted=deleted)
                if change is None and not deleted:
                    continue
                self._touched.add(row)
                if change is not None:
                    changes.append(self._change_row(row, *change))
        if changes:
            session.connection().execute(insert(Change), changes)

    def _change_row(self, row: Base, before: dict[str, Any], after: dict[str, Any]) -> dict[str, Any]:
        key = getattr(row, "id", None) or getattr(row, "code", "")
        return {
            "act_id": self.act_id,
            "table": row.__tablename__,
            "row_id": str(key),
            "before": before,
            "after": after,
        }


def _default_of(column: Column[Any]) -> Any:
    """Return what a row holds in a column that it does not name."""
    default = column.default
    if isinstance(default, ColumnDefault) and default.is_scalar:
        return default.arg
    return {} if isinstance(column.type, JSON) else None


def _name_of(row: Base) -> str:
    """Return what people call a row."""
    for attribute in ("box", "system", "site", "customer", "person", "reference", "code"):
        name = getattr(row, attribute, None)
        if isinstance(name, str):
            return f"{type(row).__name__} {name!r}"
    return f"{type(row).__name__} {getattr(row, 'id', '')}".strip()
