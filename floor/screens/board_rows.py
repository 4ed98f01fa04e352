"""The Board's rows: a bench in one line of cells, at a width and a minute."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from typing import NamedTuple

from rich.cells import cell_len

from core.desk.faces import BenchLine
from core.desk.figures import fixed, thousands
from floor.looks.spans import BLANK, Ink, Line, Span, figure, fit, joined
from floor.looks.trend import trend_shape
from floor.looks.words import Words, plural
from floor.screens.board_order import is_late, minutes_to_due

TREND_CELLS = 8
LEAST_TREND = 5
LEAST_PACE_H = 0.25
"""Under a quarter of an hour of work a pace is a guess."""

STATE_INKS: dict[str, Ink] = {
    "": "faint",
    "light": "light",
    "within": "within",
    "heavy": "heavy",
    "mixed": "mixed",
}


class Widths(NamedTuple):
    """Cells of the columns, 0 for one that is left out, and the gap between them."""

    bench: int
    pair: int
    vitola: int
    trend: int
    good: int
    quota: int
    gap: int = 1


class Frame(NamedTuple):
    """What all rows of a picture share: width, columns, decimals of the scale, minute, words."""

    width: int
    columns: Widths
    places: int
    now: dt.datetime
    words: Words


_MARK, _DUE, _GRAMS, _STATE = 1, 11, 5, 7
"""Cells of what is never left out: the mark of a late bench, weigh, mean, target, verdict.
Besides them the cursor and a blank at the right.
"""
_LEAST_NAME = 6
_LEAST_PAIR = 9
_GOOD, _QUOTA = 7, 6
_WIDEST_GAP = 6
LATE_MARK = "!"
A_FEW = 4
"""Benches worth naming, each late and each to be started, even where nothing else fits."""
GROUPS = range(2, 7)
"""Rows that may stand together on a tall terminal."""


def pair_of(bench: BenchLine) -> str:
    """The buncher and the roller."""
    return " ".join(part for part in (bench.buncher, bench.roller) if part)


def widths(width: int, benches: Sequence[BenchLine]) -> Widths:
    """Share out the width: where it is short the trend gives way to names, then whole columns
    go, the least needed first, then names shorten; where there is more, columns part.
    """
    number = max((cell_len(b.number) for b in benches), default=1)
    pair = max((cell_len(pair_of(b)) for b in benches), default=0)
    vitola = max(_LEAST_NAME, max((cell_len(b.vitola) for b in benches), default=0))
    good = max((cell_len(_good(b)) for b in benches), default=0)
    least = Widths(
        max(4, number),
        min(_LEAST_PAIR, max(_LEAST_NAME, pair)),
        _LEAST_NAME,
        LEAST_TREND,
        max(_GOOD, good),
        _QUOTA,
    )
    for column in ("trend", "quota", "pair", "good"):
        if _taken(least) > width:
            least = least._replace(**{column: 0})
    return _parted(_shared(least, pair, vitola, width), width)


def _shared(least: Widths, pair: int, vitola: int, width: int) -> Widths:
    """What is over goes to the names as far as they need it, then to the trend."""
    over = max(0, width - _taken(least))
    more_vitola = min(over, vitola - least.vitola)
    over -= more_vitola
    more_pair = min(over, max(0, pair - least.pair)) if least.pair else 0
    over -= more_pair
    more_trend = min(over, TREND_CELLS - least.trend) if least.trend else 0
    return least._replace(
        vitola=least.vitola + more_vitola,
        pair=least.pair + more_pair,
        trend=least.trend + more_trend,
    )


def _parted(columns: Widths, width: int) -> Widths:
    over = max(0, width - _taken(columns))
    return columns._replace(gap=min(_WIDEST_GAP, 1 + over // _gaps(columns)))


def _gaps(columns: Widths) -> int:
    named = (columns.pair, columns.vitola, columns.trend, columns.good, columns.quota)
    return 4 + sum(cells > 0 for cells in named)


def _taken(columns: Widths) -> int:
    return 2 + _MARK + _DUE + 2 * _GRAMS + _STATE + sum(columns[:-1]) + _gaps(columns)


def heading(frame: Frame) -> Line:
    """The columns' names; mean and target are grams, and say so once."""
    words, wide = frame.words, frame.columns
    gap = " " * wide.gap
    figures = f"{words.mean_g} {figure(words.target, wide.gap - 1 + _GRAMS)}"
    before = fit(words.next, _MARK + _DUE + 2 * (wide.gap + _GRAMS) - cell_len(figures))
    both = ((words.good, wide.good), (words.to_quota, wide.quota))
    counts = [(name, size) for name, size in both if size]
    cells: list[str] = [
        fit(words.bench, wide.bench + 1, "right"),
        *([fit(words.pair, wide.pair)] if wide.pair else []),
        fit(words.vitola, wide.vitola),
        before + figures,
        fit(words.verdict, _STATE),
        *([fit(words.trend, wide.trend, "right")] if wide.trend else []),
    ]
    room = sum(size for _, size in counts) + wide.gap * max(0, len(counts) - 1)
    if any(cell_len(name) > size for name, size in counts):
        cells.append(fit(" ".join(name for name, _ in counts), room, "right"))
    else:
        cells += [fit(name, size, "right") for name, size in counts]
    return (Span(gap.join(cells), "faint"),)


