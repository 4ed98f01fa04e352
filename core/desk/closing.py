"""What to know before a day is closed, in one sentence."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence

from core.day.report import DayReport
from core.desk.faces import BenchLine

NAMED = 6
"""Benches named before only their number is told."""


def closing_words(board: Sequence[BenchLine], report: DayReport, now: dt.datetime) -> str:
    """Open checks, late weigh-ins, good against quota, and leaf that nothing explains."""
    waiting = [line.number for line in board if line.open]
    late = [line.number for line in board if line.due is not None and line.due < now]
    quota = sum(line.quota or 0 for line in board)
    beyond = [f"{row.leaf} {row.unexplained_g:+.0f} g" for row in report.leaf if row.beyond]
    said = [
        f"good {report.totals.good} of {quota}" if quota else f"good {report.totals.good}",
        *([f"late {_benches(late)}"] if late else []),
        *([f"check open at {_benches(waiting)}"] if waiting else []),
        *([f"leaf beyond what the checks can tell: {', '.join(beyond)}"] if beyond else []),
    ]
    return "; ".join(said)


def _benches(numbers: Sequence[str]) -> str:
    return ", ".join(numbers) if len(numbers) <= NAMED else f"{len(numbers)} benches"
