"""Correct a setting: as found and as left, with the windows that follow while one types."""

from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from typing import TYPE_CHECKING, ClassVar

from textual import events, on, work
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Horizontal, Vertical, VerticalScroll
from textual.message import Message
from textual.suggester import SuggestFromList
from textual.widgets import Input

from fleet.desk.correcting import CONFIRMATIONS, Correction, Saved, save
from fleet.desk.form import PAIR, Form, FormLook, form, look, read_day, to_save, verdict_of
from fleet.desk.opened import Desk
from fleet.desk.sentences import day_words
from fleet.errors import ColdroundError, InputError
from fleet.text import cell_width, clean, cut
from fleet.tui.asking import AskScreen
from fleet.tui.choices import Choice, ChoicesScreen
from fleet.tui.correct_parts import (
    FieldRow,
    Lines,
    ReadWith,
    ruler_lines,
    title_line,
    verdict_lines,
    why_lines,
)
from fleet.tui.frame import FrameScreen
from fleet.tui.sheet_rows import cells
from fleet.tui.themes import Spans, Token
from fleet.tui.typed_field import TypedField

if TYPE_CHECKING:
    from fleet.desk.axis import WindowRow

TALL = 34
TITLE = "Correct a setting"
BOX_SETTINGS = {"setpoint", "differential"}


