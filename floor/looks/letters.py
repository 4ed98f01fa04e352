"""Words to be read from across the room: capitals five rows high, drawn in plain cells."""

from __future__ import annotations

import unicodedata

from floor.looks.figures import FILLED, ROWS
from floor.looks.spans import Ink, Line, Span

_SHAPES: dict[str, tuple[str, ...]] = {
    "A": ("###", "# #", "###", "# #", "# #"),
    "B": ("## ", "# #", "## ", "# #", "## "),
    "C": ("###", "#  ", "#  ", "#  ", "###"),
    "D": ("## ", "# #", "# #", "# #", "## "),
    "E": ("###", "#  ", "## ", "#  ", "###"),
    "F": ("###", "#  ", "## ", "#  ", "#  "),
    "G": ("####", "#   ", "# ##", "#  #", "####"),
    "H": ("# #", "# #", "###", "# #", "# #"),
    "I": ("#", "#", "#", "#", "#"),
    "J": ("  #", "  #", "  #", "# #", "###"),
    "K": ("#  #", "# # ", "##  ", "# # ", "#  #"),
    "L": ("#  ", "#  ", "#  ", "#  ", "###"),
    "M": ("#   #", "## ##", "# # #", "#   #", "#   #"),
    "N": ("#  #", "## #", "# ##", "#  #", "#  #"),
    "O": ("###", "# #", "# #", "# #", "###"),
    "P": ("###", "# #", "###", "#  ", "#  "),
    "Q": ("### ", "# # ", "# # ", "# # ", "####"),
    "R": ("###", "# #", "## ", "# #", "# #"),
    "S": ("###", "#  ", "###", "  #", "###"),
    "T": ("###", " # ", " # ", " # ", " # "),
    "U": ("# #", "# #", "# #", "# #", "###"),
    "V": ("# #", "# #", "# #", "# #", " # "),
    "W": ("#   #", "#   #", "# # #", "## ##", "#   #"),
    "X": ("# #", "# #", " # ", "# #", "# #"),
    "Y": ("# #", "# #", " # ", " # ", " # "),
    "Z": ("###", "  #", " # ", "#  ", "###"),
    " ": ("  ", "  ", "  ", "  ", "  "),
}
WIDEST = 2
"""Cells of a letter's column at most: the same shape as a terminal's cell, twice as high."""


def big_word(text: str, width: int, ink: Ink) -> list[Line]:
    """The word as five lines, as wide as there is room for; nothing where there is none.

    Accents are left out, and so is a word with a sign that is no letter.
    """
    plain = unicodedata.normalize("NFKD", text.upper())
    word = "".join(sign for sign in plain if not unicodedata.combining(sign))
    if not word or not _SHAPES.keys() >= set(word):
        return []
    for wide in range(WIDEST, 0, -1):
        rows = [_row(word, y, wide) for y in range(ROWS)]
        if len(rows[0]) <= width:
            return [(Span(row, ink),) for row in rows]
    return []


def _row(word: str, y: int, wide: int) -> str:
    gap = " " * wide
    return gap.join(
        "".join((FILLED if pixel == "#" else " ") * wide for pixel in _SHAPES[sign][y])
        for sign in word
    )
