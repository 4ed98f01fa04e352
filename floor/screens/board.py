"""The Board: how the room is doing, and who needs somebody."""

from __future__ import annotations

import datetime as dt

from textual import events

from core.desk.faces import BenchLine
from core.desk.figures import decimals
from core.problems import UserError
from floor.looks.missing import no_house, troubled
from floor.looks.spans import BLANK, Line, Span, inked, spread, width_of
from floor.looks.words import plural
from floor.screens.board_order import only, ordered
from floor.screens.board_rows import Frame, heading, hours_left, row, spaced, totals, widths
from floor.widgets.roster import Roster

ALL_CHECKS = 10_000

FOOT = 1
"""Rows under the benches: the totals; a notice takes one more."""


class Board(Roster):
    """Every bench in a row. The cursor stays with its bench, whatever moves around it."""

    def __init__(self) -> None:
        super().__init__(id="board")
        self._all: tuple[BenchLine, ...] = ()
        self._shown: list[BenchLine] = []
        self._only = ""
        self._sort = ""
        self._since: dict[str, tuple[tuple[dt.date, int], dt.datetime | None]] = {}
        self._drawn: dict[str, tuple[object, Line]] = {}

    def on_resize(self, _event: events.Resize) -> None:
        self._drawn.clear()
        self.update()

    # -- what is listed -----------------------------------------------------------------------

    def list_only(self, words: str) -> None:
        """List the benches that have all these words; every bench without any."""
        self._only = words.strip()
        self._from_the_top()

    def sort_by(self, key: str) -> None:
        """List in another order."""
        self._sort = key
        self._from_the_top()

    def _from_the_top(self) -> None:
        self.first, self.cursor = 0, None
        self.update()

    def list_all(self) -> None:
        """Every bench again, in the house book's order."""
        self._only = self._sort = ""
        self.update()

    def _listed(self, now: dt.datetime) -> list[BenchLine]:
        benches: list[BenchLine] = list(self._all)
        if self._only:
            benches = only(benches, self._only, now, self.floor.words)
        if self._sort:
            benches = ordered(benches, self._sort)
        return benches

    # -- the picture --------------------------------------------------------------------------

    def update(self) -> None:
        """Take the desk's figures and redraw the rows that changed; nothing while out of sight."""
        if self.size.height <= FOOT + 1:
            return
        desk = self.floor.desk
        try:
            self._all = desk.board()
        except UserError as trouble:
            self.put_text(troubled(trouble, self.size.width, self.floor.words))
            return
        self._shown = self._listed(desk.now().replace(second=0, microsecond=0))
        self.shown = tuple(bench.number for bench in self._shown)
        if self.shown and self.cursor not in self.shown:
            self.cursor = self.shown[0]
        self.draw()

    def room(self) -> int:
        """Rows there are for benches, between the heading and the foot."""
        return max(1, self.size.height - 1 - FOOT - len(self._notice_lines()))

    def draw(self) -> None:
        """Draw the heading, the benches in view and the foot."""
        desk, words = self.floor.desk, self.floor.words
        if desk.house is None:
            self.put_text(self._without_house())
            return
        frame = self._frame(desk.house.house.scale_division_g)
        room = self.room()
        page = self._shown[self.in_view()]
        rows = spaced([self._row(bench, frame) for bench in page], room)
        if not self._shown:
            none = words.none_match.format(words=self._only)
            rows = [(Span(" "), *row) for row in inked(none, frame.width - 2, "strong")]
        rows += [BLANK] * (room - len(rows))
        foot = self._notice_lines()
        self.put_list([heading(frame), *rows, *foot, self._totals(frame, len(page))])

    def _without_house(self) -> list[Line]:
        """How to come by a house: the first run, or the commands where that is not for here."""
        floor, size = self.floor, self.size
        first = floor.beginning.first
        if first is None:
            return no_house(floor.desk, floor.words, size.width)
        from floor.screens.start import start_lines  # noqa: PLC0415 - once in a house's life

        return start_lines(first, floor.beginning.row, size.width, size.height, floor.words)

    def key(self, key: str) -> bool:
        """Move the cursor; before there are benches, move in the first run."""
        if self.floor.beginning.key(key):
            self.update()
            return True
        return super().key(key)

    def _frame(self, division_g: float) -> Frame:
        columns = widths(self.size.width, self._all)
        now = self.floor.desk.now().replace(second=0, microsecond=0)
        words = self.floor.words
        return Frame(self.size.width, columns, decimals(division_g), now, words)

    def _row(self, bench: BenchLine, frame: Frame) -> Line:
        under_cursor = bench.number == self.cursor
        known = (bench, under_cursor, frame)
        drawn = self._drawn.get(bench.number)
        if drawn is None or drawn[0] != known:
            left_h = self._left_h(bench)
            drawn = known, row(bench, left_h, frame, under_cursor)
            self._drawn[bench.number] = drawn
        return drawn[1]

    def _left_h(self, bench: BenchLine) -> float | None:
        """Hours to the quota; the bench's first check is looked up once for each count of them."""
        desk = self.floor.desk
        if not bench.good or bench.quota is None:
            return None
        known = (desk.day, bench.checks)
        kept = self._since.get(bench.number)
        if kept is None or kept[0] != known:
            checks = desk.recent_checks(bench.number, ALL_CHECKS)
            kept = known, checks[0].at if checks else None
            self._since[bench.number] = kept
        return hours_left(bench, kept[1], desk.now())

    def _notice_lines(self) -> list[Line]:
        notice = self._notice()
        rows = inked(notice, self.size.width - 2, "strong") if notice else []
        return [(Span(" "), *row) for row in rows]

    def _notice(self) -> str:
        desk, words = self.floor.desk, self.floor.words
        if desk.damaged:
            return plural(words.damaged, desk.damaged)
        if self._shown and not any(b.checks or b.made or b.good for b in self._all):
            return words.first_check.format(bench=self.cursor)
        return ""

    def _totals(self, frame: Frame, page: int) -> Line:
        words = frame.words
        parts = []
        if self._only:
            parts.append(words.only.format(words=self._only))
        if self._sort:
            parts.append(words.sorted_by.format(sort=words.sorts[self._sort]))
        if page < len(self._shown):
            first, n = self.first + 1, len(self._shown)
            parts.append(words.range_shown.format(first=first, last=first + page - 1, n=n))
        elif self._only:
            parts.append(words.shown.format(n=len(self._shown), all=len(self._all)))
        right = (Span(" · ".join(parts) + " ", "strong"),) if parts else ()
        room = frame.width - width_of(right) - 2
        left = (Span(" " + totals(self._all, frame, room), "title"),)
        return spread(left, right, frame.width)
