"""What is typed for the panel: `open B4 toro,gordo blind`, `T1 A 7 6 8 7`, `reveal`, `note …`.

In English or Spanish, after the word `panel` on the entry line or as words of the command.
"""

from __future__ import annotations

import datetime as dt
import re
from typing import NamedTuple

from core.entry.requests import Unread
from core.say import say

OPEN = ("open", "abre")
BLIND = ("blind", "ciega")
BOOK = ("book", "libro")
"""Before the house-book version smoked, or the day the cigars were made."""
REVEAL = ("reveal", "revela")
NOTE = ("note", "nota")
SKIPPED = "-"
TOP = 10.0

MOST_DIGITS = 6
_EXPECTS_BOOK = say(
    "expected the house book's version, or the day the cigars were made, as: book 2 or"
    " book 2026-04-20"
)

TASTER = re.compile(r"(?=.*\d)[A-Za-z0-9_-]{1,8}")
_SCORE = re.compile(r"\d{1,2}(?:[.,]\d)?")


class Open(NamedTuple):
    """Begin a session; without `vitolas` it is about those the blend is rolled in.

    `book` is the house-book version smoked, or the day the cigars were made; None: today's.
    """

    blend: str
    vitolas: tuple[str, ...] = ()
    blind: bool = False
    book: int | dt.date | None = None


class Score(NamedTuple):
    """A taster's scores of what stands behind `code`, in the order of the traits.

    None is a trait not scored.
    """

    taster: str
    code: str
    scores: tuple[float | None, ...]


class Reveal(NamedTuple):
    """Tell which vitola stands behind each code."""


class Remark(NamedTuple):
    """Free text on the session."""

    text: str


Request = Open | Score | Reveal | Remark


class _Word(NamedTuple):
    text: str
    at: int


class _Misread(Exception):
    def __init__(self, says: str, at: int) -> None:
        self.unread = Unread(says, at)


def read(text: str, at: int = 0) -> Request | Unread:
    """What the text asks of the panel; `at` is its column on the line it stands on."""
    words = [_Word(found.group(), at + found.start()) for found in re.finditer(r"\S+", text)]
    try:
        return _read(words, text, at)
    except _Misread as wrong:
        return wrong.unread


def _read(words: list[_Word], text: str, at: int) -> Request:
    if not words:
        raise _Misread(say("expected open BLEND, a taster's scores, reveal or note TEXT"), at)
    first = words[0].text.casefold()
    if first in OPEN:
        return _open(words)
    if first in REVEAL:
        if len(words) > 1:
            raise _Misread(say("expected nothing after {word}", word=words[0].text), words[1].at)
        return Reveal()
    if first in NOTE:
        if len(words) == 1:
            raise _Misread(say("expected the text of the note"), at + len(text))
        return Remark(text.strip()[len(first) :].strip())
    return _score(words)


def _open(words: list[_Word]) -> Open:
    if len(words) == 1:
        raise _Misread(say("expected a blend's code, as: panel open B4"), words[0].at)
    rest, blind, book = words[2:], False, None
    while rest:
        if rest[-1].text.casefold() in BOOK:
            raise _Misread(_EXPECTS_BOOK, rest[-1].at)
        if rest[-1].text.casefold() in BLIND and not blind:
            rest, blind = rest[:-1], True
        elif len(rest) > 1 and rest[-2].text.casefold() in BOOK and book is None:
            rest, book = rest[:-2], _book(rest[-1])
        else:
            break
    vitolas = tuple(code for word in rest for code in word.text.split(",") if code)
    return Open(words[1].text, vitolas, blind, book)


def _book(word: _Word) -> int | dt.date:
    if word.text.isascii() and word.text.isdigit() and len(word.text) <= MOST_DIGITS:
        return int(word.text)
    try:
        return dt.date.fromisoformat(word.text)
    except ValueError:
        raise _Misread(_EXPECTS_BOOK, word.at) from None


def _score(words: list[_Word]) -> Score:
    taster = words[0]
    if not TASTER.fullmatch(taster.text):
        raise _Misread(
            say(
                "expected open, reveal, note or a taster's code, as T1 (a figure in it, never a"
                ' name), found "{found}"',
                found=taster.text,
            ),
            taster.at,
        )
    if len(words) < 3:
        raise _Misread(say("expected a code and its scores, as: T1 A 7 6 8 7"), words[-1].at)
    return Score(taster.text.upper(), words[1].text, tuple(map(_number, words[2:])))


def _number(word: _Word) -> float | None:
    if word.text == SKIPPED:
        return None
    number = float(word.text.replace(",", ".")) if _SCORE.fullmatch(word.text) else None
    if number is None or number > TOP:
        raise _Misread(
            say(
                'expected a score from 0 to 10, as 7 or 7.5, or - for none, found "{found}"',
                found=word.text,
            ),
            word.at,
        )
    return number
