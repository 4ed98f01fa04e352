"""How many rows the messages under the entry line are given, and which of them are in sight."""

from __future__ import annotations

UNDER = 2
"""Rows under the line at least."""
LEAST_PAGE = 5
"""Rows the page keeps, however long a message is: the bench under the cursor stays in sight."""


class RowsGiven:
    """As many rows as what was said and asked take, at most what the page can spare.

    What Enter would do is another sentence with every key. Where it needed more rows they stay
    until the line is done, so that nothing goes up and down under the hands of who types.
    """

    def __init__(self) -> None:
        self.n = UNDER
        self._kept = 0
        self._most = UNDER
        self._top = 0
        self._read: tuple[object, ...] = ()

    def allow(self, spare: int) -> None:
        """At most so many rows, beyond those that the page keeps."""
        self._most = max(UNDER, spare - LEAST_PAGE)

    def give(self, needed: int, *, typing: bool) -> int:
        """Rows for messages that need so many; `typing`: the line is not done yet."""
        if not typing:
            self._kept = 0
        self.n = min(self._most, max(UNDER, needed, self._kept))
        return self.n

    def keep(self, needed: int) -> bool:
        """Keep so many for the line being typed; whether these are more than are given."""
        self._kept = max(self._kept, needed)
        return min(self._most, self._kept) > self.n

    def overflow(self, needed: int) -> bool:
        """Whether so many are more than there can be."""
        return needed > self._most

    def in_sight(self, rows: tuple[object, ...]) -> range:
        """Which of the rows are in sight; of other rows than before, the first ones.

        Where there are more than can be, the last row given is left for telling so.
        """
        if rows != self._read:
            self._read, self._top = rows, 0
        if not self.overflow(len(rows)):
            return range(min(len(rows), self.n))
        shown = max(1, self.n - 1)
        self._top = max(0, min(self._top, len(rows) - shown))
        return range(self._top, self._top + shown)

    def turn(self, pages: int) -> bool:
        """Go on or back to the rest of what was in sight last; False where there is none."""
        if not self.overflow(len(self._read)):
            return False
        before = self.in_sight(self._read)
        self._top += pages * len(before)
        return self.in_sight(self._read) != before
