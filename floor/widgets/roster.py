"""A list of benches with a cursor: one row a bench, as many in sight as there is room for."""

from __future__ import annotations

from collections.abc import Sequence

from floor.looks.spans import Line
from floor.widgets.page import Page


class Roster(Page):
    """`shown` are the benches' numbers in order; `cursor` is the bench the keys stand at.

    A page of this kind sets `shown`, and draws the rows that `in_view` names. Where it has a text
    in place of the list, that is read like any page.
    """

    def __init__(self, *, id: str | None = None) -> None:  # noqa: A002  (Textual's own name)
        super().__init__(id=id)
        self.cursor: str | None = None
        self.shown: tuple[str, ...] = ()
        self.first = 0
        self._reading = False

    def opened(self) -> None:
        """Have the benches and the cursor ready for the next key, before anything is drawn."""

    def room(self) -> int:
        """Rows there are for benches."""
        raise NotImplementedError

    def draw(self) -> None:
        """Draw the benches in view."""
        raise NotImplementedError

    def update(self) -> None:
        """Take the desk's figures and redraw the rows that changed."""
        raise NotImplementedError

    def put_list(self, lines: Sequence[Line]) -> None:
        """Show the heading, the benches in view and the foot."""
        self._reading = False
        self.put(lines, 0)

    def put_text(self, lines: Sequence[Line]) -> None:
        """Show a text in place of the list, from where it was read before."""
        top = self.top if self._reading else 0
        self._reading = True
        self.put(lines, min(top, self._last_top(len(lines))))
        self.floor.title_bar.update()

    def in_sight(self) -> str:
        """Which lines of the text are in sight; a list tells of its benches itself."""
        return super().in_sight() if self._reading else ""

    def key(self, key: str) -> bool:
        """Move the cursor, or turn the text; False for any other key."""
        if self._reading:
            return super().key(key)
        page = max(1, self.room() - 1)
        steps = {"up": -1, "down": 1, "pageup": -page, "pagedown": page}
        ends = {"home": 0, "end": len(self.shown) - 1}
        if not self.shown or (key not in steps and key not in ends):
            return False
        row = ends.get(key, self.row_of_cursor() + steps.get(key, 0))
        self.cursor = self.shown[min(len(self.shown) - 1, max(0, row))]
        self.draw()
        return True

    def row_of_cursor(self) -> int:
        """The cursor's row in the whole list."""
        return self.shown.index(self.cursor) if self.cursor in self.shown else 0

    def in_view(self) -> slice:
        """The rows in sight, moved no farther than the cursor asks for."""
        room, row = self.room(), self.row_of_cursor()
        self.first = min(self.first, row, max(0, len(self.shown) - room))
        self.first = max(self.first, row - room + 1)
        return slice(self.first, self.first + room)
