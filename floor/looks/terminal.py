"""What the terminal can show, told from its environment."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal, NamedTuple

Colour = Literal["full", "ansi", "none"]

ASCII_TERMINALS = ("linux", "vt", "dumb", "ansi", "cons25")
"""Names, or their beginnings, of terminals whose fonts hold little beyond ASCII."""

COLOURLESS = ("dumb", "vt")
"""They do not know colour sequences, whatever else claims that they do."""


class Terminal(NamedTuple):
    """How much colour, and whether ASCII is all."""

    colour: Colour
    ascii: bool


def terminal_of(environ: Mapping[str, str], encoding: str | None) -> Terminal:
    """Judge by `TERM`, `NO_COLOR`, `COLORTERM` and the locale's encoding."""
    term = environ.get("TERM", "").lower()
    utf8 = (encoding or "").lower().replace("-", "").replace("_", "") == "utf8"
    return Terminal(_colour(environ, term), not utf8 or term.startswith(ASCII_TERMINALS))


def _colour(environ: Mapping[str, str], term: str) -> Colour:
    if "NO_COLOR" in environ or term.startswith(COLOURLESS):
        return "none"
    rich = environ.get("COLORTERM", "").lower() in ("truecolor", "24bit")
    return "full" if rich or "256color" in term or "kitty" in term else "ansi"
