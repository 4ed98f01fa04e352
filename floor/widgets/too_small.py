"""What stands in place of a page where the terminal is too small for one."""

from __future__ import annotations

from textual import events
from textual.geometry import Size

from floor.looks.spans import BLANK, Span, wrap
from floor.widgets.sheet import Sheet

LEAST = Size(60, 20)


class TooSmall(Sheet):
    """A sentence: how much room the floor needs, and how much there is.

    The entry line and what it says stay in sight, down to the three rows they take.
    """

    WITH_BARS = 8
    """Rows under which the title and the keys give way to the sentence."""

    @staticmethod
    def is_for(size: Size) -> bool:
        """Whether a terminal of this size shows the sentence instead of the pages."""
        return size.width < LEAST.width or size.height < LEAST.height

    def on_resize(self, _event: events.Resize) -> None:
        self.update()

    def update(self) -> None:
        """Draw the sentence for the terminal's size."""
        size = self.app.size
        text = self.floor.words.too_small.format(width=size.width, height=size.height)
        rows = wrap(text, max(1, self.size.width - 2))
        self.put([BLANK, *((Span(f" {row}"),) for row in rows)])
