"""What an entry is made in: the house and the day it is judged by, and who makes it when."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, Any, NamedTuple

from core.day.ledger import Ledger
from core.entry import requests as ask
from core.house.model import HouseBook
from core.say import say

if TYPE_CHECKING:
    from core.recipe.card import Card

ALREADY_CLOSED = say("the day is already closed; open it again with: reopen REASON")
CLOSED = say("the day is closed and takes no entries; open it again with: reopen REASON")


class Stamp(NamedTuple):
    """When, where and by whom an entry is made."""

    at: str
    offset: int
    event: str
    terminal: str
    who: str | None = None


class Room(NamedTuple):
    """What an entry is judged by: the house in force, today's ledger, and cards by bench."""

    house: HouseBook
    version: int
    ledger: Ledger
    card: Callable[[str, str], Card]
    """Card of (blend, vitola) at today's moistures; raises BadInput where it cannot be."""
    begun: ask.Begin | None = None
    """What this terminal was told the next bare readings are of."""
    ended: bool | None = None
    """Whether the day takes no entries by now, whatever it was as of then; None: as then."""

    @property
    def closed(self) -> bool:
        """Whether the day takes no entries."""
        return self.ledger.closed if self.ended is None else self.ended


Draft = dict[str, Any]
"""An entry without its number and stamp."""


def at_bench(room: Room, bench: str) -> Draft:
    """What an entry at a bench carries of what is rolled there."""
    seat = room.ledger.seat(bench, room.version)
    return {"bench": bench, "blend": seat.blend, "vitola": seat.vitola}
