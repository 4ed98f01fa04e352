"""A sheet longer than the screen, read a page at a time."""

from __future__ import annotations

from textual import events

from core.problems import UserError
from floor.looks.missing import troubled
from floor.looks.spans import Line
from floor.widgets.sheet import Sheet


class Page(Sheet):
    """Lines made anew by `written`; the title bar tells which of them are in sight."""

    def written(self, width: int, height: int) -> list[Line]:
        """The lines at this width; `height` is what is in sight at once."""
        raise NotImplementedError

    def update(self) -> None:
        """Make the lines anew and redraw the rows that changed."""
        if self.size.width:
            try:
                lines = self.written(self.size.width, self.size.height)
            except UserError as trouble:
                lines = troubled(trouble, self.size.width, self.floor.words)
            self.put(lines, min(self.reading_from(), self._last_top(len(lines))))
            self.floor.title_bar.update()

    def reading_from(self) -> int:
        """The line, of those just written, that what is being read begins with."""
        return self.top

    def back(self) -> bool:
        """Go back within the page; False where there is nowhere to go back from."""
        return False

    def on_resize(self, _event: events.Resize) -> None:
        self.update()

    def _last_top(self, n: int) -> int:
        return max(0, n - self.size.height)

    def key(self, key: str) -> bool:
        """Turn the page; False for any other key."""
        page = max(1, self.size.height - 1)
        steps = {"pageup": -page, "pagedown": page}
        ends = {"home": 0, "end": len(self.lines)}
        if key not in steps and key not in ends:
            return False
        top = ends.get(key, self.top + steps.get(key, 0))
        self.put(self.lines, min(self._last_top(len(self.lines)), max(0, top)))
        self.floor.title_bar.update()
        return True

    def in_sight(self) -> str:
        """Which lines are in sight, where that is not all of them."""
        n, height = len(self.lines), self.size.height
        if n <= height or not height:
            return ""
        last = min(n, self.top + height)
        return self.floor.words.range_shown.format(first=self.top + 1, last=last, n=n)
