"""The scrollbar of a sheet: a heavy part on a light line, told apart by weight, not by colour."""

from rich.color import Color
from rich.segment import Segment, Segments
from rich.style import Style
from textual.scrollbar import ScrollBarRender

BACK, BAR = Color.parse("default"), Color.parse("white")
LIGHT = {True: "│", False: "─"}
HEAVY = {True: "┃", False: "━"}


def heavy_part(size: int, whole: float, seen: float, position: float) -> tuple[int, int]:
    """Return the first cell of the heavy part and the one behind it.

    >>> heavy_part(10, 100, 50, 0), heavy_part(10, 100, 50, 50)
    ((0, 5), (5, 10))
    """
    if not (size and seen and whole > seen):
        return 0, 0
    length = max(1, round(size * seen / whole))
    start = round((size - length) * min(1.0, position / (whole - seen)))
    return start, start + length


class LineScrollBar(ScrollBarRender):
    """Draws lines instead of blocks; the mouse works as on the toolkit's own."""

    @classmethod
    def render_bar(
        cls,
        size: int = 25,
        virtual_size: float = 50,
        window_size: float = 20,
        position: float = 0,
        thickness: int = 1,
        vertical: bool = True,
        back_color: Color = BACK,
        bar_color: Color = BAR,
    ) -> Segments:
        """Return the cells of the bar."""
        start, end = heavy_part(size, virtual_size, window_size, position)
        segments = []
        for cell in range(size):
            action = "scroll_up" if cell < start else "grab" if cell < end else "scroll_down"
            mark = (HEAVY if start <= cell < end else LIGHT)[vertical]
            style = Style(color=bar_color, bgcolor=back_color, meta={"@mouse.down": action})
            segments.append(Segment(mark * (thickness if vertical else 1), style))
        if vertical:
            return Segments(segments, new_lines=True)
        return Segments([*segments, Segment.line()] * thickness, new_lines=False)
