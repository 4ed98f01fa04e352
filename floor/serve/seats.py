"""Which browser sits where: so many at once, each a terminal of its own name in the records."""

from __future__ import annotations

import asyncio
from typing import NamedTuple

LONGEST_BASE = 24
"""What is put behind it still leaves a name that the Log can show."""


class Seat(NamedTuple):
    """One browser tab's place. `tab` is what the page calls itself, whatever it is."""

    tab: str
    terminal: str


class Seats:
    """Hands out seats. A tab that is loaded again sits down where it sat.

    So it keeps its terminal's name, and with it its unfinished check and what it may undo. A name
    never goes to another tab; `mark` tells this server's names from an earlier one's.
    """

    def __init__(self, most: int, base: str, mark: str) -> None:
        self.most = most
        self._base = base[:LONGEST_BASE]
        self._mark = mark
        self._given = 0
        self._names: dict[str, str] = {}
        self._taken: set[str] = set()
        self._left = asyncio.Condition()

    @property
    def taken(self) -> int:
        """How many sit."""
        return len(self._taken)

    async def take(self, tab: str, patience_s: float) -> Seat | None:
        """A seat, None where all are taken; waits so long for one whose floor is just ending."""
        try:
            async with asyncio.timeout(patience_s), self._left:
                await self._left.wait_for(lambda: self._has_room_for(tab))
        except TimeoutError:
            if self.taken >= self.most:
                return None
        name = self._names.get(tab)
        if name is None or name in self._taken:  # a tab made from another calls itself as that one
            self._given += 1
            name = self._names[tab] = f"{self._base}-{self._given}.{self._mark}"
        self._taken.add(name)
        return Seat(tab, name)

    async def leave(self, seat: Seat) -> None:
        """Give the seat back."""
        async with self._left:
            self._taken.discard(seat.terminal)
            self._left.notify_all()

    def _has_room_for(self, tab: str) -> bool:
        return self.taken < self.most and self._names.get(tab) not in self._taken
