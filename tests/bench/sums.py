"""The sums of a day and of a year as SQLite and DuckDB are asked for them."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterable, Iterator, Mapping
from pathlib import Path
from typing import Any

import duckdb

from core.day.summary import DaySummary
from tests.bench.year import COLUMNS, rows

NAMES = ("date", "bench", "vitola", *COLUMNS)
KINDS = ("VARCHAR",) * 3 + ("BIGINT",) * 7 + ("DOUBLE",) * 3 + ("BIGINT",) * 3 + ("DOUBLE",) * 2
_SUMS = ", ".join(f"sum({column})" for column in COLUMNS)
TREND = tuple(f"SELECT {by}, {_SUMS} FROM runs GROUP BY {by}" for by in NAMES[:3])
"""By day, by bench and by vitola."""

_DAY = """
    SELECT bench, blend, vitola, sum(n), count(mean),
        sum(least < low - 1e-9 OR greatest > high + 1e-9),
        sum(mean - target), sum((mean - target) * (mean - target))
    FROM {entries} GROUP BY bench, blend, vitola
"""
DAY = _DAY.format(entries="entries")
"""Bunches made, checks, checks out, and the sums of their deviations, by run."""

DAY_OF_LINES = _DAY.replace("sum(least", "count_if(least").format(
    entries="""(
        SELECT e->>'bench' AS bench, e->>'blend' AS blend, e->>'vitola' AS vitola,
            CAST(e->>'n' AS BIGINT) AS n, CAST(e->>'target' AS DOUBLE) AS target,
            CAST(e->>'low' AS DOUBLE) AS low, CAST(e->>'high' AS DOUBLE) AS high,
            list_avg(readings) AS mean, list_min(readings) AS least, list_max(readings) AS greatest
        FROM (
            SELECT e, CAST(e->'readings' AS DOUBLE[]) AS readings FROM (
                SELECT unnest(json_extract(line, '$.*.entries.*')) AS e
                FROM read_csv(?, columns = {'line': 'VARCHAR'}, delim = '\\x01', quote = '',
                    escape = '', header = false)
            )
        )
    )"""
)
"""The same of a journal's own lines."""


def sqlite_year(path: Path, days: Iterable[DaySummary]) -> Path:
    """A file of the days' runs, a row each."""
    made = sqlite3.connect(path)
    made.execute(f"CREATE TABLE runs ({', '.join(NAMES)})")
    made.executemany(f"INSERT INTO runs VALUES ({_marks(len(NAMES))})", rows(days))
    made.commit()
    made.close()
    return path


def duckdb_year(path: Path, days: Iterable[DaySummary]) -> Path:
    """The same as columns."""
    table = path.with_suffix(".csv")
    table.write_text("\n".join(",".join(map(str, row)) for row in rows(days)), "utf-8")
    made = duckdb.connect(str(path))
    columns = (f"{name} {kind}" for name, kind in zip(NAMES, KINDS, strict=True))
    made.execute(f"CREATE TABLE runs ({', '.join(columns)})")
    made.execute(f"COPY runs FROM '{table}' (HEADER false)")
    made.close()
    return path


def sqlite_day(entries: Iterable[Mapping[str, Any]]) -> sqlite3.Connection:
    """A day's entries in memory, in columns, each check's mean, least and greatest worked out."""
    day = sqlite3.connect(":memory:")
    names = (
        "bench", "blend", "vitola", "n", "target", "low", "high", "mean", "least", "greatest",
    )  # fmt: skip
    day.execute(f"CREATE TABLE entries ({', '.join(names)})")
    day.executemany(f"INSERT INTO entries VALUES ({_marks(len(names))})", _columns(entries))
    return day


def _columns(entries: Iterable[Mapping[str, Any]]) -> Iterator[tuple[Any, ...]]:
    for entry in entries:
        if "bench" in entry:
            readings = entry.get("readings", ())
            told = (sum(readings) / len(readings), min(readings), max(readings)) if readings else ()
            plain = ("bench", "blend", "vitola", "n", "target", "low", "high")
            yield (*map(entry.get, plain), *(told or (None,) * 3))


def _marks(columns: int) -> str:
    return ", ".join("?" * columns)
