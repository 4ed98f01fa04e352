"""A widget of inked lines: it draws by row and sends only the rows that changed."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from rich.cells import cell_len
from rich.segment import Segment
from textual.geometry import Region
from textual.strip import Strip
from textual.widget import Widget

from floor.looks.spans import BLANK, Line, width_of

if TYPE_CHECKING:
    from floor.app import FloorApp


class Sheet(Widget):
    """Lines from `top` on, as many as there is room for."""

    DEFAULT_CSS = """
    Sheet { width: 1fr; height: 1fr; }
    """

    def __init__(self, *, id: str | None = None) -> None:  # noqa: A002  (Textual's own name)
        super().__init__(id=id)
        self._top = 0
        self._lines: Sequence[Line] = ()

    @property
    def floor(self) -> FloorApp:
        """The app this sheet is part of."""
        app: FloorApp = self.app  # type: ignore[assignment]
        return app

    @property
    def top(self) -> int:
        """The first line in sight. `put` alone moves it: it draws what that changes."""
        return self._top

    @property
    def lines(self) -> Sequence[Line]:
        return self._lines

    def put(self, lines: Sequence[Line], top: int | None = None) -> None:
        """Show these lines, from line `top` on; only the cells that changed are drawn again."""
        before = [self._at(y) for y in range(self.size.height)]
        self._lines = lines
        self._top = self._top if top is None else top
        for y, old in enumerate(before):
            if self._at(y) != old:
                first, last = _changed(old, self._at(y), self.size.width)
                self.refresh(Region(first, y, last - first, 1))

    def _at(self, y: int) -> Line:
        y += self.top
        return self._lines[y] if 0 <= y < len(self._lines) else BLANK

    def render_line(self, y: int) -> Strip:
        """One row, in the widget's own colours under the inks."""
        width, base = self.size.width, self.rich_style
        styles = self.floor.inks
        segments = [Segment(span.text, base + styles[span.ink]) for span in self._at(y)]
        return Strip(segments).adjust_cell_length(width, base)


def _changed(old: Line, new: Line, width: int) -> tuple[int, int]:
    """The columns between the stretches that both lines begin and end with."""
    first = _alike(old, new)
    if width_of(old) != width_of(new):
        return first, width
    return first, max(first + 1, width_of(new) - _alike(old[::-1], new[::-1]))


def _alike(old: Line, new: Line) -> int:
    """Cells of the stretches with which both begin."""
    cells = 0
    for before, after in zip(old, new, strict=False):
        if before != after:
            break
        cells += cell_len(after.text)
    return cells
