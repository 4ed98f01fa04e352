"""Several processes that record entries at once: `python -m tests.bench.crew` is one of them."""

from __future__ import annotations

import itertools
import json
import subprocess
import sys
import time
from pathlib import Path
from statistics import median
from typing import Any

from core.records.folder import Folder
from tests.bench.peers import (
    DAY,
    SQLITE,
    Write,
    day_book,
    entries,
    insert,
    p99,
    sqlite_day,
    sqlite_reading_on,
)
from tests.bench.row import Row

MOST = 16
BURST = 1_600
READS_ON = "SQLite that reads on too"
KINDS = ("ours, reading on", "ours", "sqlite, reading on", "sqlite")


def at_once(place: Path, writers: int) -> list[Row]:
    """Several processes that write as fast as they can, ours and SQLite's by turns."""
    place.mkdir()
    day_book(place, 100)
    sqlite_day(place, "WAL", 100).close()
    each_s: dict[str, list[float]] = {kind: [] for kind in KINDS}
    late_s: dict[str, list[float]] = {kind: [] for kind in KINDS}
    for turn, kind in enumerate(KINDS * 3):
        elapsed_s, taken_s = burst(place, kind, writers, turn)
        each_s[kind].append(elapsed_s / len(taken_s))
        late_s[kind].append(p99(taken_s))
    name = f"{writers} writing at once" if writers > 1 else "1 writing on and on"
    judged, each, following, alone = (1e6 * median(each_s[kind]) for kind in KINDS)
    judged_late, late, following_late, alone_late = (1e6 * median(late_s[kind]) for kind in KINDS)
    most = writers == MOST
    rows = [
        Row(f"{name}, an entry", each, "µs", SQLITE, alone, 1 / 1.5 if most else None),
        Row("  99 of 100 saved within", late, "µs", SQLITE, alone_late, 1.0 if most else None),
    ]
    if writers > 1:
        rows += [
            Row(f"{name}, each judged by all", judged, "µs", READS_ON, following),
            Row("  99 of 100 saved within", judged_late, "µs", READS_ON, following_late),
        ]
    return rows


def burst(place: Path, kind: str, writers: int, turn: int) -> tuple[float, list[float]]:
    """From the first start to the last end, and what each entry took, in seconds."""
    crew = [
        subprocess.Popen(
            [sys.executable, "-m", "tests.bench.crew", kind, str(place), f"{n + 100 * turn}",
             f"{BURST // writers}"],
            stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True,
        )
        for n in range(writers)
    ]  # fmt: skip
    for process in crew:
        assert process.stdout is not None
        process.stdout.readline()
    for process in crew:
        assert process.stdin is not None
        process.stdin.write("go\n")
        process.stdin.flush()
    told = [json.loads(process.communicate()[0]) for process in crew]
    elapsed_s = max(each["ended"] for each in told) - min(each["began"] for each in told)
    return elapsed_s, [taken for each in told for taken in each["taken"]]


def ours(place: Path, *, judges: bool) -> Write:
    """Adds to the day; who `judges` by all that others wrote before reads it first."""
    book = Folder(place, wait_s=60.0).day(DAY)
    cursor = book.news().cursor

    def judged(entry: dict[str, Any]) -> dict[str, Any]:
        nonlocal cursor
        cursor = book.news(cursor, look=False).cursor
        return entry

    def write(entry: dict[str, Any]) -> None:
        book.append("entries", lambda _number: judged(entry) if judges else entry)

    return write


def writer(kind: str, place: Path, seed: int, count: int) -> None:
    """One process of a burst: it waits for the word, writes, and tells its times."""
    write: Write
    if kind.startswith("ours"):
        write = ours(place, judges="reading" in kind)
    else:
        day = sqlite_day(place, "WAL", 0)
        write = sqlite_reading_on(day) if "reading" in kind else lambda entry: insert(day, entry)
    mine = list(itertools.islice(entries(1_000_000 * (seed + 1)), count))
    print("ready", flush=True)
    sys.stdin.readline()
    began, taken_s = time.monotonic(), []
    for entry in mine:
        start = time.perf_counter()
        write(entry)
        taken_s.append(time.perf_counter() - start)
    print(json.dumps({"began": began, "ended": time.monotonic(), "taken": taken_s}))


if __name__ == "__main__":
    writer(sys.argv[1], Path(sys.argv[2]), int(sys.argv[3]), int(sys.argv[4]))
