"""Which benches the Board lists, and in what order."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Sequence

from core.desk.faces import BenchLine
from core.house.numbering import bench_order
from floor.looks.words import Words


def minutes_to_due(due: dt.datetime, now: dt.datetime) -> int:
    """Minutes to the next weigh-in, negative once it is late."""
    return round((due - now).total_seconds() / 60)


def is_late(bench: BenchLine, now: dt.datetime) -> bool:
    """Whether the bench's weigh-in is overdue by a minute or more."""
    return bench.due is not None and minutes_to_due(bench.due, now) < 0


def only(
    benches: Sequence[BenchLine], wanted: str, now: dt.datetime, words: Words
) -> list[BenchLine]:
    """The benches that have every word: in their number, pair, vitola, blend or state."""
    parts = wanted.lower().split()
    return [b for b in benches if all(_has(b, part, now, words) for part in parts)]


def _has(bench: BenchLine, part: str, now: dt.datetime, words: Words) -> bool:
    if part == bench.number.lower():
        return True
    if part.isdecimal():
        return False
    texts = [
        bench.buncher,
        bench.roller,
        bench.vitola,
        bench.blend,
        bench.last_state,
        words.states.get(bench.last_state, ""),
    ]
    if bench.due is None:
        texts += [Words.first_piece, words.first_piece]
    elif is_late(bench, now):
        texts += ["late", words.late[0].format(n="")]
    if bench.open is not None:
        texts += ["open", words.open_now.format(n=bench.open[0], needs=bench.open[1])]
    return any(part in text.lower() for text in texts)


def ordered(benches: Sequence[BenchLine], key: str) -> list[BenchLine]:
    """By bench, due, mean (the farthest off first) or good; equals stay as they were."""
    keys: dict[str, Callable[[BenchLine], tuple[float, str]]] = {
        "bench": lambda b: bench_order(b.number),
        "due": lambda b: (b.due.timestamp() if b.due else 0.0, ""),
        "mean": lambda b: (-abs(b.trend[-1]) if b.trend else 1.0, ""),
        "good": lambda b: (-b.good, ""),
    }
    return sorted(benches, key=keys[key])
