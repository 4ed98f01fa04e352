"""What one working day holds for every bench, and a line that somebody types in it."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Mapping
from typing import NamedTuple

from core.entry.requests import Request
from core.house.model import HouseBook
from core.recipe.card import Card
from demo.air import Air
from demo.habits import Habits

CardOf = Callable[[str, str, Mapping[str, float]], Card]
"""Card of a blend and vitola at moistures by leaf."""


class Today(NamedTuple):
    """A working day, counted from 0: the house, how wet its leaf is, and its cards."""

    working_day: int
    house: HouseBook
    habits: Habits
    air: tuple[Air, ...]
    cards: CardOf

    def card(self, blend: str, vitola: str, part: int) -> Card:
        """The card that hangs at a bench in a part of the day."""
        return self.cards(blend, vitola, self.air[part].measured)


class Typed(NamedTuple):
    """A line typed: when on the room's clock, at which terminal, by whom, and what it asks."""

    at: dt.timedelta
    terminal: str
    who: str
    request: Request


class Post(NamedTuple):
    """A terminal and who works at it."""

    terminal: str
    who: str

    def types(self, at: dt.timedelta, request: Request) -> Typed:
        return Typed(at, self.terminal, self.who, request)


SUPERVISORS = (Post("T1", "S1"), Post("T2", "S2"))
"""Each takes half of the benches."""
CLERK = Post("T3", "L1")
INSPECTOR = Post("T4", "R1")
