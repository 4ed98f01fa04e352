"""Dates as people read them; what is typed, recorded or read by programs is ISO 8601."""

from __future__ import annotations

import datetime as dt

from core.say import Said, say, say_as

_MONTHS = (
    *(say_as("month", "Jan"), say_as("month", "Feb"), say_as("month", "Mar")),
    *(say_as("month", "Apr"), say_as("month", "May"), say_as("month", "Jun")),
    *(say_as("month", "Jul"), say_as("month", "Aug"), say_as("month", "Sep")),
    *(say_as("month", "Oct"), say_as("month", "Nov"), say_as("month", "Dec")),
)


def short_date(date: dt.date, seen: dt.date | None = None) -> Said:
    """The day and its month, as `2 May`; with the year where that is not the year of `seen`."""
    month = _MONTHS[date.month - 1]
    if seen is None or date.year == seen.year:
        return say("{day} {month}", day=date.day, month=month)
    return say("{day} {month} {year}", day=date.day, month=month, year=date.year)
