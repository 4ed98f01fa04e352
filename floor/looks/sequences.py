"""What of the usual control sequences an old terminal knows.

It may print what it does not know, so that is left out: questions about what it can do,
window titles and pointers, keyboards and pastes of other terminals, and where there is no
colour all but the VT100's own renditions (bold, underlined, blinking, reversed).
"""

from __future__ import annotations

import re
from functools import lru_cache

from floor.looks.terminal import Terminal

_SEQUENCE = re.compile(r"\x1b(?:\][^\x07\x1b]*(?:\x07|\x1b\\)|\[[<=>?]?[\d;]*[ -/]*[@-~])")
_ORDINARY = re.compile(r"\x1b\[[\d;]*[@-~]")
_RENDITION = re.compile(r"\x1b\[([\d;]*)m")
_RENDITIONS = frozenset({"", "0", "1", "4", "5", "7"})

WRAP = ("\x1b[?7h", "\x1b[?7l")
CURSOR = ("\x1b[?25h", "\x1b[?25l")
"""Newer than the VT100, known to all that came after it."""

CLEARED = "\x1b[0m\x1b[2J\x1b[H"
SECOND_SCREEN = ("\x1b[?1049h", "\x1b[?1049l")
"""There is but one: it is cleared when the floor opens, and when it is left."""


def known_to(terminal: Terminal, data: str) -> str:
    """The output without what this terminal does not know; for others it stays as it is."""
    if not terminal.old:
        return data
    return _SEQUENCE.sub(lambda found: _known(terminal, found[0]), data)


@lru_cache(maxsize=1024)
def _known(terminal: Terminal, sequence: str) -> str:
    if sequence in SECOND_SCREEN:
        return CLEARED
    if sequence in WRAP or (sequence in CURSOR and not terminal.four_keys):
        return sequence
    rendition = _RENDITION.fullmatch(sequence)
    if rendition and terminal.colour == "none":
        codes = [code for code in rendition[1].split(";") if code in _RENDITIONS]
        return f"\x1b[{';'.join(codes)}m" if codes else ""
    return sequence if _ORDINARY.fullmatch(sequence) else ""
