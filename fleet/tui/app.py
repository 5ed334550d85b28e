"""The interface: four places over one open register."""

from collections.abc import Callable
from typing import Any

from textual.app import SystemCommand
from textual.screen import Screen

from fleet.desk.opened import Desk
from fleet.desk.sentences import day_words
from fleet.tui.audit import AuditScreen
from fleet.tui.frame import PLACES, FrameApp, FrameFacts
from fleet.tui.messages import RegisterChanged, ShowFindings

PLACE_WORDS = {
    "audit": "Audit: findings across sites",
    "rounds": "Rounds: what is due",
    "customers": "Customers: their open findings",
    "register": "Register: customers, sites, systems, boxes",
}


class ColdroundApp(FrameApp):
    """The interface on one register."""

    def __init__(self, desk: Desk) -> None:
        super().__init__(FrameFacts(desk.name, day_words(desk.today)))
        self.desk = desk

    async def on_mount(self) -> None:
        """Open the first place; the others are made when they are gone to."""
        for place in PLACES:
            self.add_mode(place, self._maker(place))
        await self.switch_mode("audit")

    def _maker(self, place: str) -> Callable[[], Screen[Any]]:
        return lambda: _PLACE_SCREENS[place](self.desk)

    def on_register_changed(self, message: RegisterChanged) -> None:
        """Let every screen that is there show the register anew."""
        for stack in self._screen_stacks.values():
            for screen in stack:
                refresh = getattr(screen, "refresh_register", None)
                if refresh is not None:
                    refresh()

    async def on_show_findings(self, message: ShowFindings) -> None:
        """Go to Audit, narrowed to one customer."""
        await self.action_place("audit")
        for screen in self._screen_stacks["audit"]:
            if isinstance(screen, AuditScreen):
                screen.show_customer(message.customer_id)

    def get_system_commands(self, screen: Screen[Any]) -> "Any":
        """Offer the places, the themes and the way out in the palette."""
        for number, place in enumerate(PLACES, 1):
            yield SystemCommand(PLACE_WORDS[place], f"Key {number}", self._goer(place))
        yield SystemCommand("Help: what is shown, and the keys", "Key F1", self.action_help)
        yield SystemCommand("Theme", "Other colours", self.action_change_theme)
        yield SystemCommand("Quit", "Key Ctrl+Q", self.action_quit)

    def _goer(self, place: str) -> Callable[[], None]:
        def go() -> None:
            self.run_worker(self.action_place(place))

        return go


def _rounds(desk: Desk) -> Screen[Any]:
    from fleet.tui.rounds import RoundsScreen

    return RoundsScreen(desk)


def _customers(desk: Desk) -> Screen[Any]:
    from fleet.tui.customers import CustomersScreen

    return CustomersScreen(desk)


def _register(desk: Desk) -> Screen[Any]:
    from fleet.tui.register import RegisterScreen

    return RegisterScreen(desk)


_PLACE_SCREENS: dict[str, Callable[[Desk], Screen[Any]]] = {
    "audit": AuditScreen,
    "rounds": _rounds,
    "customers": _customers,
    "register": _register,
}
