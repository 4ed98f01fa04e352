"""The two weeks as they are typed, day by day: the shifts, and what the store does for them."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from core.house.model import HouseBook
from demo.shift import WORKING_DAYS, shift
from demo.storeroom import Storeroom
from demo.today import CardOf, Typed


def fortnight(house: HouseBook, cards: CardOf) -> Iterator[tuple[dt.date, tuple[Typed, ...]]]:
    """Each working day with everything typed on it."""
    storeroom = Storeroom(house)
    for working_day, date in enumerate(WORKING_DAYS):
        yield date, storeroom.serve(working_day, shift(house, working_day, cards))
