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
    """How wide a digit's three columns and its point are, and the blanks: between two digits,
    on each side of the point, and at least between two figures side by side.

    Figures stand further apart than the digits about a point, so that two of them are never
    read as one. Where there is no room for that, a rule stands between them.
    """

    columns: tuple[int, int, int]
    point: int
    gap: int
    beside_point: int
    air: int
    rule: str = ""


CUTS = (
    Cut((2, 2, 2), point=2, gap=2, beside_point=1, air=8),
    Cut((2, 1, 2), point=1, gap=1, beside_point=1, air=6),
    Cut((1, 2, 1), point=1, gap=1, beside_point=1, air=5),
    Cut((1, 1, 1), point=1, gap=1, beside_point=1, air=5),
)
"""Widest first."""

RULED = CUTS[-1]._replace(air=3, rule="│")
"""What is left where the figures must stand closer."""


def figure_width(text: str, cut: Cut) -> int:
    """Cells the figure takes, without a gap after its last sign."""
    return len(_row(text, 0, cut))


def big(text: str, cut: Cut) -> list[Line]:
    """The figure as five lines; digits, a point and a minus are all it knows."""
    return [(Span(_row(text, y, cut), "big"),) for y in range(ROWS)]


def _row(text: str, y: int, cut: Cut) -> str:
    row = ""
    for before, sign in zip(" " + text, text, strict=False):
        about_point = "." in (before, sign)
        row += " " * (cut.beside_point if about_point else cut.gap) if row else ""
        row += _stretched(sign, y, cut)
    return row


def _stretched(sign: str, y: int, cut: Cut) -> str:
    pixels = _SHAPES[sign][y]
    widths = (cut.point,) if sign == "." else cut.columns
    return "".join(
        (FILLED if pixel == "#" else " ") * width
        for pixel, width in zip(pixels, widths, strict=True)
    )
