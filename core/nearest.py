"""The known word a mistyped one was most likely meant to be."""

from __future__ import annotations

import difflib
from collections.abc import Iterable
from itertools import islice

ALIKE = 0.6
"""`difflib`'s own measure of what is close enough to be worth naming."""
LONGEST = 64
"""Comparing takes time with the square of the length, and no code or key is longer."""
MOST = 200
"""Of a longer list only the entries that begin alike are compared, this many of them: a
house book of thousands of codes may hold thousands of wrong ones."""
BEGIN = 2


def nearest_first(word: str, first: Iterable[str], others: Iterable[str]) -> str | None:
    """The nearest of `first`; of `others` only one that is nearer by an edit at least."""
    near, other = nearest(word, first), nearest(word, others)
    if near is None or other is None:
        return near or other
    return other if _edits(word, other) < _edits(word, near) else near


def _edits(one: str, other: str) -> int:
    """Letters to put in, leave out or change (Levenshtein 1966) to make one word the other."""
    one, other = one.casefold(), other.casefold()
    row = list(range(len(other) + 1))
    for i, letter in enumerate(one, start=1):
        before, row = row, [i]
        for j, wanted in enumerate(other, start=1):
            row.append(min(before[j] + 1, row[-1] + 1, before[j - 1] + (letter != wanted)))
    return row[-1]


def nearest(word: str, known: Iterable[str]) -> str | None:
    """The entry of `known` most like `word`, letter case aside; None where none is alike."""
    if len(word) > LONGEST:
        return None
    key = word.casefold()
    by_key = {entry.casefold(): entry for entry in known}
    keys: Iterable[str] = by_key
    if len(by_key) > MOST:
        keys = islice((each for each in by_key if each[:BEGIN] == key[:BEGIN]), MOST // 4)
    found = difflib.get_close_matches(key, list(keys), n=1, cutoff=ALIKE)
    return by_key[found[0]] if found else None
