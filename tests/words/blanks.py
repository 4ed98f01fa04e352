"""A tongue without words: of what is told in it only what was filled in is left."""

from __future__ import annotations

import re
from string import Formatter

from core.say import told


class Wordless:
    """Every sentence as its blanks alone."""

    def gettext(self, message: str, /) -> str:
        blanks = Formatter().parse(message)
        return " ".join(f"{{{name}:{spec}}}" for _, name, spec, _ in blanks if name is not None)

    def pgettext(self, _context: str, message: str, /) -> str:
        return self.gettext(message)

    def ngettext(self, _one: str, many: str, _n: int, /) -> str:
        return self.gettext(many)


def left_over(text: str) -> set[str]:
    """The words of a text that no translation can reach: codes, numbers, what a user wrote."""
    return set(re.findall(r"[^\W\d_][^\W\d_]+", told(text, Wordless())))
