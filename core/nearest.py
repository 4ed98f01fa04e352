"""The known word a mistyped one was most likely meant to be."""

from __future__ import annotations

import difflib
from collections.abc import Iterable

ALIKE = 0.6
"""`difflib`'s own measure of what is close enough to be worth naming."""
LONGEST = 64
"""Comparing takes time with the square of the length, and no code or key is longer."""


def nearest(word: str, known: Iterable[str]) -> str | None:
    """The entry of `known` most like `word`, letter case aside; None where none is alike."""
    if len(word) > LONGEST:
        return None
    by_key = {entry.casefold(): entry for entry in known}
    found = difflib.get_close_matches(word.casefold(), by_key, n=1, cutoff=ALIKE)
    return by_key[found[0]] if found else None
