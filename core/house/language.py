"""The language of a house book as its journal has it: for who must speak before it is read."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from core.house.model import Language

LANGUAGES: tuple[Language, ...] = ("en", "es")
"""Those that a house can be spoken to in."""

_HOUSE = b'"house":{"house":{'
"""Where a stored version's `[house]` begins; within a text its quotes would be escaped."""
_LANGUAGE = rb'(?:"(?:[^"\\]|\\.)*"|[^{}"])*?,"language":"(\w+)"'


def language_in(lines: bytes) -> str:
    """The language of the newest version in a journal's last lines, whole or not.

    `en`, which is not stored, where they name none or cannot be read.
    """
    begins = lines.rfind(_HOUSE)
    if begins < 0:
        return "en"
    found = re.compile(_LANGUAGE).match(lines, begins + len(_HOUSE))
    return "en" if found is None else found[1].decode()
