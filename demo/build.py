"""A fresh data folder with the demo house and two weeks of working days in it."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable
from pathlib import Path
from typing import Any

from core.day.calendar import stamp
from core.day.compose import compose, end_of_day
from core.day.history import carry
from core.day.ledger import Ledger
from core.day.room import Room, Stamp
from core.day.summary import BookEnd, DaySummary
from core.day.summing import summary
from core.day.tally import add_up
from core.desk.daybook import ENTRIES, OPENING
from core.desk.shelf import Shelf
from core.desk.summaries import book_end, keep
from core.entry import requests as ask
from core.recipe.card import Card
from core.records.book import Book, Make
from core.records.folder import Folder
from demo.cards import Cards
from demo.fortnight import fortnight
from demo.habits import CLOSED, clock
from demo.house import HOUSE_TOML, demo_house
from demo.shift import WORKING_DAYS
from demo.tasting import taste
from demo.today import SUPERVISORS, Typed

LOADED = clock("05:50")
MOMENT = clock("10:40")
"""How far the last day has come."""


def build(folder: Path) -> dt.datetime:
    """Fill a new data folder; returns the moment at which its last day stands.

    Clock times are this machine's, and the same whatever its time zone. Raises
    StoreUnusable.
    """
    house = demo_house()
    cards = Cards(house)
    records = Folder(folder)
    shelf = Shelf(records)
    text = HOUSE_TOML.read_text(encoding="utf-8")
    loaded = shelf.load(house, text, HOUSE_TOML.name, on(WORKING_DAYS[0], LOADED))
    day = _Day(WORKING_DAYS[0], Ledger(shelf), cards, loaded.version)
    for date, lines in fortnight(house, cards):
        day = day.next(date)
        if date == WORKING_DAYS[-1]:
            day.record(line for line in lines if line.at <= MOMENT)
        else:
            day.record(lines)
            day.close()
        _write(records.day(date), OPENING, [day.ledger.opening])
        _write(records.day(date), ENTRIES, day.ledger.entries.values())
        if day.ledger.closed:
            keep(records, date, day.summary(book_end(records, date)))
    taste(records, house, loaded.version, on(WORKING_DAYS[-2], CLOSED))
    records.close()
    return on(WORKING_DAYS[-1], MOMENT)


def on(date: dt.date, since_midnight: dt.timedelta) -> dt.datetime:
    """A time of day on this machine's own clock."""
    return (dt.datetime.combine(date, dt.time()) + since_midnight).astimezone()


class _Day:
    """A working day's entries as they are composed, before they are written at once."""

    def __init__(self, date: dt.date, ledger: Ledger, cards: Cards, version: int) -> None:
        self.ledger = ledger
        self._date = date
        self._cards = cards
        self._version = version
        self._room = Room(ledger.houses[version], version, ledger, self._card)
        self._moistures = ledger.moistures(version)

    def next(self, date: dt.date) -> _Day:
        """The day that starts from where this one ended."""
        opening = self.ledger.carry(self._version)
        opening["checks"] = carry(self.ledger.opening.get("checks", {}), self.ledger, self._date)
        ledger = Ledger(self.ledger.houses, opening)
        return _Day(date, ledger, self._cards, self._version)

    def record(self, lines: Iterable[Typed]) -> None:
        """Compose each line's entry as a desk does, and take it in."""
        for number, line in enumerate(lines, start=1):
            made = self._stamp(line.at, number, line.terminal, line.who)
            self.ledger.add(compose(line.request, self._room, made, number))
            if isinstance(line.request, (ask.Moisture, ask.Undo)):
                self._moistures = self.ledger.moistures(self._version)

    def close(self) -> None:
        """End the day."""
        number = len(self.ledger.entries) + 1
        made = self._stamp(CLOSED, number, *SUPERVISORS[0])
        self.ledger.add(end_of_day("close", "", self._room, made, number))

    def summary(self, end: BookEnd) -> DaySummary:
        """The closed day as its year's book keeps it."""
        packed, version = self._cards.filler_of, self._version
        day = add_up(
            self.ledger, house=self._room.house, date=self._date, version=version, packed=packed
        )
        return summary(day, self.ledger, version=version, book=end)

    def _card(self, blend: str, vitola: str) -> Card:
        return self._cards(blend, vitola, self._moistures)

    def _stamp(self, at: dt.timedelta, number: int, terminal: str, who: str) -> Stamp:
        utc, offset = stamp(on(self._date, at))
        return Stamp(utc, offset, f"demo {self._date} {number}", terminal, who)


def _write(book: Book, table: str, documents: Iterable[Any]) -> None:
    """Record documents with one sync, numbered as they come."""

    def make(document: Any) -> Make:
        return lambda _number: document

    book.append_many(table, [make(document) for document in documents])
