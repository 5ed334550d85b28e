"""Place 4: everything that is registered, as lists one searches while typing."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import partial
from typing import TYPE_CHECKING, Any, ClassVar

from textual import on
from textual.binding import BindingType

from fleet.desk.choosing import customers, refrigerants, sites, strategies
from fleet.desk.list_rows import BoxLine, CustomerLine, SiteLine, SystemLine
from fleet.desk.lists import Asked, Listed, RegisterSort, asked, box_kinds, narrowing, register_source
from fleet.desk.lists_csv import register_csv
from fleet.tui.choices import Choice
from fleet.tui.columns import Column
from fleet.tui.filters import FilterPart, FilterSentence
from fleet.tui.listing import ListingScreen, list_keys
from fleet.tui.paging import PageSource
from fleet.tui.register_columns import facts_of, register_columns
from fleet.tui.searching import SearchField
from fleet.tui.signs import SEVERITY_SIGNS, SEVERITY_WORDS
from fleet.tui.themes import Spans, Token

if TYPE_CHECKING:
    from fleet.desk.csv_files import CsvList
    from fleet.desk.opened import Desk

WHAT = tuple(Choice(listed, listed.value.capitalize()) for listed in Listed)
ORDERS = (Choice(RegisterSort.PLACE, "by place", "place"), Choice(RegisterSort.WORST, "worst first", "worst"))
ALL_CUSTOMERS = Choice(None, "all customers", "customers")
ALL_SITES = Choice(None, "all sites", "sites")


class RegisterSentence(FilterSentence):
    """The sentence, whose first part says what is listed; parts that its rows do not have are left out."""

    def chosen_now(self) -> dict[str, Choice]:
        """Return what is chosen in every part."""
        return dict(self._chosen)

    def choose_together(self, choices: Mapping[str, Choice]) -> None:
        """Choose for several parts, and tell it once."""
        self._chosen.update(choices)
        self.refresh()
        self.post_message(self.Changed(self, None, None, self.values))

    def reset(self) -> None:
        """Take all filters away; what is listed stays."""
        what = self._chosen["what"]
        self.choose_together({part.name: part.usual for part in self.parts} | {"what": what})

    def _shown_parts(self) -> list[FilterPart]:
        known = narrowing(Listed(str(self._chosen["what"].value))) | {"what", "order"}
        return [part for part in super()._shown_parts() if part.name in known]


@dataclass(frozen=True, slots=True)
class _Step:
    """Where one was before Enter went further in."""

    choices: Mapping[str, Choice]
    search: str
    cursor: int


class RegisterScreen(ListingScreen):
    """Systems, boxes, sites or customers."""

    PLACE = "register"
    OPENS = "open"
    BINDINGS: ClassVar[list[BindingType]] = list_keys(
        "register",
        search=True,
        sort="Order by place, or the worst first",
        csv="Write this list, as filtered and ordered, as CSV",
    )

    def __init__(self, desk: "Desk") -> None:
        super().__init__(desk)
        self._steps: list[_Step] = []
        self._cursor_next = 0

    def help_page(self) -> str:
        """Return the page of the handbook."""
        from fleet.handbook import page

        return page("register")

    def sentence(self) -> FilterSentence:
        """Return the sentence of filters."""
        return RegisterSentence(self.filter_parts())

    def filter_parts(self) -> Sequence[FilterPart]:
        """Return what is listed, what it is narrowed to, and the order."""
        desk = self.desk

        def kinds() -> list[Choice]:
            return [Choice(value, words) for value, words in box_kinds()]

        return [
            FilterPart("what", WHAT[0], lambda: WHAT),
            FilterPart(
                "customer_id",
                ALL_CUSTOMERS,
                lambda: [Choice(one.value, one.label) for one in customers(desk)],
            ),
            FilterPart("site_id", ALL_SITES, self._site_choices, wide_only=True),
            FilterPart(
                "refrigerant",
                Choice(None, "any refrigerant", "refrigerant"),
                lambda: [Choice(one.value, one.label) for one in refrigerants(desk)],
            ),
            FilterPart(
                "strategy",
                Choice(None, "any strategy", "strategy"),
                lambda: [Choice(one.value, one.label) for one in strategies()],
            ),
            FilterPart("kind", Choice(None, "any kind", "kind"), kinds),
            FilterPart("order", ORDERS[0], lambda: ORDERS),
        ]

    def _site_choices(self) -> list[Choice]:
        return [Choice(one.value, one.label) for one in sites(self.desk, self.chosen("customer_id"))]

    # What is shown ---------------------------------------------------------------------------------------

    @property
    def listed(self) -> Listed:
        """What is listed."""
        return Listed(str(self.chosen("what")))

    def asked(self) -> Asked:
        """Return which list is asked for."""
        order = RegisterSort(str(self.chosen("order")))
        return asked(self.listed, self.filters.values, self.search_text, order)

    def source(self) -> PageSource[Any]:
        """Return the rows."""
        return register_source(self.desk, self.asked())

    def csv(self) -> "CsvList[Any]":
        """Return what is shown, for a file."""
        return register_csv(self.listed, self.source())

    def columns(self) -> Sequence[Column[Any]]:
        """Return the columns of what is listed."""
        return register_columns(self.listed)

    def empty_sentences(self) -> Sequence[str]:
        """Return what is said where nothing is found."""
        if not self.query(FilterSentence):
            return ()  # the list is made before the filters are there
        what = self.listed.value
        if self.search_text:
            return (f"None of the {what} is called like that.", "Esc takes the search away.")
        if self.filters.is_usual:
            return (
                f"No {what} yet.",
                "'coldround template' writes files to fill in, 'coldround import' reads them.",
            )
        return (
            f"None of the {what} match these filters.",
            "Backspace takes all filters away, f changes one.",
        )

    def show_anew(self, cursor: int = 0) -> None:
        """Show the list, and what its first column means."""
        self.head.show([legend(self.listed)])
        super().show_anew(cursor)

    def show_row(self, row: Any) -> None:
        """Fill the pane."""
        self.pane.show(None if row is None else partial(facts_of, row))

    @on(FilterSentence.Changed)
    def take_filters(self, message: FilterSentence.Changed) -> None:
        """Show what the filters ask for; a site belongs to its customer."""
        message.prevent_default()
        if message.name == "customer_id" and self.chosen("site_id") is not None:
            self._sentence.choose_together({"site_id": ALL_SITES})
            return
        if message.name is not None:
            self._steps.clear()
        cursor, self._cursor_next = self._cursor_next, 0
        self.show_anew(cursor)

    # Further in, and back --------------------------------------------------------------------------------

    @property
    def _sentence(self) -> RegisterSentence:
        return self.query_one(RegisterSentence)

    def open_row(self, row: Any) -> None:
        """Open the sheet of a system or of a box's system; go from a customer to its sites, and on."""
        match row:
            case SystemLine() | BoxLine():
                self.open_sheet(row.system_id)
            case SiteLine():
                self._go_in(Listed.SYSTEMS, row.customer_id, row.customer_name, Choice(row.site_id, row.site))
            case CustomerLine():
                self._go_in(Listed.SITES, row.customer_id, row.name, ALL_SITES)

    def _go_in(self, listed: Listed, customer_id: int, customer: str, site: Choice) -> None:
        before = _Step(self._sentence.chosen_now(), self.search_text, self.list.cursor)
        self._steps.append(before)
        self._set_search("")
        what = next(choice for choice in WHAT if choice.value is listed)
        self._sentence.choose_together(
            {"what": what, "customer_id": Choice(customer_id, customer), "site_id": site}
        )

    def step_back(self) -> None:
        """Take the search away, or go back to where Enter came from."""
        if self.search_text:
            super().step_back()
        elif self._steps:
            before = self._steps.pop()
            self._set_search(before.search)
            self._cursor_next = before.cursor
            self._sentence.choose_together(before.choices)

    def _set_search(self, text: str) -> None:
        """Put a search into the field without showing a list for it."""
        self.search_text = text
        field = self.query_one(SearchField)
        field.display = bool(text)
        field.field.value = text


def legend(listed: Listed) -> Spans:
    """Return what the shapes of a list mean."""
    of = "worst of its system" if listed is Listed.BOXES else "worst open finding"
    spans: Spans = [(f" {of}", Token.DIM)]
    for severity, (shape, token) in SEVERITY_SIGNS.items():
        spans += [(f"   {shape} ", token), (SEVERITY_WORDS[severity], Token.DIM)]
    return [*spans, ("   ✓ ", Token.WIN), ("none", Token.DIM)]
