"""What an acknowledged entry costs, beside the bare disk and what people would use instead."""

from __future__ import annotations

import datetime as dt
import itertools
import json
import os
import random
import sqlite3
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from pathlib import Path
from statistics import median, quantiles
from typing import Any, NamedTuple

import orjson
from tinydb import TinyDB

from core.records.book import Book
from core.records.folder import Folder
from tests.bench.row import Row

DAY = dt.date(2026, 5, 4)
SIZES = (0, 1_000, 15_000, 60_000)
TIMES = 300
SLOW_TIMES = {0: 20, 1_000: 10, 15_000: 3, 60_000: 1}
PAUSE_S = 0.001
"""Before every write, whoever's it is, as between entries: a disk kept busy answers faster."""
WRITERS = (1, 4, 16)
BURST = 1_600
OPENED = 20_000
OPEN_PROMISED_S = 0.100
SQLITE = "SQLite WAL FULL"
BARE = "bare append + fdatasync"

Write = Callable[[dict[str, Any]], None]


class Store(NamedTuple):
    """A store with a day in it: how it takes an entry, and how often that is measured."""

    name: str
    write: Write
    times: int
    taken_s: list[float]


def measure(place: Path) -> list[Row]:
    """All of it, in about a minute."""
    rows = [row for size in SIZES for row in one_entry(place / f"{size}", size)]
    rows += [row for writers in WRITERS for row in at_once(place / f"w{writers}", writers)]
    return [*rows, *opening(place / "open"), *following(place / "follow")]


def entries(first: int = 1) -> Iterator[dict[str, Any]]:
    """A day's entries as a room makes them: three checks of five readings, then a count."""
    dice = random.Random(first)
    for number in itertools.count(first):
        entry: dict[str, Any] = {
            "id": number, "at": "2026-05-04T09:15:22.123Z", "offset": -240,
            "event": f"{dice.getrandbits(128):032x}", "terminal": "T1", "who": "AB", "house": 3,
            "bench": str(number % 24), "blend": "B1", "vitola": "v5",
        }  # fmt: skip
        if number % 4 == 0:
            yield entry | {"kind": "made", "n": 25}
        else:
            yield entry | {
                "kind": "check", "measure": "bunch", "standard": 0.98, "target": 12.34,
                "low": 11.85, "high": 12.83,
                "readings": [round(dice.gauss(12.3, 0.2), 1) for _ in range(5)],
            }  # fmt: skip


def take(entry: dict[str, Any]) -> Callable[[int], dict[str, Any]]:
    return lambda _number: entry


def day_book(place: Path, size: int) -> Book:
    """A day with that many entries."""
    book = Folder(place).day(DAY)
    book.append_many("entries", [take(entry) for entry in itertools.islice(entries(), size)])
    return book


def sqlite_day(place: Path, mode: str, size: int) -> sqlite3.Connection:
    """The same in SQLite, synced as firmly: found by event, the rest as JSON."""
    day = sqlite3.connect(place / f"{mode}.sqlite", timeout=60.0, isolation_level=None)
    day.execute(f"PRAGMA journal_mode = {mode}")
    day.execute("PRAGMA synchronous = FULL")
    day.execute(
        "CREATE TABLE IF NOT EXISTS entries (id INTEGER PRIMARY KEY, event TEXT UNIQUE, entry TEXT)"
    )
    day.execute("BEGIN")
    for entry in itertools.islice(entries(), size):
        insert(day, entry)
    day.execute("COMMIT")
    return day


def insert(day: sqlite3.Connection, entry: dict[str, Any]) -> None:
    day.execute(
        "INSERT INTO entries (event, entry) VALUES (?, ?)", (entry["event"], orjson.dumps(entry))
    )


def stores(place: Path, size: int) -> list[Store]:
    """Ours first, the bare disk next, then the peers; each holds `size` entries."""
    place.mkdir()
    book = day_book(place, size)
    book.append("entries", take(next(entries(size + 1))))
    lines = book.path.read_bytes()
    bare = os.open(place / "bare", os.O_RDWR | os.O_CREAT | os.O_APPEND)
    os.write(bare, lines)
    os.fsync(bare)
    line = max(lines.splitlines(keepends=True)[-8:], key=len)
    wal, rollback = sqlite_day(place, "WAL", size), sqlite_day(place, "DELETE", size)
    documents = {str(entry["id"]): entry for entry in itertools.islice(entries(), size)}
    (place / "stock.json").write_text(json.dumps({"_default": documents}))
    stock = TinyDB(place / "stock.json")

    def append(_entry: dict[str, Any]) -> None:
        os.write(bare, line)
        os.fdatasync(bare)

    return [
        Store("bunchbook", lambda entry: void(book.append("entries", take(entry))), TIMES, []),
        Store(BARE, append, TIMES, []),
        Store(SQLITE, lambda entry: insert(wal, entry), TIMES, []),
        Store("SQLite DELETE", lambda entry: insert(rollback, entry), TIMES, []),
        Store("stock TinyDB", lambda entry: void(stock.insert(entry)), SLOW_TIMES[size], []),
    ]


def void(_result: object) -> None:
    """Takes a result that is of no interest."""


def one_entry(place: Path, size: int) -> list[Row]:
    """One writer, by turns in every store, so that noise falls on all alike."""
    competing = stores(place, size)
    fresh = (entry for entry in entries(size + 100) if entry["kind"] == "check")
    for turn in range(TIMES):
        for store in competing:
            if turn >= store.times:
                continue
            entry = next(fresh)
            time.sleep(PAUSE_S)
            began = time.perf_counter()
            store.write(entry)
            store.taken_s.append(time.perf_counter() - began)
    ours, *peers = competing
    bars = {BARE: 1.25, SQLITE: 1.0}
    return [
        Row(
            f"entry saved at {size:,}", 1e6 * median(ours.taken_s), "µs",
            peer.name, 1e6 * median(peer.taken_s), bars.get(peer.name),
        )
        for peer in peers
    ] + [
        Row(
            f"  99 of 100 saved within, at {size:,}", 1e6 * p99(ours.taken_s), "µs",
            peer.name, 1e6 * p99(peer.taken_s),
        )
        for peer in peers[:2]
    ]  # fmt: skip


