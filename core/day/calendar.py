"""Clock times and the house's working day."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable

Clock = Callable[[], dt.datetime]


def stamp(now: dt.datetime) -> tuple[str, int]:
    """An aware time as records keep it: UTC ending in Z, and the minutes east of it."""
    offset = now.utcoffset() or dt.timedelta(0)
    utc = now.astimezone(dt.UTC).isoformat(timespec="milliseconds")
    return utc.replace("+00:00", "Z"), int(offset.total_seconds()) // 60


def local(at: str, offset: int) -> dt.datetime:
    """The time an entry was made, on the clock of the terminal that made it."""
    zone = dt.timezone(dt.timedelta(minutes=offset))
    return dt.datetime.fromisoformat(at).astimezone(zone)


def working_day(now: dt.datetime, day_begins: str) -> dt.date:
    """The house's day at `now`; before `day_begins` (HH:MM) the night shift's day still runs."""
    hours, minutes = map(int, day_begins.split(":"))
    return (now - dt.timedelta(hours=hours, minutes=minutes)).date()
