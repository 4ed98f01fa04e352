"""Rounds: whom to weigh next, and why."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from typing import NamedTuple

from rich.cells import cell_len
from textual import events

from core.desk.faces import RoundLine
from core.desk.figures import decimals, fixed
from core.problems import UserError
from floor.looks.missing import no_house, troubled
from floor.looks.spans import Line, Span, fit, inked, joined, spread
from floor.looks.words import Words, plural
from floor.screens.board_order import minutes_to_due
from floor.screens.board_rows import LATE_MARK, time_words
from floor.widgets.roster import Roster

WHEN = 11
LEAST_BENCH = 4
LEAST_NAME = 6
GAP = 2
FOOT = 2
"""Rows under the benches: the last check of one, and how many wait."""


class Columns(NamedTuple):
    """Cells of the columns, 0 for one that is left out."""

    bench: int
    because: int
    buncher: int
    vitola: int
    blend: int


class RoundsPage(Roster):
    """The benches in the order to be weighed.

    The cursor stays with its bench until that bench is weighed; then it keeps its row, so that
    it stands at the next one.
    """

    def __init__(self) -> None:
        super().__init__(id="rounds")
        self._rounds: dict[str, RoundLine] = {}

    def on_resize(self, _event: events.Resize) -> None:
        self.update()

    def opened(self) -> None:
        """Begin with the bench that is to be weighed first."""
        self.cursor, self.first = None, 0
        self._take()

    def update(self) -> None:
        """Take the desk's order and redraw the rows that changed."""
        trouble = self._take()
        if trouble is None:
            self.draw()
        else:
            self.put_text(troubled(trouble, self.size.width, self.floor.words))

    def _take(self) -> UserError | None:
        """The desk's order, and the cursor's place in it; what kept the desk from telling it."""
        row, before = self.row_of_cursor(), self._rounds.get(self.cursor or "")
        try:
            self._rounds = {line.bench: line for line in self.floor.desk.rounds()}
        except UserError as trouble:
            return trouble
        self.shown = tuple(self._rounds)
        if self.shown and (before is None or self._weighed(before)):
            self.cursor = self.shown[min(row, len(self.shown) - 1)]
        return None

    def _weighed(self, before: RoundLine) -> bool:
        now = self._rounds.get(before.bench)
        return now is None or now.due != before.due

    def room(self) -> int:
        """Rows there are for benches, between the heading and the foot."""
        return max(1, self.size.height - 1 - FOOT)

    def draw(self) -> None:
        """Draw the heading, the benches in view and the foot; nothing while out of sight."""
        floor, width = self.floor, self.size.width
        words = floor.words
        if self.size.height <= FOOT + 1:
            return
        if floor.desk.house is None:
            self.put_text(no_house(floor.desk, words, width))
            return
        if not self.shown:
            self.put_text([(), *((Span("  "), *row) for row in inked(words.nobody, width - 4))])
            return
        now = floor.desk.now().replace(second=0, microsecond=0)
        view = self.in_view()
        columns = _columns(list(self._rounds.values()), words, width)
        rows = [
            _row(self._rounds[bench], columns, now, words, width, bench == self.cursor)
            for bench in self.shown[view]
        ]
        rows += [()] * (self.room() - len(rows))
        self.put_list([_heading(columns, words), *rows, self._last(), self._foot(view, now)])

    def _last(self) -> Line:
        """What the bench under the cursor weighed last, and the check that waits there."""
        floor, words = self.floor, self.floor.words
        bench = floor.desk.bench_line(self.shown[self.row_of_cursor()])
        parts = [words.not_weighed]
        if bench.last_mean is not None and bench.target is not None:
            places = decimals(floor.desk.house.house.scale_division_g if floor.desk.house else 1)
            mean, target = fixed(bench.last_mean, places), fixed(bench.target, places)
            told = words.states.get(bench.last_state, bench.last_state)
            parts = [f"{words.mean} {mean} g, {words.target} {target} g: {told}"]
        if bench.open is not None:
            readings, needs = bench.open
            parts.append(words.open_now.format(n=readings, needs=needs))
        parts.append(words.enter_opens)
        start = f" ▸ {words.bench} {bench.number}: "
        return (Span(start), Span(joined(parts, self.size.width - cell_len(start)), "strong"))

    def _foot(self, view: slice, now: dt.datetime) -> Line:
        """How many are due by now, and which part of the list is in sight."""
        words, n = self.floor.words, len(self.shown)
        waiting = sum(_is_due(line, now) for line in self._rounds.values())
        left = (Span(f" {plural(words.to_weigh, waiting)}", "title"),)
        last = min(n, view.stop)
        sight = words.range_shown.format(first=view.start + 1, last=last, n=n)
        right = (Span(f"{sight} ", "strong"),) if n > self.room() else ()
        return spread(left, right, self.size.width)


def _is_due(line: RoundLine, now: dt.datetime) -> bool:
    return line.due is None or minutes_to_due(line.due, now) <= 0


def _columns(lines: Sequence[RoundLine], words: Words, width: int) -> Columns:
    """Share out the width: where it is short, blend and buncher go and then names shorten."""
    columns = Columns(
        max(LEAST_BENCH, *(cell_len(line.bench) for line in lines)),
        max(map(cell_len, words.reasons.values())),
        max(LEAST_NAME, cell_len(words.buncher), *(cell_len(line.buncher) for line in lines)),
        max(LEAST_NAME, *(cell_len(line.vitola) for line in lines)),
        max(LEAST_NAME, *(cell_len(line.blend) for line in lines)),
    )
    for column in ("blend", "buncher"):
        if _taken(columns) > width:
            columns = columns._replace(**{column: 0})
    over = max(0, _taken(columns) - width)
    return columns._replace(vitola=max(LEAST_NAME, columns.vitola - over))


def _taken(columns: Columns) -> int:
    """The cursor, the mark, the time, the columns, their gaps and a blank at the edge."""
    return 1 + 1 + WHEN + sum(columns) + GAP * (1 + sum(cells > 0 for cells in columns[1:])) + 1


def _heading(columns: Columns, words: Words) -> Line:
    names = (words.because, words.buncher, words.vitola, words.blend.format(blend="").strip())
    bench = fit(words.bench, columns.bench + 1, "right")
    text = f"{bench}{' ' * (GAP + 1)}{fit(words.next, WHEN)}"
    for name, cells in zip(names, columns[1:], strict=True):
        text += " " * GAP + fit(name, cells) if cells else ""
    return (Span(text, "faint"),)


def _row(
    line: RoundLine, columns: Columns, now: dt.datetime, words: Words, width: int, here: bool
) -> Line:
    """One bench: when it is to be weighed, why it stands here, who bunches what."""
    when, ink = time_words(line.due or now, now, words)
    late = line.due is not None and minutes_to_due(line.due, now) < 0
    spans = [
        Span("▸" if here else " "),
        Span(fit(line.bench, columns.bench, "right"), "strong"),
        Span(f"{' ' * GAP}{LATE_MARK if late else ' '}{fit(when, WHEN)}", ink),
    ]
    texts = (words.reasons[line.reason], line.buncher, line.vitola, line.blend)
    for text, cells in zip(texts, columns[1:], strict=True):
        if cells:
            spans.append(Span(" " * GAP + fit(text, cells)))
    if not here:
        return tuple(spans)
    text = "".join(span.text for span in spans)
    return (Span(fit(text, width), "cursor"),)
