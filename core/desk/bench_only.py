"""A terminal for one bench alone: which lines and pages are its own."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from core.day.ledger import Ledger
from core.entry import requests as ask
from core.entry.complete import complete
from core.entry.parse import parse
from core.entry.tokens import codes
from core.entry.words import FORM_WORDS, OF_ONE_BENCH
from core.house.model import HouseBook, Language
from core.problems import BadInput
from core.say import Said, say

if TYPE_CHECKING:
    from core.day.entries import Entry

PAGES = frozenset({"card", "why", "chart", "help"})
_OWN = (
    ask.OpenBench,
    ask.Check,
    ask.Begin,
    ask.Reading,
    ask.Done,
    ask.Count,
    ask.Hold,
    ask.Fail,
    ask.Leaf,
    ask.Scrap,
    ask.Roll,
    ask.Note,
    ask.Undo,
    ask.Chart,
    ask.Initials,
)
"""Requests of the bench itself; whose entry an undo voids is seen when it is made."""


class BenchOnly:
    """What a terminal that is for one bench alone reads, offers and shows."""

    def __init__(self, bench: str) -> None:
        self.bench = bench
        self._known: _Known | None = None

    @property
    def says(self) -> Said:
        """Why anything else is refused."""
        return say(
            "this screen is for bench {bench} alone; go to one of the whole floor for that",
            bench=self.bench,
        )

    def read(
        self, line: str, house: HouseBook, ledger: Ledger, version: int
    ) -> ask.Parsed | ask.Unread:
        """What the line asks of the bench. What it cannot be names nothing of the others."""
        if self.bench not in house.bench:
            gone = say("bench {bench} has left the house book; this screen shows no other")
            return ask.Unread(gone.format(bench=self.bench), 0)
        parsed = parse(line, self._own(house, ledger, version), self.bench)
        if isinstance(parsed, ask.Parsed):
            return parsed if self._is_own(parsed.request) else ask.Unread(self.says, 0)
        elsewhere = parse(line, house, self.bench)
        return parsed if isinstance(elsewhere, ask.Unread) else ask.Unread(self.says, 0)

    def complete(
        self,
        line: str,
        house: HouseBook,
        ledger: Ledger,
        version: int,
        language: Language | None = None,
    ) -> tuple[str, ...]:
        """Whole lines for Tab, of what the bench may enter."""
        if self.bench not in house.bench:
            return ()
        own = self._own(house, ledger, version)
        found = complete(line, own, self.bench, language)
        return tuple(text for text in found if _begins_well(text, own))

    def refuses(self, screen: str, bench: str | None) -> str:
        """Why a page is not shown; empty where it is."""
        own = screen in PAGES and bench in (None, self.bench)
        return "" if own else self.says

    def must_be_own(self, voided: Entry, *, anothers: bool) -> None:
        """Refuse to void, or to tell of, an entry of others or of elsewhere."""
        if anothers or voided.get("bench") != self.bench:
            raise BadInput(self.says)

    def _is_own(self, request: ask.Request) -> bool:
        if isinstance(request, ask.Show):
            return request.screen in PAGES
        return isinstance(request, _OWN)

    def _own(self, house: HouseBook, ledger: Ledger, version: int) -> HouseBook:
        """The house book as if it had this bench, its blend, and the leaf it has or had."""
        blend = ledger.seat(self.bench, version).blend
        had = frozenset(entry["leaf"] for entry in ledger.bench(self.bench).leaf)
        known = self._known
        if known is None or known.whole is not house or known[1:3] != (blend, had):
            own = _narrowed(house, self.bench, blend, had)
            known = self._known = _Known(house, blend, had, own)
        return known.own


class _Known(NamedTuple):
    """A narrowed house book, and what it was made of."""

    whole: HouseBook
    blend: str
    had: frozenset[str]
    own: HouseBook


def _narrowed(house: HouseBook, bench: str, blend: str, had: frozenset[str]) -> HouseBook:
    blends = tuple(each for each in house.blends if each.code == blend)
    leaf = had.union(*((*each.shares, each.binder, each.wrapper) for each in blends))
    return house._replace(
        benches=(house.bench[bench],),
        blends=blends,
        leaves=tuple(each for each in house.leaves if each.code in leaf),
    )


def _begins_well(line: str, own: HouseBook) -> bool:
    """Whether the line begins with a word of one bench; a leaf's moisture is the house's."""
    words = line.split()
    if codes(tuple(own.bench)).find(words[:1]):
        words = words[1:]
    if not words:
        return True
    form = FORM_WORDS.find(words)
    if form is None:
        return words[0] not in own.leaf
    return form[0].means in OF_ONE_BENCH
