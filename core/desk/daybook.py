"""One working day's book on disk and the ledger that follows it."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Iterator, Mapping
from types import MappingProxyType
from typing import TYPE_CHECKING, Any, cast

from core.day.ledger import Ledger
from core.house.model import HouseBook
from core.records.book import START, Book
from core.records.folder import Folder

if TYPE_CHECKING:
    from core.day.entries import Entry, Opening
    from core.day.history import Earlier

OPENING, ENTRIES = "opening", "entries"
"""A day book's tables."""


_NONE: Earlier = MappingProxyType({})


class _AlreadyOpen(Exception):
    """Another terminal wrote the day's opening first."""


class DayBook:
    """The entries of a day, here and at other terminals, as one ledger.

    `until` (UTC, as entries keep it) leaves out entries made later, for what is asked or
    entered as of then; `ended` says whether the day is closed by now all the same.
    """

    def __init__(
        self,
        folder: Folder,
        date: dt.date,
        houses: Mapping[int, HouseBook],
        until: str | None = None,
    ) -> None:
        self.date = date
        self._folder = folder
        self._houses = houses
        self._until = until
        self._book = folder.day(date)
        self._cursor = START
        self._opened = False
        self._carried = 0
        self._before: DayBook | None = None
        self.ended = False
        self._touched: set[str] = set()
        self.ledger = Ledger(houses)
        self.follow()

    @property
    def damaged(self) -> int:
        """Lines of the day's book that cannot be read."""
        return len(self._book.damage)

    def follow(self, *, look: bool = True) -> None:
        """Take in what was appended, here or at another terminal; `look` at the file first."""
        news = self._book.news(self._cursor, look=look)
        self._cursor = news.cursor
        if news.restarted:
            self._start_over()
        for table, _, document in news.changes:
            if document is None:
                continue
            if table == OPENING and not self._opened:
                self._open(cast("Opening", document))
            elif table == ENTRIES:
                self._add(cast("Entry", document))
        if news.restarted and not self._opened and self._carried:
            self.carry_in(self._carried)

    def _add(self, entry: Entry) -> None:
        if entry["kind"] == "close" or entry["kind"] == "reopen":
            self.ended = entry["kind"] == "close"
        if self._until is None or entry["at"] <= self._until:
            self._touched.add(self.ledger.add(entry))

    def _start_over(self) -> None:
        """The file was replaced (a copy put back): nothing read before holds."""
        self._opened = self.ended = False
        self._touched.add("")
        self.ledger = Ledger(self._houses, self.ledger.opening)

    def touched(self) -> frozenset[str]:
        """The benches with new entries since last asked; "" where the whole day is touched."""
        found = frozenset(self._touched)
        self._touched.clear()
        return found

    def _open(self, opening: Opening) -> None:
        self._opened = True
        self._before = None
        self._touched.add("")
        self.ledger.opening = opening

    def carry_in(self, version: int) -> None:
        """Let a day without a book start from the last day before it."""
        self._carried = version
        if self._opened:
            return
        before = self._folder.latest_before(self.date)
        if before is not None:
            earlier = DayBook(self._folder, before, self._houses)
            earlier.carry_in(version)  # its own opening may never have been written, or be lost
            self.ledger.opening = earlier.ledger.carry(version)
            self._before = earlier
        else:
            self._before = None
            self.ledger.opening = {"house": version, "seats": {}, "moistures": {}}

    def earlier_checks(self) -> Earlier:
        """The checks of earlier days that charts go on from, by bench.

        Before the day's opening is written they are worked out from the day before, which
        takes a while: not to be asked for a card.
        """
        if "checks" not in self.ledger.opening and self._before is not None:
            from core.day.history import carry  # noqa: PLC0415 - a card asks for no charts

            before = self._before
            before.follow()
            checks = carry(before.earlier_checks(), before.ledger, before.date)
            self.ledger.opening = {**self.ledger.opening, "checks": checks}
            self._before = None
        return self.ledger.opening.get("checks", _NONE)

    def record(self, make: Callable[[int], Entry], event: str) -> Entry:
        """Write the entry that `make` gives for the next number; safe when this returns.

        `make` runs when every earlier entry has been taken in, so that it judges by them;
        whatever it raises leaves nothing written.
        """
        if not self._opened:
            self.follow()
        if not self._opened:
            make(self.ledger.latest + 1)  # what is refused must not begin the day
            self._write_opening()

        def entry(number: int) -> dict[str, Any]:
            self.follow(look=False)
            return cast(dict[str, Any], make(number))

        kept = self._book.append(ENTRIES, entry, event)
        self.follow(look=False)
        return cast("Entry", kept)

    def _write_opening(self) -> None:
        self.earlier_checks()  # now, as what follows, not with the latch held: it may be long
        for book in self._beside():
            book.follow()
            book.sync()

        def opening(_number: int) -> dict[str, Any]:
            self.follow()
            if self._opened:
                raise _AlreadyOpen
            return {**self.ledger.opening, "ends": self._ends()}

        try:
            self._book.append(OPENING, opening)
        except _AlreadyOpen:
            return
        self.follow()

    def _beside(self) -> Iterator[Book]:
        """The books that the day's opening anchors: house, the day before, the latest year."""
        folder = self._folder
        yield folder.house()
        before = folder.latest_before(self.date)
        if before is not None:
            yield folder.day(before)
        years = [year for year in folder.years() if year <= self.date.year]
        if years:
            yield folder.year(years[-1])

    def _ends(self) -> dict[str, tuple[int, str]]:
        """Where those books end, safe on the disk; nobody is writing in them."""
        ends: dict[str, tuple[int, str]] = {}
        for book in self._beside():
            if book.follow():
                book.sync()  # a line that a power cut may still take must not be expected
            if book.lines:
                ends[self._folder.name(book)] = (book.lines, book.end)
        return ends