class CorrectScreen(FrameScreen):
    """The form of one system's settings; its result is what was saved, None where nothing was."""

    AUTO_FOCUS = None
    DEFAULT_CSS = """
    CorrectScreen #correct-fields { height: auto; max-height: 6; scrollbar-size-vertical: 1; }
    CorrectScreen.-tall #correct-fields { max-height: 14; }
    CorrectScreen #correct-body { height: 1fr; }
    CorrectScreen Lines.spaced { margin-bottom: 1; }
    CorrectScreen .label { width: 16; height: 1; }
    CorrectScreen #correct-signed, CorrectScreen #correct-noted { height: 1; }
    CorrectScreen #correct-by { width: 24; }
    CorrectScreen #correct-on { width: 14; }
    CorrectScreen #correct-on-label { width: 6; height: 1; }
    CorrectScreen #correct-note { width: 1fr; max-width: 60; margin-right: 3; }
    CorrectScreen #correct-why { margin-top: 2; display: none; }
    CorrectScreen.-tall #correct-why { display: block; }
    """
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("tab", "app.focus_next", "next field", id="correct.tab", tooltip="Next field"),
        Binding("ctrl+s", "save", "save", id="correct.save", tooltip="Append what was typed"),
        Binding(
            "f2", "preferred", "take preferred", id="correct.preferred", tooltip="Take the preferred value"
        ),
        Binding(
            "escape", "back", "leave", id="correct.leave", tooltip="Leave; asks when something was typed"
        ),
        Binding("up", "row(-1)", show=False, id="correct.up", tooltip="The setting above"),
        Binding("down", "row(1)", show=False, id="correct.down", tooltip="The setting below, or who it was"),
    ]

    class Loaded(Message):
        """The form was read, or was not."""

        def __init__(self, form: Form | None, error: ColdroundError | None = None) -> None:
            super().__init__()
            self.form, self.error = form, error

    class Ended(Message):
        """Saving ended; ``error`` says why nothing was saved, where nothing was."""

        def __init__(self, saved: Saved | None, error: ColdroundError | None = None) -> None:
            super().__init__()
            self.saved, self.error = saved, error

    def __init__(
        self, desk: Desk, system_id: int, *, place: str, focus: tuple[str, str, str] | None = None
    ) -> None:
        """Open the form of a system; ``focus`` is part, rule and setting of what one came from."""
        super().__init__(place)
        self.desk, self.system_id = desk, system_id
        self._focus_on = None if focus is None else (focus[0], focus[2])
        self._form: Form | None = None
        self._look: FormLook | None = None
        self._at_first: FormLook | None = None
        self._row = 0
        self._saving = False
        self._tags: dict[str, str] = {}

    def help_page(self) -> str:
        """Return the page of the handbook."""
        from fleet.handbook import page

        return page("correct")

    def compose_body(self) -> ComposeResult:
        """Yield head, fields, ruler, verdict, and how, who and when."""
        yield Lines(id="correct-head", classes="spaced")
        with Vertical(id="correct-body"):
            yield Lines(id="correct-titles")
            yield VerticalScroll(id="correct-fields", can_focus=False)
            yield Lines(id="correct-ruler", classes="spaced")
            yield Lines(id="correct-verdict", classes="spaced")
            yield ReadWith(CONFIRMATIONS, CONFIRMATIONS[0])
            with Horizontal(id="correct-signed"):
                yield Lines(classes="label by")
                yield TypedField(id="correct-by", placeholder="who; ↓ lists")
                yield Lines(id="correct-on-label")
                yield TypedField(day_words(self.desk.today), id="correct-on")
            with Horizontal(id="correct-noted"):
                yield Lines(classes="label note")
                yield TypedField(id="correct-note", placeholder="optional")
            yield Lines(id="correct-why")

    # Reading ---------------------------------------------------------------------------------------------

    def on_mount(self) -> None:
        """Read the form."""
        self._load()

    @work(thread=True, exclusive=True, group="form")
    def _load(self) -> None:
        try:
            self.post_message(self.Loaded(form(self.desk, self.system_id, self._focus_on)))
        except ColdroundError as error:
            self.post_message(self.Loaded(None, error))

    @on(Loaded)
    async def show_form(self, message: Loaded) -> None:
        """Show the fields."""
        if message.error is not None or message.form is None:
            self.messages.failed("Not read.", "" if message.error is None else message.error.message)
            return
        self._form = message.form
        self._at_first = look(self.desk, self._form, ())
        rows = [FieldRow(field) for field in self._form.fields]
        await self.query_one("#correct-fields").mount_all(rows)
        by = self.query_one("#correct-by", Input)
        self._tags = {clean(tag): tag for tag in self._form.people}
        by.suggester = SuggestFromList(self._tags, case_sensitive=False)
        by.value = self.desk.by or ""
        if self._form.fields and self._form.fields[0].setting in BOX_SETTINGS:
            self.query_one(ReadWith).choose("thermometer")
        keys = [field.key for field in self._form.fields]
        self._row = keys.index(self._focus_on) if self._focus_on in keys else 0
        if rows:
            rows[self._row].left.focus()
        self._follow()

    # What is typed ---------------------------------------------------------------------------------------

    @property
    def rows(self) -> list[FieldRow]:
        """The rows of fields."""
        return list(self.query(FieldRow))

    def corrections(self) -> list[Correction]:
        """Return what is typed so far."""
        return [
            Correction(row.field.part, row.field.setting, clean(row.found.value), clean(row.left.value))
            for row in self.rows
        ]

    @property
    def is_changed(self) -> bool:
        """Whether something would be lost."""
        note = self.query_one("#correct-note", Input).value
        return bool(note.strip()) or any(c.found.strip() or c.left.strip() for c in self.corrections())

    @on(Input.Changed)
    def type_on(self, message: Input.Changed) -> None:
        """Let the windows follow every key."""
        if self._form is not None and isinstance(message.input.parent, FieldRow):
            self._follow()

    @on(Input.Submitted)
    def next_field(self, message: Input.Submitted) -> None:
        """Enter goes to the next field."""
        self.focus_next()

    def on_descendant_focus(self, event: events.DescendantFocus) -> None:
        """Keep which setting the ruler and the verdict are about."""
        for number, row in enumerate(self.rows):
            if row.is_here:
                self._row = number
        if self._form is not None:
            self.call_after_refresh(self._show)

    def on_resize(self) -> None:
        """Make room for reasons where the screen is tall."""
        self.set_class(self.size.height > TALL, "-tall")
        self.call_after_refresh(self._show)

    def _follow(self) -> None:
        assert self._form is not None
        self._look = look(self.desk, self._form, self.corrections())
        self._show()

    def _show(self) -> None:
        shown, seen = self._form, self._look
        if shown is None or seen is None or not self.is_mounted:
            return
        width = self.size.width
        self.query_one("#correct-head", Lines).show([self._head(width)])
        self.query_one("#correct-titles", Lines).show([title_line()])
        for row in self.rows:
            key = row.field.key
            row.show(seen.windows.get(key), seen.left.get(key), here=row.is_here)
        self.query_one("#correct-ruler", Lines).show(
            [[], *ruler_lines(seen.axis, list(self._ruler_rows()), min(width, 110))]
        )
        self.query_one("#correct-verdict", Lines).show(self._verdict(width))
        self.query_one(".by", Lines).show([[("   " + cells("by", 13), Token.DIM)]])
        self.query_one("#correct-on-label", Lines).show([[("  on  ", Token.DIM)]])
        self.query_one(".note", Lines).show([[("   " + cells("note", 13), Token.DIM)]])
        self._show_why(width)

    def _head(self, width: int) -> Spans:
        assert self._form is not None
        name = f"{clean(self._form.site)}  {clean(self._form.system)}"
        about = self._form.about if self.is_wide else (self._form.about[0], self._form.about[2])
        right = ("  " if self.is_wide else ", ").join(clean(text) for text in about)
        name = cut(name, max(8, width - cell_width(TITLE) - cell_width(right) - 8))
        used = 1 + cell_width(TITLE) + 3 + cell_width(name)
        gap = " " * max(1, width - 1 - used - cell_width(right))
        return [(f" {TITLE}   ", Token.HEAD), (name, Token.HEAD), (gap + right, Token.DIM)]

    def _ruler_rows(self) -> Iterator[tuple["WindowRow", float | None, bool]]:
        """Yield the windows to draw: those of the system, of a rack the one under the cursor."""
        seen, shown = self._look, self._form
        assert seen is not None
        assert shown is not None
        here = self.rows[self._row].field.key if self.rows else ("", "")
        typed = {(c.part, c.setting): c for c in self.corrections()}
        for key, window in seen.windows.items():
            if key[0] and key != here:
                continue
            if window.verdict == "not-applicable":
                continue
            row = window
            if key in seen.problems:
                row = replace(window, recorded=None, severity=0)
            correction = typed.get(key)
            left = correction is not None and bool(correction.left.strip())
            yield row, self._found(key) if left else None, left

    def _found(self, key: tuple[str, str]) -> float | None:
        assert self._look is not None
        assert self._at_first is not None
        if key in self._look.found:
            return self._look.found[key]
        at_first = self._at_first.windows.get(key)
        return None if at_first is None else at_first.recorded

    def _verdict(self, width: int) -> list[Spans]:
        assert self._form is not None
        assert self._look is not None
        if not self.rows:
            return [[]]
        key = self.rows[self._row].field.key
        problem = self._look.problems.get(key, "")
        verdict = None if problem else verdict_of(self.desk, self._form, self._look, key)
        return verdict_lines(problem, verdict, width)

    def _show_why(self, width: int) -> None:
        assert self._look is not None
        if not self.has_class("-tall") or not self.rows:
            return
        field = self.rows[self._row].field
        room = self.size.height - 26
        window = self._look.windows.get(field.key)
        lines = why_lines(field.label, window, field.earlier, min(width, 110), room)
        self.query_one("#correct-why", Lines).show(lines)

    # Keys ------------------------------------------------------------------------------------------------

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Nothing is typed or saved twice while saving, and nothing before the form is there."""
        if action in {"save", "preferred", "row"}:
            return self._form is not None and not self._saving
        return True

    def action_row(self, step: int) -> None:
        """Go to the same field of the setting above or below; from who it was, down lists the people."""
        if self.query_one("#correct-by", Input).has_focus and step > 0:
            self._list_people()
            return
        here = next((n for n, row in enumerate(self.rows) if row.is_here), None)
        if here is None:
            if step < 0:
                self.focus_previous()
            else:
                self.focus_next()
            return
        target = here + step
        if not 0 <= target < len(self.rows):
            if step > 0:
                self.query_one(ReadWith).focus()
            return
        as_found = self.rows[here].found.has_focus
        (self.rows[target].found if as_found else self.rows[target].left).focus()

    def _list_people(self) -> None:
        assert self._form is not None
        people = [Choice(shown, shown) for shown in self._tags]
        field = self.query_one("#correct-by", Input)

        def take(choice: Choice | None) -> None:
            if choice is not None:
                field.value = str(choice.value)
                self.focus_next()

        region = field.region
        at = (region.x, max(2, region.y - min(len(people) + 1, 12)))
        self.app.push_screen(ChoicesScreen(lambda: people, field.value, at=at), take)

    def action_preferred(self) -> None:
        """Take the preferred value of the setting under the cursor as left."""
        if self._look is None or not self.rows:
            return
        row = self.rows[self._row]
        window = self._look.windows.get(row.field.key)
        moved = any(c.left.strip() for c in self.corrections() if c.setting in PAIR[:2])
        if row.field.setting == PAIR[2] and moved:
            self.messages.note("It follows from cut-in and cut-out; type your own if the control has it.")
            return
        if window is None or not window.preferred_typed:
            self.messages.note("There is no preferred value for it.")
            return
        row.left.value = window.preferred_typed
        row.left.cursor_position = len(row.left.value)
        row.left.focus()

    def step_back(self) -> None:
        """Leave; ask first when something was typed."""
        if self._form is None or not self.is_changed:
            self.dismiss(None)
            return

        def answered(leave: bool | None) -> None:
            if leave:
                self.dismiss(None)

        self.app.push_screen(AskScreen("Leave without saving what was typed?"), answered)

    def action_save(self) -> None:
        """Append what was typed, unless something in it cannot be read."""
        shown, seen = self._form, self._look
        if shown is None or seen is None or self._saving:
            return
        for row in self.rows:
            if row.field.key in seen.problems:
                row.left.focus()
                problem = seen.problems[row.field.key]
                self.messages.failed("Not saved.", f"{row.field.label}: {problem}")
                return
        try:
            on_day = read_day(self.desk, self.query_one("#correct-on", Input).value)
        except InputError as error:
            self.query_one("#correct-on", Input).focus()
            self.messages.failed("Not saved.", error.message)
            return
        self._saving = True
        self._save(
            to_save(shown, seen, self.corrections()),
            self._person(),
            on_day,
            self.query_one(ReadWith).chosen,
            self.query_one("#correct-note", Input).value,
        )

    def _person(self) -> str:
        """Return the tag of who was typed; of an only person that begins so, the whole tag."""
        typed = self.query_one("#correct-by", Input).value.strip()
        begin = [tag for tag in self._tags if tag.casefold().startswith(typed.casefold())]
        if typed and typed not in self._tags and len(begin) == 1:
            typed = begin[0]
        return self._tags.get(typed, typed)

    @work(thread=True, exclusive=True, group="save")
    def _save(self, corrections: list[Correction], by: str, day: date, confirmed: str, note: str) -> None:
        assert self._form is not None
        try:
            saved = save(
                self.desk,
                self.system_id,
                corrections,
                by=by,
                on=day,
                confirmed=confirmed,
                note=note,
                seen=self._form.seen,
            )
        except ColdroundError as error:
            self.post_message(self.Ended(None, error))
            return
        self.desk.by = by or self.desk.by
        self.post_message(self.Ended(saved))

    @on(Ended)
    def end(self, message: Ended) -> None:
        """Give back what was saved, or say why nothing was."""
        self._saving = False
        if message.error is not None:
            if message.error.kind == "unknown-name" or not self._person():
                self.query_one("#correct-by", Input).focus()
            self.messages.failed("Not saved.", message.error.message)
            return
        self.dismiss(message.saved)
