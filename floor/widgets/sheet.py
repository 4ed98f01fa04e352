"""A widget of inked lines: it draws by row and sends only the rows that changed."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from rich.segment import Segment
from textual.geometry import Region
from textual.strip import Strip
from textual.widget import Widget

from floor.looks.spans import BLANK, Line

if TYPE_CHECKING:
    from floor.app import FloorApp


class Sheet(Widget):
    """Lines from `top` on, as many as there is room for."""

    DEFAULT_CSS = """
    Sheet { width: 1fr; height: 1fr; }
    """

    def __init__(self, *, id: str | None = None) -> None:  # noqa: A002  (Textual's own name)
        super().__init__(id=id)
        self.top = 0
        self._lines: Sequence[Line] = ()

    @property
    def floor(self) -> FloorApp:
        """The app this sheet is part of."""
        app: FloorApp = self.app  # type: ignore[assignment]
        return app

    @property
    def lines(self) -> Sequence[Line]:
        return self._lines

    def put(self, lines: Sequence[Line], top: int | None = None) -> None:
        """Show these lines, from line `top` on; rows that stay as they were are not redrawn."""
        before = [self._at(y) for y in range(self.size.height)]
        self._lines = lines
        self.top = self.top if top is None else top
        for y, old in enumerate(before):
            if self._at(y) != old:
                self.refresh(Region(0, y, self.size.width, 1))

    def _at(self, y: int) -> Line:
        y += self.top
        return self._lines[y] if 0 <= y < len(self._lines) else BLANK

    def render_line(self, y: int) -> Strip:
        """One row, in the widget's own colours under the inks."""
        width, base = self.size.width, self.rich_style
        styles = self.floor.inks
        segments = [Segment(span.text, base + styles[span.ink]) for span in self._at(y)]
        return Strip(segments).adjust_cell_length(width, base)
