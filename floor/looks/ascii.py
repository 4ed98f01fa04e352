"""Text for terminals that show ASCII only: spelled out before layout, mapped cell by cell after.

Two passes because some signs need more room than one cell: `±` is `+/-`. Widgets spell
their text while they still lay it out; the filter stands behind them as the last word, and
keeps every cell where it is.
"""

from __future__ import annotations

import unicodedata

from rich.segment import Segment
from textual.color import Color
from textual.filter import LineFilter

SPELLED = str.maketrans(
    {
        "±": "+/-",
        "→": "->",
        "≤": "<=",
        "≥": ">=",
        "…": "...",
        "½": " 1/2",
        "¼": " 1/4",
        "¾": " 3/4",
        "º": "o",
        "ª": "a",
    }
)

CELLS = {
    "█": "#",
    "▌": "#",
    "▐": "#",
    "▀": "#",
    "▄": "#",
    "─": "-",
    "━": "=",
    "│": "|",
    "┃": "|",
    "┤": "|",
    "├": "|",
    "┼": "+",
    "┌": "+",
    "┐": "+",
    "└": "+",
    "┘": "+",
    "▲": "^",
    "▼": "v",
    "░": ":",
    "●": "o",
    "○": ".",
    "✕": "x",
    "▸": ">",
    "•": "*",
    "·": "-",
    "∙": ".",
    "×": "x",
    "÷": "/",
    "−": "-",
    "–": "-",
    "—": "-",
    "²": "2",
    "³": "3",
    "“": '"',
    "”": '"',
    "«": '"',
    "»": '"',
    "‘": "'",
    "’": "'",
    "°": "o",
    "π": "p",
    "∫": "S",
    "Δ": "d",
    "µ": "u",
    "¿": " ",
    "¡": " ",
    "…": "~",
    "±": "~",
}


def spelled(text: str) -> str:
    """The text with signs that one ASCII cell cannot hold written out."""
    return text.translate(SPELLED)


def ascii_cell(character: str) -> str:
    """The nearest single ASCII character: a letter loses its accent, a strange sign is `?`."""
    if character in CELLS:
        return CELLS[character]
    plain = unicodedata.normalize("NFKD", character)[0]
    return plain if plain.isascii() and plain.isprintable() else "?"


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
