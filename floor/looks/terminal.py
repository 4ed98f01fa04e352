"""What the terminal can show, told from its environment."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal, NamedTuple

Colour = Literal["full", "ansi", "none"]

ASCII_TERMINALS = ("linux", "vt", "dumb", "ansi", "cons25")
"""Names, or their beginnings, of terminals whose fonts hold little beyond ASCII."""

COLOURLESS = ("dumb", "vt")
"""They do not know colour sequences, whatever else claims that they do."""

MONOCHROME = ("-m", "-mono")
"""Endings of the names of terminals that are the same but for having no colour."""

FOUR_KEYS = ("vt1", "dumb")
"""Their function keys are PF1 to PF4, and none more."""

PLAIN_LOCALES = ("C", "POSIX")
PUT_BY_PYTHON = ("C.UTF-8", "C.utf8", "UTF-8")
"""What Python sets `LC_CTYPE` to when it finds a C locale (PEP 538)."""


class Terminal(NamedTuple):
    """How much colour, and whether ASCII is all.

    An `old` one knows none of the modes that came after it, and may print what it does not
    know; one with `four_keys` has no function key after the fourth.
    """

    colour: Colour
    ascii: bool
    old: bool = False
    four_keys: bool = False


def terminal_of(environ: Mapping[str, str], encoding: str | None) -> Terminal:
    """Judge by `TERM`, `NO_COLOR`, `COLORTERM`, the locale and the output's encoding."""
    term = environ.get("TERM", "").lower()
    old = term.startswith(ASCII_TERMINALS)
    ascii_only = old or not takes_utf8(environ, encoding)
    return Terminal(_colour(environ, term), ascii_only, old, term.startswith(FOUR_KEYS))


def takes_utf8(environ: Mapping[str, str], encoding: str | None) -> bool:
    """Whether the terminal takes UTF-8; Python writes it in a C locale too, asked or not."""
    if not _is_utf8(encoding or ""):
        return False
    everything, characters = environ.get("LC_ALL"), environ.get("LC_CTYPE")
    lang = environ.get("LANG")
    put = not everything and characters in PUT_BY_PYTHON
    locales = [everything or characters or lang, *([lang] if put else [])]
    return all(_has_utf8(locale or "") for locale in locales)


def _has_utf8(locale: str) -> bool:
    """Whether the locale's own character set is UTF-8; one that names none says nothing."""
    charset = locale.partition("@")[0].partition(".")[2]
    return locale not in PLAIN_LOCALES and (not charset or _is_utf8(charset))


def _is_utf8(charset: str) -> bool:
    return charset.lower().replace("-", "").replace("_", "") == "utf8"


def _colour(environ: Mapping[str, str], term: str) -> Colour:
    if "NO_COLOR" in environ or term.startswith(COLOURLESS) or term.endswith(MONOCHROME):
        return "none"
    rich = environ.get("COLORTERM", "").lower() in ("truecolor", "24bit")
    return "full" if rich or "256color" in term or "kitty" in term else "ansi"
