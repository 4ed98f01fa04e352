"""What the day costs when it is full: its figures, and the page to print."""

from __future__ import annotations

import gc
import json
import random
import sqlite3
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

from core.day.report import DayReport
from core.day.tally import add_up
from core.desk.desk import Desk
from floor.commands.day import page
from tests.bench.row import Row, interleaved
from tests.bench.trend import timed
from tests.bench.workshop import NOON, desk

ENTRIES = 20_000
PAGE_PROMISED_S = 0.050
PRINTED_PROMISED_S = 0.5
TIMES = 7
ROUND = ("check",) * 9 + ("made",) * 4 + ("good",) * 3 + ("fail", "take", "back", "scrap")
"""What a bench's entries are, in the order of a day."""


def measure(place: Path) -> list[Row]:
    """Beside the promises, SQLite's sums of the same columns, and the report as plain JSON."""
    folder = place / "full"
    opened = desk(folder)
    entries = list(_entries(opened))
    opened.enter("note the day begins", None)
    opened.folder.day(opened.day).append_many("entries", [_take(each) for each in entries])
    opened.follow()
    gc.collect()
    gc.freeze()  # as the floor does once its day is open
    opened.board()
    report = _report(opened)
    sums = _in_columns(entries)

    def figures() -> None:
        assert len(_report(opened).benches) == 300

    def in_sqlite() -> None:
        assert len(sums.execute(_SUMS).fetchall()) > 300

    def printed() -> float:
        fresh = Desk(folder, lambda: NOON, "T1")
        fresh.board()
        return timed(lambda: _prints(fresh))()

    def as_json() -> None:
        assert json.dumps(report.model_dump())

    ours_s, sqlite_s = interleaved(TIMES, timed(figures), timed(in_sqlite))
    printed_s, json_s = interleaved(TIMES, printed, timed(as_json))
    gc.unfreeze()
    what, paper = f"the day's figures of {ENTRIES:,}", f"the page to print of {ENTRIES:,}"
    return [
        Row(what, 1e3 * ours_s, "ms", "the promise", 1e3 * PAGE_PROMISED_S, 1.0),
        Row(what, 1e3 * ours_s, "ms", "SQLite, its sums by bench and leaf", 1e3 * sqlite_s),
        Row(paper, 1e3 * printed_s, "ms", "the promise", 1e3 * PRINTED_PROMISED_S, 1.0),
        Row(paper, 1e3 * printed_s, "ms", "the report as JSON", 1e3 * json_s),
    ]  # fmt: skip


def _report(opened: Desk) -> DayReport:
    """The day's report, added up anew."""
    return add_up(
        opened.ledger,
        house=opened.loaded,
        date=opened.day,
        version=opened.house_version,
        packed=opened.filler_g,
    ).report


def _prints(opened: Desk) -> None:
    assert page(opened).startswith("<!DOCTYPE html>")


def _take(entry: dict[str, Any]) -> Callable[[int], dict[str, Any]]:
    return lambda number: entry | {"id": number}


def _entries(opened: Desk) -> Iterator[dict[str, Any]]:
    """A day's entries at 300 benches, bench by bench in turn."""
    dice = random.Random(7)
    house = opened.loaded
    cards = [(bench.number, opened.card(bench.number)) for bench in house.benches]
    fillers = list(house.filler)
    for n in range(ENTRIES - 1):
        bench, card = cards[n % len(cards)]
        kind = ROUND[n // len(cards) % len(ROUND)]
        entry: dict[str, Any] = {
            "at": "2026-05-04T09:00:00.000Z", "offset": 0, "event": f"{n:016x}",
            "terminal": "T2", "house": 1, "bench": bench, "blend": card.blend,
            "vitola": card.vitola, "kind": kind,
        }  # fmt: skip
        if kind == "check":
            target = card.targets["bunch"]
            entry |= {
                "measure": "bunch", "standard": 0.99, "target": target.target_g,
                "low": target.low_g, "high": target.high_g,
                "readings": [round(dice.gauss(target.target_g, 0.2), 1) for _ in range(5)],
            }  # fmt: skip
        elif kind == "fail":
            entry["faults"] = {"torn": 2, "plugged": 1}
        elif kind in ("take", "back", "scrap"):
            leaf = fillers[(n // 300 + int(bench)) % len(fillers)]
            entry |= {"leaf": leaf, "grams": round(dice.uniform(50, 900), 1), "moisture": 0.14}
        else:
            entry["n"] = 25
        yield entry


_SUMS = """
    SELECT bench, leaf, sum(n), sum(grams * (1 - moisture)), count(mean),
        sum(mean - target), sum((mean - target) * (mean - target))
    FROM entries GROUP BY bench, leaf
"""


def _in_columns(entries: list[dict[str, Any]]) -> sqlite3.Connection:
    """The entries in memory, in columns, each check's mean worked out."""
    day = sqlite3.connect(":memory:")
    day.execute("CREATE TABLE entries (bench, leaf, n, grams, moisture, mean, target)")
    rows = (
        (
            each["bench"], each.get("leaf"), each.get("n"), each.get("grams"),
            each.get("moisture"), sum(each["readings"]) / 5 if "readings" in each else None,
            each.get("target"),
        )
        for each in entries
    )  # fmt: skip
    day.executemany("INSERT INTO entries VALUES (?, ?, ?, ?, ?, ?, ?)", rows)
    return day
