"""The last weeks' trend as the floor shows it, read again only when a year book has grown."""

from __future__ import annotations

import datetime as dt
from pathlib import Path
from typing import NamedTuple

from core.day.parts import Parts, parts
from core.day.trend import Trend, closed_days, trend
from core.desk.summaries import span
from core.records.folder import Folder

WEEKS = 4


class Weeks(NamedTuple):
    """The days of the last weeks, and the closed ones by vitola, bench and buncher."""

    first: dt.date
    told: Trend
    by: Parts


class LastWeeks:
    """Four weeks up to a day: the ISO week that it is in, and the three before."""

    def __init__(self) -> None:
        self._seen: tuple[object, ...] = ()
        self._weeks: Weeks | None = None

    def until(self, place: Path, day: dt.date) -> Weeks:
        """The weeks as they are kept now. StoreUnusable where they cannot be read."""
        years = (place / "years").glob("*.jsonl")
        sizes = sorted((file.name, file.stat().st_size) for file in years)
        seen = (place, day, *sizes)
        if self._weeks is None or seen != self._seen:
            first = day - dt.timedelta(day.weekday() + 7 * (WEEKS - 1))
            folder = Folder(place)
            found = span(folder, first, day)
            folder.close()
            unclosed = [date for date in found.unclosed if date != day.isoformat()]
            by = parts(closed_days(found.kept), found.months)
            self._weeks = Weeks(first, trend(found.kept, unclosed), by)
            self._seen = seen
        return self._weeks
