"""What an acknowledged entry costs, beside the bare disk and what people would use instead."""

from __future__ import annotations

import itertools
import json
import os
import sqlite3
import time
from collections.abc import Callable
from pathlib import Path
from statistics import median
from typing import Any, NamedTuple

import duckdb
import orjson
from tinydb import TinyDB

from core.records.book import Book
from core.records.folder import Folder
from tests.bench.crew import MOST, at_once
from tests.bench.peers import (
    DAY,
    SQLITE,
    Write,
    day_book,
    duckdb_day,
    entries,
    insert,
    insert_there,
    p99,
    sqlite_day,
    take,
    void,
)
from tests.bench.row import Row

SIZES = (0, 1_000, 15_000, 60_000)
RUN = 20
TIMES = 15 * RUN
SLOW_TIMES = {0: 20, 1_000: 10, 15_000: 3, 60_000: 1}
MOST_IN_DUCKDB = 15_000
"""It takes a millisecond to take each of them in, and no longer to add one to more of them."""
PAUSE_S = 0.001
"""Before every write, whoever's it is, as between entries: a disk kept busy answers faster."""
WRITERS = (1, 4, MOST)
OPENED = 20_000
OPEN_PROMISED_S = 0.100
BARE = "bare append + fdatasync"


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
    columns = duckdb_day(place / "columns.duckdb", min(size, MOST_IN_DUCKDB))

    def append(_entry: dict[str, Any]) -> None:
        os.write(bare, line)
        os.fdatasync(bare)

    return [
        Store("bunchbook", lambda entry: void(book.append("entries", take(entry))), TIMES, []),
        Store(BARE, append, TIMES, []),
        Store(SQLITE, lambda entry: insert(wal, entry), TIMES, []),
        Store("SQLite DELETE", lambda entry: insert(rollback, entry), TIMES, []),
        Store("DuckDB", lambda entry: insert_there(columns, entry), TIMES, []),
        Store("stock TinyDB", lambda entry: void(stock.insert(entry)), SLOW_TIMES[size], []),
    ]


def one_entry(place: Path, size: int) -> list[Row]:
    """One writer, some entries in every store by turns, so that noise falls on all alike."""
    competing = stores(place, size)
    fresh = (entry for entry in entries(size + 100) if entry["kind"] == "check")
    for turn in range(0, TIMES, RUN):
        for store in competing:
            for _ in range(turn, min(turn + RUN, store.times)):
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


def opening(place: Path) -> list[Row]:
    """A day read whole, by turns with SQLite's rows and with the lines as bare JSON."""
    place.mkdir()
    path = day_book(place, OPENED).path
    sqlite_day(place, "WAL", OPENED).close()
    duckdb_day(place / "columns.duckdb", MOST_IN_DUCKDB).close()
    documents = {str(entry["id"]): entry for entry in itertools.islice(entries(), OPENED)}
    (place / "stock.json").write_text(json.dumps({"_default": documents}))

    books: list[Book] = []

    def ours() -> None:
        books.append(Folder(place).day(DAY))
        assert len(books[-1].news().changes) == OPENED

    def rows() -> None:
        day = sqlite3.connect(place / "WAL.sqlite")
        read = [orjson.loads(row) for (row,) in day.execute("SELECT entry FROM entries")]
        assert len(read) == OPENED
        day.close()

    def in_duckdb() -> None:
        with duckdb.connect(str(place / "columns.duckdb"), read_only=True) as day:
            read = [orjson.loads(row) for (row,) in day.sql("SELECT entry FROM entries").fetchall()]
        assert len(read) == MOST_IN_DUCKDB

    def stock() -> None:
        with TinyDB(place / "stock.json") as day:
            assert len(day) == OPENED

    def lines() -> None:
        read = [orjson.loads(line) for line in path.read_bytes().splitlines()]
        assert len(read) == OPENED + 1

    peers = by_turns(9, ours, rows, in_duckdb, stock, lines)
    book_s, sqlite_s, duckdb_s, stock_s, bare_s = peers
    name = f"opening {OPENED:,}"
    return [
        Row(name, 1e3 * book_s, "ms", "the promise", 1e3 * OPEN_PROMISED_S, 1.0),
        Row(name, 1e3 * book_s, "ms", "SQLite, its rows from JSON", 1e3 * sqlite_s),
        Row(name, 1e3 * book_s, "ms", "DuckDB, 15,000 from JSON", 1e3 * duckdb_s),
        Row(name, 1e3 * book_s, "ms", "stock TinyDB", 1e3 * stock_s),
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
