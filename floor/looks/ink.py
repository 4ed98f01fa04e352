"""The inks as terminal styles: a leaf-coloured set, sixteen ANSI colours, or none at all.

Every ink that means something has a word or a shape beside it wherever it is used, so the
set without colour loses nothing.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import get_args

from rich.style import Style
from textual.theme import Theme

from floor.looks.spans import Ink
from floor.looks.terminal import Colour

LEAF = Theme(
    name="leaf",
    primary="#d9a55a",
    foreground="#eadfc9",
    background="#1b1611",
    surface="#2b221a",
    panel="#2b221a",
    dark=True,
)

_LEAF: dict[Ink, str] = {
    "faint": "#c0b093",
    "strong": "bold #fff4dc",
    "title": "bold #e3b064",
    "light": "#86b8e0",
    "within": "#a3c46f",
    "heavy": "#efa45c",
    "mixed": "#e0cf6a",
    "wrong": "bold #ff8f78",
    "big": "#f6e3b8",
    "struck": "strike #c0b093",
    "cursor": "bold #1b1611 on #e3b064",
}

_ANSI: dict[Ink, str] = {
    "strong": "bold",
    "title": "bold yellow",
    "light": "cyan",
    "within": "green",
    "heavy": "bold yellow",
    "mixed": "yellow",
    "wrong": "bold red",
    "big": "bold",
    "struck": "strike",
    "cursor": "reverse",
}

_NONE: dict[Ink, str] = {
    "strong": "bold",
    "title": "bold",
    "heavy": "bold",
    "light": "bold",
    "mixed": "bold",
    "wrong": "bold underline",
    "big": "bold",
    "struck": "strike",
    "cursor": "reverse",
}

_SETS: Mapping[Colour, dict[Ink, str]] = {"full": _LEAF, "ansi": _ANSI, "none": _NONE}


def inks(colour: Colour) -> dict[Ink, Style]:
    """The style of every ink, for what the terminal can show."""
    chosen = _SETS[colour]
    return {ink: Style.parse(chosen.get(ink, "")) for ink in get_args(Ink)}
