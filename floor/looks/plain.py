"""Signs beyond ASCII as ASCII has them: spelled out before layout, cell by cell after it."""

from __future__ import annotations

import unicodedata

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
        "π": "pi",
        "¿": "",
        "¡": "",
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
