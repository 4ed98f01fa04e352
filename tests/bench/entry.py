"""How long a typed line takes until it is safe on the disk and its verdict known."""

from __future__ import annotations

import os
import random
import time
from collections.abc import Callable
from pathlib import Path

from core.desk.faces import Recorded
from tests.bench.row import Row, interleaved
from tests.bench.workshop import desk, fill

ENTRIES = 15_000
TIMES = 400


def measure(place: Path) -> list[Row]:
    """`7 15.3 …` through the desk at 15,000 entries, beside append and sync of the same bytes.

    What is promised is the acknowledged entry itself (`store`); this is all a person waits
    for: the line read, judged, recorded, taken into the day and put into words.
    """
    opened = desk(place / "entry")
    fill(opened, ENTRIES)
    opened.report()
    dice = random.Random(11)
    target = opened.card("7").targets["bunch"].target_g
    book = place / "entry" / "days" / f"{opened.day}.jsonl"
    line = book.read_bytes().splitlines(keepends=True)[-1]

    def ours() -> float:
        text = "7 " + " ".join(f"{dice.gauss(target, 0.1):.1f}" for _ in range(5))
        began = time.perf_counter()
        outcome = opened.enter(text, None)
        took = time.perf_counter() - began
        assert isinstance(outcome, Recorded), outcome
        return took

    with (place / "bare").open("ab", buffering=0) as bare:
        took, theirs = interleaved(TIMES, ours, bare_append(bare.fileno(), line))
    peer = "bare append + fdatasync"
    name = "typed line to saved, 15,000 entries"
    return [Row(name, 1e6 * took, "µs", peer, 1e6 * theirs)]


def bare_append(descriptor: int, line: bytes) -> Callable[[], float]:
    """Appends and syncs one line; the seconds it took."""

    def run() -> float:
        began = time.perf_counter()
        os.write(descriptor, line)
        os.fdatasync(descriptor)
        return time.perf_counter() - began

    return run
