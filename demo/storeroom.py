"""The storeroom over the two weeks: lots come in, and leaf is issued of the oldest first.

What is issued takes a second line where a lot is used up on the way. The clerk names no lot
but that second one: the entry line proposes the others.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator

from core.day.lots import LEFT_G
from core.entry import requests as ask
from core.house.model import HouseBook
from core.recipe.moisture import at_standard, on_scale
from demo.habits import KEYED
from demo.story import COUNTED, DELIVERIES, Counted, Delivery
from demo.today import CLERK, Typed


class Storeroom:
    """What is on the shelves, standard grams by leaf and lot, the oldest lot first."""

    def __init__(self, house: HouseBook) -> None:
        self._standard = house.house.standard_moisture
        self._moistures = {code: leaf.moisture for code, leaf in house.leaf.items()}
        self._shelf: dict[str, dict[str, float]] = {code: {} for code in house.leaf}
        self._had: dict[tuple[str, str], str] = {}

    def serve(self, working_day: int, lines: Iterable[Typed]) -> tuple[Typed, ...]:
        """The day's lines with all that the store has to do with them, in their order."""
        self._had.clear()
        own = [
            CLERK.types(came.at + nth * KEYED, _received(came))
            for nth, came in enumerate(DELIVERIES.get(working_day, ()))
        ]
        found: list[Typed] = []
        for line in sorted((*lines, *own), key=lambda line: line.at):
            found += self._line(line)
        if working_day in COUNTED:
            found.append(self._count(COUNTED[working_day]))
        return tuple(sorted(found, key=lambda line: line.at))

    def _line(self, line: Typed) -> Iterator[Typed]:
        request = line.request
        if isinstance(request, ask.Leaf) and request.kind == "take":
            yield from (line._replace(request=part) for part in self._issue(request))
            return
        if isinstance(request, ask.Leaf):
            lot = self._had[request.bench, request.leaf]
            self._shelf[request.leaf][lot] += self._standard_g(request.leaf, request.grams)
        elif isinstance(request, ask.Receive):
            grams = self._standard_g(request.leaf, request.grams, request.moisture)
            self._shelf[request.leaf][request.lot] = grams
        elif isinstance(request, ask.Moisture):
            self._moistures[request.leaf] = request.moisture
        yield line

    def _issue(self, take: ask.Leaf) -> Iterator[ask.Leaf]:
        """The leaf from one lot after the other, to the whole gram; less where there is less."""
        lots, wanted_g = self._shelf[take.leaf], take.grams
        lot = self._in_use(take.leaf)
        named = None
        while wanted_g > 0 and lots[lot] >= LEFT_G:
            there_g = on_scale(lots[lot], self._standard, self._moistures[take.leaf])
            grams = min(wanted_g, float(math.floor(there_g)))
            wanted_g -= grams
            lots[lot] -= self._standard_g(take.leaf, grams)
            self._had[take.bench, take.leaf] = lot
            yield take._replace(grams=grams, lot=named)
            lot = named = self._in_use(take.leaf)

    def _in_use(self, leaf: str) -> str:
        lots = self._shelf[leaf]
        return next((lot for lot, grams in lots.items() if grams >= LEFT_G), list(lots)[-1])

    def _standard_g(self, leaf: str, grams: float, moisture: float | None = None) -> float:
        return at_standard(
            grams, self._standard, self._moistures[leaf] if moisture is None else moisture
        )

    def _count(self, counted: Counted) -> Typed:
        """A lot weighed over when the day's leaf is back: the records go on from there."""
        leaf, lot = counted.leaf, self._in_use(counted.leaf)
        there_g = on_scale(self._shelf[leaf][lot], self._standard, self._moistures[leaf])
        found_g = float(round(there_g * counted.found, -1))
        self._shelf[leaf][lot] = self._standard_g(leaf, found_g)
        return CLERK.types(counted.at, ask.Stocktake(leaf, lot, found_g))


def _received(came: Delivery) -> ask.Receive:
    return ask.Receive(
        came.leaf, came.lot, came.kg * 1000, came.moisture, came.crop, came.bales, came.price
    )
