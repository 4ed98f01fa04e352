"""Text for terminals that show ASCII only: spelled out before layout, mapped cell by cell after.

Two passes because some signs need more room than one cell: `±` is `+/-`. Widgets spell
their text while they still lay it out; the filter stands behind them as the last word, and
keeps every cell where it is.
"""

from __future__ import annotations

from rich.segment import Segment
from textual.color import Color
from textual.filter import LineFilter

from floor.looks.plain import ascii_cell


class AsciiOnly(LineFilter):
    """The last word before the terminal: no byte above 126 leaves, no cell moves."""

    def apply(self, segments: list[Segment], background: Color) -> list[Segment]:
        return [
            segment
            if segment.text.isascii()
            else Segment(_mapped(segment), segment.style, segment.control)
            for segment in segments
        ]


def _mapped(segment: Segment) -> str:
    cells = "".join(c if c.isascii() else ascii_cell(c) for c in segment.text)
    return cells + " " * (segment.cell_length - len(cells))
