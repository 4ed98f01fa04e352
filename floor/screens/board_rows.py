"""The Board's rows: a bench in one line of cells, at a width and a minute."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from typing import NamedTuple

from rich.cells import cell_len

from core.desk.faces import BenchLine
from core.desk.figures import fixed
from floor.looks.spans import Ink, Line, Span, figure, fit
from floor.looks.trend import trend_shape
from floor.looks.words import Words, plural, thousands

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
    """Cells of the columns that give way to names; the others are fixed."""

    bench: int
    pair: int
    vitola: int
    trend: int


class Frame(NamedTuple):
    """What all rows of a picture share: width, columns, decimals of the scale, minute, words."""

    width: int
    columns: Widths
    places: int
    now: dt.datetime
    words: Words


_FIXED = 1 + 11 + 5 + 5 + 7 + 7 + 5
"""Cursor, weigh, mean, target, verdict, good of quota, hours left."""

_GAPS = 9
_LEAST_NAME = 6


def pair_of(bench: BenchLine) -> str:
    """The buncher and the roller."""
    return " ".join(part for part in (bench.buncher, bench.roller) if part)


def widths(width: int, benches: Sequence[BenchLine]) -> Widths:
    """Share out what the figures leave: the trend gives way to names, then names shorten."""
    number = max((cell_len(b.number) for b in benches), default=1)
    pair = max((cell_len(pair_of(b)) for b in benches), default=0)
    vitola = max((cell_len(b.vitola) for b in benches), default=0)
    bench, pair, vitola = max(4, number), max(_LEAST_NAME, pair), max(_LEAST_NAME, vitola)
    room = width - _FIXED - _GAPS - bench
    trend = min(TREND_CELLS, max(LEAST_TREND, room - pair - vitola))
    names = room - trend
    if pair + vitola > names:
        pair = max(_LEAST_NAME, min(pair, max(names - vitola, names // 2)))
        vitola = max(_LEAST_NAME, names - pair)
    return Widths(bench, pair, vitola, trend)


def heading(frame: Frame) -> Line:
    """The columns' names."""
    words, wide = frame.words, frame.columns
    cells = (
        fit(words.bench, wide.bench + 1, "right"),
        fit(words.pair, wide.pair),
        fit(words.vitola, wide.vitola),
        fit(words.next, 11),
        fit(f"{words.mean} {words.target}", 11, "right"),
        fit(words.verdict, 7),
        fit(words.trend, wide.trend, "right"),
        fit(words.good, 7, "right"),
        fit(words.left, 5, "right"),
    )
    return (Span(" ".join(cells), "faint"),)


def row(bench: BenchLine, left_h: float | None, frame: Frame, under_cursor: bool) -> Line:
    """One bench. `left_h` is hours to its quota at today's pace."""
    words, wide = frame.words, frame.columns
    due, due_ink = due_words(bench, frame)
    state = STATE_INKS.get(bench.last_state, "plain")
    spans = (
        Span("▸" if under_cursor else " "),
        Span(fit(bench.number, wide.bench, "right") + " ", "strong"),
        Span(fit(pair_of(bench), wide.pair) + " "),
        Span(fit(bench.vitola, wide.vitola) + " "),
        Span(fit(due, 11) + " ", due_ink),
        Span(figure(_grams(bench.last_mean, frame), 5) + " ", state),
        Span(figure(_grams(bench.target, frame), 5) + " "),
        Span(fit(words.states.get(bench.last_state, bench.last_state), 7) + " ", state),
        Span(fit(trend_shape(bench.trend, wide.trend), wide.trend, "right") + " ", state),
        Span(figure(_good(bench), 7)),
        Span(" " + figure(_left(bench, left_h, frame), 5)),
    )
    if not under_cursor:
        return spans
    text = "".join(span.text for span in spans)
    return (Span(text + " " * (frame.width - cell_len(text)), "cursor"),)


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
    """When the bench is weighed next: at once for a first piece, else in or since how long."""
    words = frame.words
    if bench.due is None:
        return words.first_piece, "strong"
    minutes = round((bench.due - frame.now).total_seconds() / 60)
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


def totals(benches: Sequence[BenchLine], frame: Frame) -> list[str]:
    """The room in a few phrases, the most pressing first."""
    words = frame.words
    late = sum(b.due is not None and b.due < frame.now for b in benches)
    first = sum(b.due is None for b in benches)
    checks, out = sum(b.checks for b in benches), sum(b.out for b in benches)
    good = sum(b.good for b in benches)
    quota = sum(b.quota or 0 for b in benches)
    whole = words.good_of if quota else words.good_total
    parts = [plural(words.late, late)] if late else []
    parts += [plural(words.first_pieces, first)] if first else []
    parts += [plural(words.checks, checks) + (", " + words.out.format(n=out) if out else "")]
    parts += [whole.format(good=thousands(good), quota=thousands(quota))]
    return [*parts, plural(words.benches, len(benches))]
