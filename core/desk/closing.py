"""What to know before a day is closed, in one sentence."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence

from core.day.report import DayReport, LeafDay
from core.desk.faces import BenchLine

NAMED_LEAVES = 2
NAMED = 6
"""Benches named before only their number is told."""


def closing_words(board: Sequence[BenchLine], report: DayReport, now: dt.datetime) -> str:
    """Open checks, late weigh-ins, good against quota, and leaf that nothing explains."""
    waiting = [line.number for line in board if line.open]
    late = [line.number for line in board if line.due is not None and line.due < now]
    quota = sum(line.quota or 0 for line in board)
    beyond = sorted(
        (row for row in report.leaf if row.beyond), key=lambda row: -abs(row.unexplained_g)
    )
    said = [
        f"good {report.totals.good} of {quota}" if quota else f"good {report.totals.good}",
        *([f"late {_benches(late)}"] if late else []),
        *([f"check open at {_benches(waiting)}"] if waiting else []),
        *([_beyond(beyond)] if beyond else []),
    ]
    return "; ".join(said)


def _benches(numbers: Sequence[str]) -> str:
    return ", ".join(numbers) if len(numbers) <= NAMED else f"{len(numbers)} benches"


def _beyond(rows: Sequence[LeafDay]) -> str:
    """The leaf that is unexplained beyond what the checks can tell; the most of it by name."""
    named = ", ".join(f"{row.leaf} {row.unexplained_g:+.0f} g" for row in rows[:NAMED_LEAVES])
    more = f" and {len(rows) - NAMED_LEAVES} more" if len(rows) > NAMED_LEAVES else ""
    return f"unexplained {named}{more}"