def row(bench: BenchLine, left_h: float | None, frame: Frame, under_cursor: bool) -> Line:
    """One bench. `left_h` is hours to its quota at today's pace."""
    words, wide = frame.words, frame.columns
    due, due_ink = due_words(bench, frame)
    state = STATE_INKS.get(bench.last_state, "plain")
    mark = LATE_MARK if is_late(bench, frame.now) else " "
    gap = " " * wide.gap
    told = words.states.get(bench.last_state, bench.last_state)
    cells: list[tuple[str, Ink]] = [
        (fit(bench.number, wide.bench, "right"), "strong"),
        *_pair_cell(bench, wide.pair),
        (fit(bench.vitola, wide.vitola), "plain"),
        (mark + fit(due, _DUE), due_ink),
        (figure(_grams(bench.last_mean, frame), 5), state),
        (figure(_grams(bench.target, frame), 5), "plain"),
        (fit(told, _STATE), state),
    ]
    if wide.trend:
        cells.append((fit(trend_shape(bench.trend, wide.trend), wide.trend, "right"), state))
    if wide.good:
        cells.append((figure(_good(bench), wide.good), "plain"))
    if wide.quota:
        cells.append((figure(_left(bench, left_h, frame), wide.quota), "plain"))
    spans = [Span("▸" if under_cursor else " ")]
    for place, (text, ink) in enumerate(cells):
        spans.append(Span((gap if place else "") + text, ink))
    if not under_cursor:
        return tuple(spans)
    text = "".join(span.text for span in spans)
    return (Span(text + " " * (frame.width - cell_len(text)), "cursor"),)


def _pair_cell(bench: BenchLine, cells: int) -> list[tuple[str, Ink]]:
    return [(fit(pair_of(bench), cells), "plain")] if cells else []


def spaced(rows: list[Line], room: int) -> list[Line]:
    """The rows with a blank after every few, as few as the room lets be."""
    for few in GROUPS:
        if 2 * few < len(rows) <= room - (len(rows) - 1) // few:
            return [
                line
                for y, row in enumerate(rows)
                for line in ((BLANK, row) if y and y % few == 0 else (row,))
            ]
    return rows


def _grams(grams: float | None, frame: Frame) -> str:
    return "" if grams is None else fixed(grams, frame.places)


def _good(bench: BenchLine) -> str:
    return str(bench.good) if bench.quota is None else f"{bench.good}/{bench.quota}"


def _left(bench: BenchLine, left_h: float | None, frame: Frame) -> str:
    if bench.quota is not None and bench.good >= bench.quota:
        return frame.words.done
    if left_h is None:
        return ""
    tenths = round(left_h, 1)
    return f"{tenths:.1f} h" if tenths < 10 else f"{left_h:.0f} h"


def due_words(bench: BenchLine, frame: Frame) -> tuple[str, Ink]:
    """A check that waits; else when the bench is weighed next: at once for a first piece."""
    words = frame.words
    if bench.open is not None:
        readings, needs = bench.open
        return words.open_now.format(n=readings, needs=needs), "strong"
    if bench.due is None:
        return words.first_piece, "strong"
    return time_words(bench.due, frame.now, words)


def time_words(due: dt.datetime, now: dt.datetime, words: Words) -> tuple[str, Ink]:
    """In how long a weigh-in is due, or how late it is."""
    minutes = minutes_to_due(due, now)
    if minutes == 0:
        return words.now, "strong"
    near = abs(minutes) < 100
    time = (words.minutes if near else words.hours).format(
        n=abs(minutes) if near else round(abs(minutes) / 60)
    )
    if minutes < 0:
        return words.late_time.format(time=time), "strong"
    return words.in_time.format(time=time), "plain"


def hours_left(bench: BenchLine, since: dt.datetime | None, now: dt.datetime) -> float | None:
    """Hours to the quota at the bench's pace since its first check of today, where it has one."""
    if since is None or bench.quota is None or not bench.good or bench.good >= bench.quota:
        return None
    worked_h = (now - since).total_seconds() / 3600
    if worked_h < LEAST_PACE_H:
        return None
    return (bench.quota - bench.good) * worked_h / bench.good


def totals(benches: Sequence[BenchLine], frame: Frame, room: int) -> str:
    """The room in a few phrases, the most pressing first: who is late, who wants a first piece.

    As many benches are named as there is room for, the longest late first.
    """
    words = frame.words
    late = [b for b in benches if is_late(b, frame.now)]
    late.sort(key=lambda b: b.due.timestamp() if b.due else 0.0)
    first = [b for b in benches if b.due is None]
    checks, out = sum(b.checks for b in benches), sum(b.out for b in benches)
    good = sum(b.good for b in benches)
    quota = sum(b.quota or 0 for b in benches)
    whole = words.good_of if quota else words.good_total
    counted = whole.format(good=thousands(good), quota=thousands(quota))
    checked = plural(words.checks, checks) + (", " + words.out.format(n=out) if out else "")
    rest = [counted, checked, plural(words.benches, len(benches))]
    most = max(len(late), len(first))
    for named in range(most, -1, -1):
        pressing = [
            *_named(late, named, words.late_named, words.late, words),
            *_named(first, named, words.first_named, words.first_pieces, words),
        ]
        # A few names are worth more than the count of good, many are not.
        least = pressing if named <= A_FEW else [*pressing, counted]
        if cell_len(" · ".join(least)) <= room:
            break
    return joined([*pressing, *rest], room)


def _named(
    benches: Sequence[BenchLine], n: int, names: str, count: tuple[str, str], words: Words
) -> list[str]:
    """The benches by their numbers, the first `n` of them, or only how many."""
    if not benches or n == 0:
        return [plural(count, len(benches))] if benches else []
    numbers = [b.number for b in benches[:n]]
    more = len(benches) - len(numbers)
    return [names.format(benches=" ".join([*numbers, *([words.more.format(n=more)] * bool(more))]))]