def p99(taken_s: list[float]) -> float:
    return quantiles(taken_s, n=100)[-1]


def at_once(place: Path, writers: int) -> list[Row]:
    """Several processes that write as fast as they can, ours and SQLite's by turns."""
    place.mkdir()
    day_book(place, 100)
    sqlite_day(place, "WAL", 100).close()
    each_s: dict[str, list[float]] = {"ours": [], "sqlite": []}
    late_s: dict[str, list[float]] = {"ours": [], "sqlite": []}
    for turn in range(3):
        for kind in each_s:
            elapsed_s, taken_s = burst(place, kind, writers, turn)
            each_s[kind].append(elapsed_s / len(taken_s))
            late_s[kind].append(p99(taken_s))
    name = f"{writers} writing at once" if writers > 1 else "1 writing on and on"
    ours, theirs = (1e6 * median(each_s[kind]) for kind in ("ours", "sqlite"))
    late, their_late = (1e6 * median(late_s[kind]) for kind in ("ours", "sqlite"))
    most = writers == max(WRITERS)
    return [
        Row(f"{name}, an entry", ours, "µs", SQLITE, theirs, 1 / 1.5 if most else None),
        Row("  99 of 100 saved within", late, "µs", SQLITE, their_late, 1.0 if most else None),
    ]


def burst(place: Path, kind: str, writers: int, turn: int) -> tuple[float, list[float]]:
    """From the first start to the last end, and what each entry took, in seconds."""
    crew = [
        subprocess.Popen(
            [sys.executable, "-m", "tests.bench.store", kind, str(place), f"{n + 100 * turn}",
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


def writer(kind: str, place: Path, seed: int, count: int) -> None:
    """One process of a burst: it waits for the word, writes, and tells its times."""
    write: Write
    if kind == "ours":
        book = Folder(place, wait_s=60.0).day(DAY)
        book.follow()
        write = lambda entry: void(book.append("entries", take(entry)))  # noqa: E731
    else:
        day = sqlite_day(place, "WAL", 0)
        write = lambda entry: insert(day, entry)  # noqa: E731
    mine = list(itertools.islice(entries(1_000_000 * (seed + 1)), count))
    print("ready", flush=True)
    sys.stdin.readline()
    began, taken_s = time.monotonic(), []
    for entry in mine:
        start = time.perf_counter()
        write(entry)
        taken_s.append(time.perf_counter() - start)
    print(json.dumps({"began": began, "ended": time.monotonic(), "taken": taken_s}))


def opening(place: Path) -> list[Row]:
    """A day read whole, by turns with SQLite's rows and with the lines as bare JSON."""
    place.mkdir()
    path = day_book(place, OPENED).path
    sqlite_day(place, "WAL", OPENED).close()

    def ours() -> None:
        book = Folder(place).day(DAY)
        assert len(book.news().changes) == OPENED
        book.close()

    def rows() -> None:
        day = sqlite3.connect(place / "WAL.sqlite")
        read = [orjson.loads(row) for (row,) in day.execute("SELECT entry FROM entries")]
        assert len(read) == OPENED
        day.close()

    def lines() -> None:
        read = [orjson.loads(line) for line in path.read_bytes().splitlines()]
        assert len(read) == OPENED + 1

    book_s, sqlite_s, bare_s = by_turns(9, ours, rows, lines)
    name = f"opening {OPENED:,}"
    return [
        Row(name, 1e3 * book_s, "ms", "the promise", 1e3 * OPEN_PROMISED_S, 1.0),
        Row(name, 1e3 * book_s, "ms", "SQLite, its rows from JSON", 1e3 * sqlite_s),
        Row(name, 1e3 * book_s, "ms", "the lines as JSON, unchecked", 1e3 * bare_s),
    ]


def following(place: Path) -> list[Row]:
    """A look at a day of 15,000 where nothing is new, and where one entry is."""
    place.mkdir()
    here = day_book(place, 15_000)
    there = Folder(place).day(DAY)
    day = sqlite_day(place, "WAL", 15_000)
    there.follow()
    fresh = entries(50_000)

    def count() -> None:
        day.execute("SELECT max(id) FROM entries").fetchone()

    def after_one() -> float:
        here.append("entries", take(next(fresh)))
        began = time.perf_counter()
        assert there.follow()
        return time.perf_counter() - began

    one_s = median(after_one() for _ in range(50))
    idle_s, asked_s = by_turns(200, lambda: void(there.follow()), count)
    return [
        Row("looking, nothing new", 1e6 * idle_s, "µs", "SQLite, its last id", 1e6 * asked_s),
        Row("looking, one new", 1e6 * one_s, "µs", "SQLite, its last id", 1e6 * asked_s),
    ]


def by_turns(times: int, *actions: Callable[[], None]) -> list[float]:
    """The median seconds of each action."""
    taken: list[list[float]] = [[] for _ in actions]
    for _ in range(times):
        for action, into in zip(actions, taken, strict=True):
            began = time.perf_counter()
            action()
            into.append(time.perf_counter() - began)
    return [median(each) for each in taken]


if __name__ == "__main__":
    writer(sys.argv[1], Path(sys.argv[2]), int(sys.argv[3]), int(sys.argv[4]))
