"""What stands under the entry line: what Enter would do, what was said, what waits; all of it."""

from __future__ import annotations

from collections.abc import Callable
from functools import lru_cache
from typing import NamedTuple

from core.desk.faces import Meaning
from core.say import say
from floor.looks.spans import BLANK, Ink, Line, Span, whole_words, wrap
from floor.looks.words import Words
from floor.widgets.clerk import Clerk
from floor.widgets.rows_given import RowsGiven

Told = tuple[str, Ink]
"""A text, or a row of it, in its ink."""


class Tongue(NamedTuple):
    """How a text is told here: its words, its files named shortly, and the columns there are."""

    words: Words
    near: Callable[[str], str]
    width: int

    def rows(self, text: str) -> tuple[str, ...]:
        """The text in the language that is spoken, on as many rows as it needs."""
        return _wrapped(self.near(self.words.tell(text)), self.width) if text else ()


@lru_cache(maxsize=16)
def _wrapped(text: str, width: int) -> tuple[str, ...]:
    """A picture asks once for each of its rows."""
    return tuple(wrap(text, width))


class Messages:
    """The messages of one entry line. `meaning` is what Enter would do, where that is known."""

    def __init__(self, clerk: Clerk, meaning: Callable[[], Meaning | None]) -> None:
        self._clerk = clerk
        self._meaning = meaning
        self._given = RowsGiven()

    def allow(self, rows: int) -> None:
        """Take at most what the page leaves of so many rows."""
        self._given.allow(rows)

    def give(self, tongue: Tongue) -> int:
        """How many rows they take from now on."""
        return self._given.give(self._needed(tongue), typing=self._is_typed())

    def turn(self, pages: int) -> bool:
        """Whether there was more of a long message to come to."""
        return self._given.turn(pages)

    def row(self, y: int, tongue: Tongue) -> Line:
        """One of the rows; of more than there can be the last tells of the rest."""
        rows = self.rows(tongue)
        seen = self._given.in_sight(rows)
        if y == len(seen) and self._given.overflow(len(rows)):
            first, last, n = seen.start + 1, seen.stop, len(rows)
            rest = say("the rest: PgDn, PgUp; {first}–{last} of {n}", first=first, last=last, n=n)
            return (Span(f" {tongue.words.tell(rest)}", "title"),)
        if y >= len(seen):
            return BLANK
        text, ink = rows[seen[y]]
        return (Span(f" {text}", ink),)

    def lacks(self, tongue: Tongue) -> bool:
        """Whether what Enter would do needs more rows than were given: it is known only as it is
        drawn, so they come with the next picture.
        """
        return self._is_typed() and self._given.keep(len(self._asked(tongue)))

    def _is_typed(self) -> bool:
        """Whether a line is under way, which begins with what Tab offers."""
        draft = self._clerk.draft
        return bool(self._clerk.offered) or bool(draft.text and not draft.standing)

    def _needed(self, tongue: Tongue) -> int:
        """Rows for what was said and what is asked, whatever is typed meanwhile.

        Beside what was done there is one for what Enter would do, so that it stays in sight while
        the next line is typed, and typing moves nothing. Why a line was refused may give way.
        """
        clerk = self._clerk
        question = clerk.question() if clerk.held else ""
        said, done = len(tongue.rows(clerk.said.text)), clerk.said.ink != "wrong"
        return said + max(len(tongue.rows(question)), bool(said) and done)

    def rows(self, tongue: Tongue) -> tuple[Told, ...]:
        """The most pressing first, none of it shortened.

        While a line is typed what was said asks for no more rows: it was read before the line was
        begun, and comes back when the line is taken back.
        """
        clerk, given = self._clerk, self._given.n
        rows = self._asked(tongue)
        said: list[Told] = [(row, clerk.said.ink) for row in tongue.rows(clerk.said.text)]
        gives_way = bool(rows) and self._is_typed() and len(rows) + len(said) > given
        if not clerk.offered and not gives_way:
            rows += said
        may_clear = clerk.unread and not (clerk.held or clerk.draft.text or clerk.offered)
        if may_clear and len(rows) < given:
            rows.append((tongue.words.tell(say("Esc clears the lines not read")), "faint"))
        return tuple(rows)

    def _asked(self, tongue: Tongue) -> list[Told]:
        """What Tab offers, or what Enter would do with the line or with what waits."""
        offered = self._clerk.offered
        if offered:
            return [(row, "strong") for row in whole_words(offered, tongue.width, len(offered))]
        text, ink = self._pressing(tongue.words)
        return [(row, ink) for row in tongue.rows(text)]

    def _pressing(self, words: Words) -> Told:
        clerk, meaning = self._clerk, self._meaning()
        if meaning is not None and meaning.ok:
            return words.enter_would.format(what=words.tell(meaning.says)), "plain"
        if meaning is not None:
            return meaning.says, "faint"
        if clerk.held and (clerk.secret or not clerk.draft.text):
            return clerk.ask(), "mixed"
        return "", "plain"
