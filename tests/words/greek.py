"""A language that only tests speak: English in Greek letters, of the same length.

Whatever stands on a page in Latin letters was not told: it is a code, a unit, a person's own
words, or a sentence that lost how it was made.
"""

from __future__ import annotations

import re
from collections.abc import Collection
from string import Formatter

_LATIN = "abcdefghijklmnopqrstuvwxyz"
_GREEK = "αβξδεφγηιϊκλμνοπθρστυϋωχψζ"
_LETTERS = str.maketrans(_LATIN + _LATIN.upper(), _GREEK + _GREEK.upper())
_WORD = re.compile(r"(?<![\w-])[A-Za-z]{2,}(?![\w-])")
_LETTERS_OF_RULES = re.compile(r"[A-F]{2,3}")


def greek(template: str) -> str:
    """The template in Greek letters, its blanks as they are."""
    parts = []
    for text, field, spec, _ in Formatter().parse(template):
        parts.append(text.translate(_LETTERS))
        if field is not None:
            parts.append(f"{{{field}:{spec}}}" if spec else f"{{{field}}}")
    return "".join(parts)


class Greek:
    """Every sentence there is, in Greek letters."""

    def gettext(self, message: str, /) -> str:
        return greek(message)

    def pgettext(self, _context: str, message: str, /) -> str:
        return greek(message)

    def ngettext(self, one: str, many: str, n: int, /) -> str:
        return greek(one if n == 1 else many)


def untold(text: str, known: Collection[str]) -> list[str]:
    """The words in Latin letters that are neither known nor the letters of run rules."""
    words = _WORD.findall(text)
    return [w for w in words if w not in known and not _LETTERS_OF_RULES.fullmatch(w)]
