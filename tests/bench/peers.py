"""A day of entries to measure on, ours and in the stores that people would use instead."""

from __future__ import annotations

import datetime as dt
import itertools
import random
import sqlite3
from collections.abc import Callable, Iterator
from pathlib import Path
from statistics import quantiles
from typing import Any

import duckdb
import orjson

from core.records.book import Book
from core.records.folder import Folder

DAY = dt.date(2026, 5, 4)
SQLITE = "SQLite WAL FULL"

Write = Callable[[dict[str, Any]], None]


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


def sqlite_reading_on(day: sqlite3.Connection) -> Write:
    """Before an entry it takes in what others entered, to judge by the latest state."""
    seen: dict[int, Any] = {}

    def write(entry: dict[str, Any]) -> None:
        day.execute("BEGIN IMMEDIATE")
        last = next(reversed(seen), 0)
        for number, text in day.execute("SELECT id, entry FROM entries WHERE id > ?", [last]):
            seen[number] = orjson.loads(text)
        insert(day, entry)
        day.execute("COMMIT")

    return write


def duckdb_day(path: Path, size: int) -> duckdb.DuckDBPyConnection:
    """The same in DuckDB, which syncs each entry as it is committed."""
    day = duckdb.connect(str(path))
    day.execute("CREATE TABLE entries (event VARCHAR, entry VARCHAR)")
    day.execute("BEGIN")
    for entry in itertools.islice(entries(), size):
        insert_there(day, entry)
    day.execute("COMMIT")
    return day


def insert_there(day: duckdb.DuckDBPyConnection, entry: dict[str, Any]) -> None:
    day.execute("INSERT INTO entries VALUES (?, ?)", [entry["event"], orjson.dumps(entry).decode()])


def void(_result: object) -> None:
    """Takes a result that is of no interest."""


def p99(taken_s: list[float]) -> float:
    return quantiles(taken_s, n=100)[-1]
