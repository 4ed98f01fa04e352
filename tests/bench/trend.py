"""What summing up a day and a year's trend cost, beside SQLite's and DuckDB's sums of the same."""

from __future__ import annotations

import datetime as dt
import sqlite3
import time
from collections.abc import Callable, Sequence
from pathlib import Path

import duckdb

from core.day.parts import parts
from core.day.summing import summary
from core.day.tally import add_up
from core.day.trend import closed_days, trend
from core.desk.desk import Desk
from core.desk.summaries import book_end, keep_months, span
from core.records.folder import Folder
from tests.bench.commands import seconds
from tests.bench.row import Row, interleaved
from tests.bench.sums import DAY, DAY_OF_LINES, TREND, duckdb_year, sqlite_day, sqlite_year
from tests.bench.workshop import NOON, desk, fill
from tests.bench.year import BENCHES, DAYS, YEAR, keep, year

TREND_PROMISED_S = 0.200
SUMMARY_PROMISED_S = 0.030
ENTRIES = 20_000
TIMES = 7


def measure(place: Path) -> list[Row]:
    """Both, in about half a minute."""
    here = place / "trend"
    here.mkdir()
    return [*of_a_year(here), *of_a_day(here)]


def of_a_year(place: Path) -> list[Row]:
    """By day, vitola and bench: in this process, and as a command from nothing."""
    days = list(year())
    folder = keep(place / "year", days)
    daily = keep(place / "daily", days)
    keep_months(Folder(folder), dt.date.fromisoformat(days[-1]["date"]))
    rows = sqlite_year(place / "year.sqlite", days)
    columns = duckdb_year(place / "year.duckdb", days)
    first, last = dt.date(YEAR, 1, 1), dt.date(YEAR, 12, 31)

    def ours(of: Path = folder) -> None:
        found = span(Folder(of), first, last)
        assert trend(found.kept, found.unclosed).closed == DAYS
        assert len(parts(closed_days(found.kept), found.months).by_bench) == BENCHES

    def in_sqlite() -> None:
        there = sqlite3.connect(rows)
        assert [len(there.execute(ask).fetchall()) for ask in TREND] == [DAYS, BENCHES, 8]
        there.close()

    def in_duckdb() -> None:
        with duckdb.connect(str(columns), read_only=True) as there:
            assert [len(there.execute(ask).fetchall()) for ask in TREND] == [DAYS, BENCHES, 8]

    asked = ["days", first.isoformat(), last.isoformat(), "--json", "--data", str(folder)]
    cold = interleaved(
        TIMES,
        seconds("-c", "from floor.main import run; run()", *asked),
        seconds("-c", _script("sqlite3", f"sqlite3.connect({str(rows)!r})")),
        seconds("-c", _script("duckdb", f"duckdb.connect({str(columns)!r}, read_only=True)")),
    )
    warm = interleaved(TIMES, timed(ours), timed(in_sqlite), timed(in_duckdb))
    by_day = interleaved(TIMES, timed(lambda: ours(daily)), timed(in_sqlite))
    ours_ms, theirs_ms = (1e3 * each for each in by_day)
    name = f"{DAYS} days × {BENCHES} benches"
    return [
        *_beside(f"trend of {name}", warm, TREND_PROMISED_S, ("SQLite, rows", "DuckDB")),
        Row("… of which no month's sums are kept yet", ours_ms, "ms", "SQLite, rows", theirs_ms),
        *_beside(f"cold days, {name}", cold, TREND_PROMISED_S, ("SQLite, rows", "DuckDB")),
    ]


def of_a_day(place: Path) -> list[Row]:
    """A day's summary from its open book: its checks not judged yet, and judged before."""
    folder = place / "day"
    fill(desk(folder), ENTRIES)
    in_columns = sqlite_day(map(dict, Desk(folder, lambda: NOON, "T1").ledger.entries.values()))
    opened = Desk(folder, lambda: NOON, "T1")
    opened.close_day()
    journal = str(opened.folder.day(opened.day).path)

    def first() -> float:
        fresh = Desk(folder, lambda: NOON, "T1")
        fresh.board()
        return timed(lambda: summed_up(fresh))()

    def in_sqlite() -> None:
        assert len(in_columns.execute(DAY).fetchall()) == BENCHES

    def in_duckdb() -> None:
        with duckdb.connect() as there:
            assert len(there.execute(DAY_OF_LINES, [journal]).fetchall()) >= BENCHES

    again = timed(lambda: summed_up(opened))
    taken = interleaved(TIMES, first, again, timed(in_sqlite), timed(in_duckdb))
    first_s, again_s, *peers = taken
    name, others = f"summary of {ENTRIES:,}", ("SQLite, columns", "DuckDB, the lines")
    return [
        *_beside(f"{name}, checks judged anew", [first_s, *peers], SUMMARY_PROMISED_S, others),
        *_beside(f"{name}, judged before", [again_s, *peers], SUMMARY_PROMISED_S, others),
    ]


def summed_up(opened: Desk) -> None:
    """What `close` works out before it writes."""
    version, ledger = opened.house_version, opened.ledger
    day = add_up(
        ledger, house=opened.loaded, date=opened.day, version=version, packed=opened.filler_g
    )
    end = book_end(opened.folder, opened.day)
    summary(day, ledger, version=version, book=end)


def timed(action: Callable[[], None]) -> Callable[[], float]:
    """Does it, and says how many seconds it took."""

    def run() -> float:
        began = time.perf_counter()
        action()
        return time.perf_counter() - began

    return run


def _script(module: str, connect: str) -> str:
    """A Python that prints the trend as JSON from that store."""
    return (
        f"import json, {module}\nthere = {connect}\n"
        f"print(json.dumps([there.execute(ask).fetchall() for ask in {TREND!r}]))"
    )


def _beside(
    name: str, taken_s: Sequence[float], promised_s: float, peers: tuple[str, str]
) -> list[Row]:
    """Ours beside the promise, then beside each peer."""
    ours, *theirs = (1e3 * each for each in taken_s)
    return [
        Row(name, ours, "ms", "the promise", 1e3 * promised_s, 1.0),
        *(Row(name, ours, "ms", peer, took) for peer, took in zip(peers, theirs, strict=True)),
    ]
