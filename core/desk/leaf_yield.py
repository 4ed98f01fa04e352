"""The leaf yield as measured over the last closed days, for what a thousand costs."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING

from core.day.calendar import stamp
from core.day.trend import trend
from core.desk.summaries import span

if TYPE_CHECKING:
    from core.desk.today import Today

DAYS = 30
"""How far back a yield still tells of today's leaf and hands: common practice, no source."""


def measured_yield(today: Today) -> float | None:
    """Filler in good cigars ÷ filler used over the days closed lately; None where none tells."""
    first = today.day - dt.timedelta(DAYS)
    kept = span(today.folder, first, today.day, until=stamp(today.now())[0]).kept
    totals = trend(kept, ()).totals
    return None if totals is None else totals.figures.leaf_yield
