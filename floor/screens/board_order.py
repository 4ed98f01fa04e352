"""Which benches the Board lists, and in what order."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Sequence

from core.desk.faces import BenchLine
from core.house.model import bench_order
from floor.looks.words import Words


def only(benches: Sequence[BenchLine], wanted: str, now: dt.datetime, words: Words) -> list[BenchLine]:
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
        texts += ["first piece", words.first_piece]
    elif bench.due < now:
        texts += ["late", words.late[0].format(n="")]
    return any(part in text.lower() for text in texts)


LeftH = Callable[[BenchLine], float | None]

def ordered(benches: Sequence[BenchLine], key: str, left_h: LeftH) -> list[BenchLine]:
    """The benches by a key of `Words.sorts`; equals keep the house book's order."""
    keys: dict[str, Callable[[BenchLine], tuple[object, ...]]] = {
        "bench": lambda b: bench_order(b.number),
        "due": lambda b: (b.due is not None, b.due.timestamp() if b.due else 0.0),
        "vitola": lambda b: (b.vitola,),
        "pair": lambda b: (b.buncher, b.roller),
        "deviation": lambda b: (-abs(b.trend[-1]) if b.trend else 1.0,),
        "good": lambda b: (-b.good,),
        "left": lambda b: ((hours := left_h(b)) is None, -(hours or 0.0)),
    }
    return sorted(benches, key=keys[key])  # type: ignore[arg-type]


def sort_key(typed: str, words: Words) -> str | None:
    """The order meant by a word, or the beginning of one; None where no order is."""
    typed = typed.strip().lower()
    found = {key for word, key in words.sorts.items() if typed and word.startswith(typed)}
    exact = words.sorts.get(typed)
    return exact or (found.pop() if len(found) == 1 else None)
