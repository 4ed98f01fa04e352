"""What the terminal can show, told from its environment."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal, NamedTuple

Colour = Literal["full", "ansi", "none"]

ASCII_TERMINALS = ("linux", "vt", "dumb", "ansi", "cons25")
"""Names, or their beginnings, of terminals whose fonts hold little beyond ASCII."""

COLOURLESS = ("dumb", "vt")
"""They do not know colour sequences, whatever else claims that they do."""

PLAIN_LOCALES = ("C", "POSIX")
PUT_BY_PYTHON = ("C.UTF-8", "C.utf8", "UTF-8")
"""What Python sets `LC_CTYPE` to when it finds a C locale (PEP 538)."""


class Terminal(NamedTuple):
    """How much colour, and whether ASCII is all."""

    colour: Colour
    ascii: bool


def terminal_of(environ: Mapping[str, str], encoding: str | None) -> Terminal:
    """Judge by `TERM`, `NO_COLOR`, `COLORTERM`, the locale and the output's encoding."""
    term = environ.get("TERM", "").lower()
    ascii_only = not _utf8(environ, encoding) or term.startswith(ASCII_TERMINALS)
    return Terminal(_colour(environ, term), ascii_only)


def _utf8(environ: Mapping[str, str], encoding: str | None) -> bool:
    """Whether the terminal takes UTF-8; Python writes it in a C locale too, asked or not."""
    if (encoding or "").lower().replace("-", "").replace("_", "") != "utf8":
        return False
    everything, characters = environ.get("LC_ALL"), environ.get("LC_CTYPE")
    if not everything and characters in PUT_BY_PYTHON and environ.get("LANG") in PLAIN_LOCALES:
        return False
    return (everything or characters or environ.get("LANG")) not in PLAIN_LOCALES


def _colour(environ: Mapping[str, str], term: str) -> Colour:
    if "NO_COLOR" in environ or term.startswith(COLOURLESS):
        return "none"
    rich = environ.get("COLORTERM", "").lower() in ("truecolor", "24bit")
    return "full" if rich or "256color" in term or "kitty" in term else "ansi"
