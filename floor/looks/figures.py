"""Figures to be read standing: digits five rows high, drawn in plain cells."""

from __future__ import annotations

from typing import NamedTuple

from floor.looks.spans import Line, Span

ROWS = 5
FILLED = "█"

_SHAPES: dict[str, tuple[str, ...]] = {
    "0": ("###", "# #", "# #", "# #", "###"),
    "1": (" # ", "## ", " # ", " # ", "###"),
    "2": ("###", "  #", "###", "#  ", "###"),
    "3": ("###", "  #", "###", "  #", "###"),
    "4": ("# #", "# #", "###", "  #", "  #"),
    "5": ("###", "#  ", "###", "  #", "###"),
    "6": ("###", "#  ", "###", "# #", "###"),
    "7": ("###", "  #", "  #", "  #", "  #"),
    "8": ("###", "# #", "###", "# #", "###"),
    "9": ("###", "# #", "###", "  #", "###"),
    ".": (" ", " ", " ", " ", "#"),
    "-": ("   ", "   ", "###", "   ", "   "),
}


class Cut(NamedTuple):
    """How wide a digit's three columns and its point are, and the gap after each sign."""

    columns: tuple[int, int, int]
    point: int
    gap: int


CUTS = (Cut((2, 2, 2), 2, 2), Cut((2, 1, 2), 2, 1), Cut((1, 1, 1), 1, 1))
"""Widest first."""


def figure_width(text: str, cut: Cut) -> int:
    """Cells the figure takes, without a gap after its last sign."""
    signs = sum(cut.point if sign == "." else sum(cut.columns) for sign in text)
    return signs + cut.gap * (len(text) - 1)


def big(text: str, cut: Cut) -> list[Line]:
    """The figure as five lines; digits, a point and a minus are all it knows."""
    return [(Span(_row(text, y, cut), "big"),) for y in range(ROWS)]


def _row(text: str, y: int, cut: Cut) -> str:
    return (" " * cut.gap).join(_stretched(sign, y, cut) for sign in text)


def _stretched(sign: str, y: int, cut: Cut) -> str:
    pixels = _SHAPES[sign][y]
    widths = (cut.point,) if sign == "." else cut.columns
    return "".join(
        (FILLED if pixel == "#" else " ") * width
        for pixel, width in zip(pixels, widths, strict=True)
    )
