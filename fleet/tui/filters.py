"""The filters of a screen, written as a sentence: ``Open findings ▾  all customers ▾  worst first ▾``."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import ClassVar

from textual import events
from textual.binding import Binding, BindingType
from textual.message import Message
from textual.strip import Strip
from textual.widget import Widget

from fleet.text import cell_width, clean, cut
from fleet.tui.choices import Choice, ChoicesScreen
from fleet.tui.columns import CURSOR_HERE
from fleet.tui.themes import Spans, Token, styles_for, to_strip

CHANGEABLE = " ▾"
PART_GAP = 2
SHORTEST_LABEL = 8


@dataclass(frozen=True, slots=True)
class FilterPart:
    """One part of the sentence.

    ``usual`` is the choice that filters nothing; ``choices`` is called in a thread when the list opens
    and returns the others (``usual`` is put before them if it is not among them). ``wide_only`` parts
    are left out on a narrow screen while nothing is chosen in them.
    """

    name: str
    usual: Choice
    choices: Callable[[], Sequence[Choice]]
    wide_only: bool = False


def fitted_labels(choices: Sequence[Choice], room: int) -> tuple[list[str], int]:
    """Return the labels and the gap between the parts so that the sentence takes at most ``room`` cells.

    The gap gives way first, then the longest labels become their short forms, then they are cut.

    >>> fitted_labels([Choice(None, "all customers", "customers"), Choice("worst", "worst first")], 26)
    (['customers', 'worst first'], 1)
    """
    labels = [clean(choice.label) for choice in choices]
    for gap in (PART_GAP, 1):
        if _sentence_cells(labels, gap) <= room:
            return labels, gap
    by_length = sorted(range(len(labels)), key=lambda place: -cell_width(labels[place]))
    for place in by_length:
        if _sentence_cells(labels, 1) > room:
            labels[place] = clean(choices[place].short) or labels[place]
    while _sentence_cells(labels, 1) > room:
        longest = max(range(len(labels)), key=lambda place: cell_width(labels[place]))
        if cell_width(labels[longest]) <= SHORTEST_LABEL:
            break
        labels[longest] = cut(labels[longest], cell_width(labels[longest]) - 1)
    return labels, 1


def _sentence_cells(labels: Sequence[str], gap: int) -> int:
    signs = len(labels) * cell_width(CHANGEABLE) + max(0, len(labels) - 1) * gap
    return sum(map(cell_width, labels)) + signs


class FilterSentence(Widget, can_focus=True):
    """Row 2: the filters as a sentence, and at the right where one is in the list.

    The screen binds ``f`` to :meth:`walk` and Backspace to :meth:`reset`.
    """

    ALLOW_SELECT = False
    DEFAULT_CSS = "FilterSentence { height: 1; width: 1fr; background: $background; }"
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("enter", "open", "choose", id="filter.open", tooltip="Open the choices of this part"),
        Binding(
            "down", "open", "choose", show=False, id="filter.down", tooltip="Open the choices of this part"
        ),
        Binding("left", "step(-1)", "left", show=False, id="filter.left", tooltip="Go to the part before"),
        Binding("right,f", "step(1)", "right", show=False, id="filter.right", tooltip="Go to the next part"),
        Binding("backspace", "reset", "all", id="filter.reset", tooltip="Take all filters away"),
        Binding("escape", "leave", "leave", show=False, id="filter.leave", tooltip="Back to the list"),
    ]

    class Changed(Message):
        """A part was chosen anew; ``name`` is None when all were reset. ``values`` holds every part."""

        def __init__(
            self, control: "FilterSentence", name: str | None, value: object, values: Mapping[str, object]
        ) -> None:
            super().__init__()
            self._sentence, self.name, self.value, self.values = control, name, value, values

        @property
        def control(self) -> "FilterSentence":
            """The sentence."""
            return self._sentence

    def __init__(self, parts: Sequence[FilterPart], *, id: str | None = None) -> None:  # noqa: A002
        super().__init__(id=id)
        self.parts = tuple(parts)
        self._chosen = {part.name: part.usual for part in parts}
        self._at = 0
        self._note = ""
        self._came_from: Widget | None = None

    # What others ask -------------------------------------------------------------------------------------

    @property
    def values(self) -> dict[str, object]:
        """The value of every part, by its name."""
        return {name: choice.value for name, choice in self._chosen.items()}

    @property
    def is_usual(self) -> bool:
        """Whether nothing is filtered."""
        return all(self._chosen[part.name] == part.usual for part in self.parts)

    def set_note(self, text: str) -> None:
        """Write at the right where one is: ``1–16 of 27``."""
        self._note = clean(text)
        self.refresh()

    def choose(self, name: str, choice: Choice) -> None:
        """Choose for a part, and tell it."""
        if self._chosen[name] != choice:
            self._chosen[name] = choice
            self.refresh()
            self.post_message(self.Changed(self, name, choice.value, self.values))

    def reset(self) -> None:
        """Take all filters away, and tell it."""
        if not self.is_usual:
            self._chosen = {part.name: part.usual for part in self.parts}
            self.refresh()
            self.post_message(self.Changed(self, None, None, self.values))

    def walk(self) -> None:
        """Take the focus; Escape gives it back to where it came from."""
        if not self.has_focus:
            self._came_from = self.screen.focused
            # At once, not after the messages under way: who types fast means the next key for this.
            self.screen.set_focus(self)

    # Keys ------------------------------------------------------------------------------------------------

    def action_step(self, count: int) -> None:
        """Go to another part, round the ends."""
        shown = self._shown_parts()
        self._at = (min(self._at, len(shown) - 1) + count) % len(shown)
        self.refresh()

    def action_open(self) -> None:
        """Open the choices of the part."""
        shown = self._shown_parts()
        self._at = min(self._at, len(shown) - 1)
        part = shown[self._at]

        def load() -> list[Choice]:
            found = list(part.choices())
            return found if part.usual in found else [part.usual, *found]

        def take(choice: Choice | None) -> None:
            if choice is not None:
                self.choose(part.name, choice)

        at = (self.region.x + self._starts()[self._at][0] - 1, self.region.y + 1)
        self.app.push_screen(ChoicesScreen(load, self._chosen[part.name].value, at=at), take)

    def action_reset(self) -> None:
        """Take all filters away."""
        self.reset()

    def action_leave(self) -> None:
        """Give the focus back."""
        back = self._came_from
        if back is not None and back.is_attached and back.focusable:
            self.screen.set_focus(back)
        else:
            self.screen.focus_next()

    def on_click(self, event: events.Click) -> None:
        """Open the part that was clicked."""
        for place, (start, length) in enumerate(self._starts()):
            if start <= event.x < start + length:
                self._at = place
                self.walk()
                self.action_open()

    def on_focus(self) -> None:
        """Show the cursor."""
        self.refresh()

    def on_blur(self) -> None:
        """Hide the cursor."""
        self.refresh()

    # Drawing ---------------------------------------------------------------------------------------------

    def _shown_parts(self) -> list[FilterPart]:
        wide = self.app.size.width >= 110
        return [
            part for part in self.parts if wide or not part.wide_only or self._chosen[part.name] != part.usual
        ]

    def _labels(self) -> tuple[list[str], int]:
        room = self.size.width - 2 - (cell_width(self._note) + 1 if self._note else 0)
        return fitted_labels([self._chosen[part.name] for part in self._shown_parts()], room)

    def _starts(self) -> list[tuple[int, int]]:
        starts, start = [], 1
        labels, gap = self._labels()
        for label in labels:
            length = cell_width(label) + cell_width(CHANGEABLE)
            starts.append((start, length))
            start += length + gap
        return starts

    def render_line(self, y: int) -> Strip:
        """Return the sentence."""
        width = self.size.width
        line: Spans = []
        end = 0
        at = min(self._at, len(self._shown_parts()) - 1)
        for place, (label, (start, length)) in enumerate(zip(self._labels()[0], self._starts(), strict=True)):
            here = self.has_focus and place == at
            line.append((" " * (start - end - 1), Token.TEXT))
            line.append((CURSOR_HERE if here else " ", Token.HERE))
            line += [
                (label, Token.HERE if here else Token.TEXT),
                (CHANGEABLE, Token.HERE if here else Token.DIM),
            ]
            end = start + length
        free = width - end - cell_width(self._note) - 1
        line.append((" " * max(1, free) + self._note, Token.DIM))
        return to_strip(line, width, styles_for(self.app))
