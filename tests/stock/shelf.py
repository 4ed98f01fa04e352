"""A small house's leaf, moved by hand: one call a line, grams at the standard moisture of 13 %."""

from __future__ import annotations

import datetime as dt
from typing import Any, cast

from core.day.entries import CarriedLot, Entry
from core.day.ledger import Ledger
from core.house.model import HouseBook
from core.recipe.card import Card, recipe_card
from core.stock.stock import Stock, stock
from tests.day.book import HOUSE

DATE = dt.date(2026, 5, 4)
MORNING = dt.datetime(2026, 5, 4, 8, 0, tzinfo=dt.UTC)


class Shelf:
    """A ledger, and a clock that is moved by hand."""

    def __init__(self, house: HouseBook = HOUSE, lots: list[CarriedLot] | None = None) -> None:
        opening: Any = {"house": 1, "seats": {}, "moistures": {}}
        self.house = house
        self.ledger = Ledger({1: house}, opening | ({"lots": lots} if lots else {}))
        self.now = MORNING

    def put(self, kind: str, **fields: Any) -> int:
        """Record an entry as of now."""
        number = len(self.ledger.entries) + 1
        at = self.now.isoformat(timespec="milliseconds").replace("+00:00", "Z")
        entry = {"id": number, "kind": kind, "at": at, "offset": 0, "house": 1}
        entry |= {"event": f"{number:016x}", "terminal": "T1"}
        self.ledger.add(cast(Entry, entry | fields))
        return number

    def receive(self, lot: str, grams: float, leaf: str = "SE-1", **more: Any) -> int:
        return self.put("receive", leaf=leaf, lot=lot, grams=grams, **({"moisture": 0.13} | more))

    def found(self, lot: str, grams: float, leaf: str = "SE-1") -> int:
        return self.put("stocktake", leaf=leaf, lot=lot, grams=grams, moisture=0.13)

    def take(self, lot: str | None, grams: float, bench: str = "7", **more: Any) -> int:
        return self._move("take", lot, grams, bench, more)

    def back(self, lot: str | None, grams: float, bench: str = "7", **more: Any) -> int:
        return self._move("back", lot, grams, bench, more)

    def _move(
        self, kind: str, lot: str | None, grams: float, bench: str, more: dict[str, Any]
    ) -> int:
        fields = {"leaf": "SE-1", "moisture": 0.13} | ({"lot": lot} if lot else {}) | more
        return self.at_bench(kind, bench, grams=grams, **fields)

    def at_bench(self, kind: str, bench: str = "7", **fields: Any) -> int:
        vitola = self.house.bench[bench].vitola
        return self.put(kind, bench=bench, blend="B1", vitola=vitola, **fields)

    def undo(self, number: int) -> int:
        return self.put("undo", voids=number)

    def card(self, blend: str, vitola: str) -> Card:
        moistures = self.ledger.moistures(1)
        return recipe_card(self.house, blend=blend, vitola=vitola, moistures=moistures)

    def stock(self) -> Stock:
        return stock(self.ledger, self.house, 1, self.card, DATE, self.now)
