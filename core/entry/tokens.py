"""A typed line as tokens with their columns, a cursor over them, and spellings of words."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable, Mapping, Sequence
from functools import lru_cache
from typing import Generic, NamedTuple, TypeVar

from core.nearest import nearest_first
from core.say import Said, joined, say

LONGEST_LINE = 400
SHOWN = 24
"""Characters of a typed word that a message repeats."""
LISTED = 8
"""Codes that a message lists when none is near the typed one."""

T = TypeVar("T")

_TOKEN = re.compile(r"\S+")


class Misread(Exception):
    """Ends the reading of a line; `parse` turns it into `Unread`."""

    def __init__(self, says: Said, at: int) -> None:
        super().__init__(says)
        self.says = says
        self.at = at


class Token(NamedTuple):
    """One word of the line and its column, from 0."""

    text: str
    at: int

    @property
    def shown(self) -> str:
        """The word as a message repeats it."""
        return self.text if len(self.text) <= SHOWN else self.text[: SHOWN - 3] + "..."


class Spellings(NamedTuple, Generic[T]):
    """What spellings mean; `most_words` is the most words in one of them."""

    exact: Mapping[str, T]
    folded: Mapping[str, T]
    most_words: int

    def find(self, words: Sequence[str]) -> tuple[T, int] | None:
        """The meaning of the longest spelling that `words` begin with, and its word count."""
        for count in range(min(self.most_words, len(words)), 0, -1):
            text = words[0] if count == 1 else " ".join(words[:count])
            if text in self.exact:
                return self.exact[text], count
            key = fold(text)
            if key.count(" ") != count - 1:
                continue  # a lone accent is no word, but must not be taken for none
            if key in self.folded:
                return self.folded[key], count
        return None


def fold(text: str) -> str:
    """`text` without case and accents, single spaces between words."""
    if text.isascii():
        plain = text.lower()
    else:
        apart = unicodedata.normalize("NFD", text.casefold())
        plain = "".join(mark for mark in apart if not unicodedata.combining(mark))
    return " ".join(plain.split())


def spellings(meanings: Iterable[tuple[str, T]]) -> Spellings[T]:
    """Spellings by what they mean; two that differ only in case or accents need it typed."""
    exact = dict(meanings)
    folded: dict[str, T] = {}
    unclear: set[str] = set()
    for spelling, meaning in exact.items():
        if folded.setdefault(fold(spelling), meaning) != meaning:
            unclear.add(fold(spelling))
    for key in unclear:
        del folded[key]
    return Spellings(exact, folded, max((len(s.split()) for s in exact), default=0))


@lru_cache(maxsize=32)
def codes(given: tuple[str, ...]) -> Spellings[str]:
    """A house's codes as spellings of themselves."""
    return spellings((code, code) for code in given)


class Cursor:
    """Reads a line's tokens in order. `sure` when the line ended in `!`."""

    def __init__(self, line: str) -> None:
        _must_be_typed(line)
        self.line = line
        self.tokens = [Token(found[0], found.start()) for found in _TOKEN.finditer(line)]
        self.sure = False
        self._next = 0
        while self.tokens and self.tokens[-1].text.endswith("!"):
            self.sure = True
            text, at = self.tokens.pop()
            if text := text.rstrip("!"):
                self.tokens.append(Token(text, at))

    @property
    def left(self) -> int:
        """How many tokens are not read yet."""
        return len(self.tokens) - self._next

    def peek(self, ahead: int = 0) -> Token | None:
        """The next token, or one further ahead; it stays unread."""
        place = self._next + ahead
        return self.tokens[place] if place < len(self.tokens) else None

    def before(self) -> Token:
        """The token read last; one must have been."""
        return self.tokens[self._next - 1]

    def next(self, expected: Said) -> Token:
        """Read one token; where there is none, `expected` is missing."""
        if not self.left:
            raise self.missing(expected)
        return self.read()

    def read(self) -> Token:
        """Read the next token; there must be one."""
        self._next += 1
        return self.before()

    def missing(self, expected: Said) -> Misread:
        """The message for a line that ends before `expected`."""
        says = say(
            "expected {expected} after {word}, found nothing: type it too",
            expected=expected,
            word=self.before().shown,
        )
        return Misread(says, len(self.line.rstrip()))

    def take(self, known: Spellings[T]) -> T | None:
        """Read a spelling of `known`, as many words as it has; None leaves all unread."""
        words = [token.text for token in self.tokens[self._next : self._next + known.most_words]]
        found = known.find(words)
        if found is None:
            return None
        self._next += found[1]
        return found[0]

    def rest(self) -> str:
        """Read all that is left as free text; a `!` in it is part of it."""
        token = self.peek()
        if token is None:
            return ""
        self._next = len(self.tokens)
        self.sure = False
        return self.line[token.at :].rstrip()

    def reason(self) -> str:
        """Read all that is left as a reason; a `!` at its end still answers a question."""
        sure, text = self.sure, self.rest()
        self.sure = sure or text.endswith("!")
        return text.rstrip("! ")

    def must_end(self) -> None:
        """Refuse what stands after a request that is complete."""
        token = self.peek()
        if token is not None:
            raise Misread(
                say(
                    "expected nothing more after {word}, found {found}: type it as another line",
                    word=self.before().shown,
                    found=token.shown,
                ),
                token.at,
            )


def unknown(
    token: Token,
    expected: Said,
    known: Iterable[str],
    otherwise: Said | None = None,
    foreign: Iterable[str] = (),
) -> Misread:
    """The message for a word that is none of `known`; without a near one it says `otherwise`.

    `foreign` are words as good, of the language that is not the house's.
    """
    words = tuple(known)
    near = nearest_first(token.text, words, foreign)
    if near is not None:
        hint = say("did you mean {near}?", near=near)
    elif otherwise:
        hint = otherwise
    elif words:
        shown = (*words[:LISTED], *(("...",) if words[LISTED:] else ()))
        hint = say("type one of {words}", words=joined(", ", shown))
    else:
        hint = say("the house book has none")
    return Misread(
        say(
            "expected {expected}, found {found}: {hint}",
            expected=expected,
            found=token.shown,
            hint=hint,
        ),
        token.at,
    )


def _must_be_typed(line: str) -> None:
    if len(line) > LONGEST_LINE:
        raise Misread(
            say(
                "expected at most {most} characters, found {found}: type it as several lines",
                most=LONGEST_LINE,
                found=len(line),
            ),
            LONGEST_LINE,
        )
    if line.isprintable():
        return
    for at, character in enumerate(line):
        if not character.isprintable() and unicodedata.category(character) != "Zs":
            raise Misread(
                say(
                    "expected letters, digits and signs, found U+{code:04X}: "
                    "type the line without it",
                    code=ord(character),
                ),
                at,
            )
