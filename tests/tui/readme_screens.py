"""Draw README's screens anew from the demo register: ``python -m tests.tui.readme_screens``."""

import asyncio
import sys
import tempfile
from datetime import date
from pathlib import Path

from fleet.desk.demo import make_demo
from fleet.desk.opened import open_desk
from fleet.tui.app import ColdroundApp
from tests.tui.driving import NARROW, settled
from tests.tui.snapshots import screen_text

README = Path(__file__).parent.parent.parent / "README.md"
START, END = "<!-- screens: python -m tests.tui.readme_screens -->", "<!-- end of screens -->"
TODAY = date(2026, 11, 25)
SCREENS = (
    ("**Audit** lists what lies outside, the worst first; the bar shows how far.", ("down",)),
    ("**The system sheet** has every window on its pressure axis, with reasons.", ("down", "enter")),
    (
        "**Correct a setting**: windows and verdict follow every key; undo appends the value before.",
        ("down", "c", *"15psig"),
    ),
    ("**Rounds** lists the preventive checks that are overdue or fall due.", ("2",)),
    ("**Customers** counts the open findings on each customer's equipment.", ("3",)),
    ("**Register** finds systems, boxes, sites and customers as one types.", ("4", "slash", *"r-290")),
)


async def drawn(register: Path, keys: tuple[str, ...]) -> str:
    """Return one screen as text."""
    desk = open_desk(register, today=TODAY, by="A. Petrov")
    app = ColdroundApp(desk)
    async with app.run_test(size=NARROW) as pilot:
        await settled(pilot)
        for key in keys:
            await pilot.press(key)
            await settled(pilot)
        text = screen_text(app)
    desk.close()
    return text


def main() -> None:
    """Rewrite the part of README between the marks."""
    if len(sys.argv) > 1:
        raise SystemExit("This takes no arguments; it rewrites the screens in README.md.")
    with tempfile.TemporaryDirectory() as folder:
        register, _ = make_demo(TODAY, Path(folder) / "demo.sqlite")
        parts = [
            f"{words}\n\n```text\n{asyncio.run(drawn(register, keys))}\n```\n" for words, keys in SCREENS
        ]
    text = README.read_text(encoding="utf-8")
    before, _, rest = text.partition(START)
    _, _, after = rest.partition(END)
    README.write_text(f"{before}{START}\n\n{chr(10).join(parts)}\n{END}{after}", encoding="utf-8")


if __name__ == "__main__":
    main()
