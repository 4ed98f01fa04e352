"""The closed days' summaries in the year books: written at a day's ends, read for trends.

A trend of years must not wait for the days' own books: of those only the names are read.
"""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING, Any, NamedTuple, cast

from core.day.summary import SUMMARY, BookEnd, DayOpened, DaySummary, as_kept
from core.problems import Problem, StoreUnusable
from core.say import say

if TYPE_CHECKING:
    from core.records.book import Book
    from core.records.folder import Folder

SUMMARIES = "summaries"
"""A year book's table: a document each time a day is closed or opened again."""

Kept = DaySummary | DayOpened


class Span(NamedTuple):
    """The newest summary of each day of a span, by its date, and the days' books without one.

    `damaged` counts lines of the year books that cannot be read.
    """

    kept: dict[str, Kept]
    unclosed: tuple[str, ...]
    damaged: int


class _MovedOn(Exception):
    """The day's book is no longer what was summed up."""


def span(folder: Folder, first: dt.date, last: dt.date, until: str | None = None) -> Span:
    """The days from `first` to `last`, as of `until` (UTC, as entries keep it).

    StoreUnusable where one was summed up by a newer version of this program.
    """
    kept: dict[str, Kept] = {}
    damaged = 0
    begins, ends = first.isoformat(), last.isoformat()
    for year in folder.years():
        if first.year <= year <= last.year:
            summaries, unread = _read(folder.year(year))
            damaged += unread
            for each in summaries:
                if begins <= each["date"] <= ends and (until is None or each["at"] <= until):
                    kept[each["date"]] = each
    days = (day.isoformat() for day in folder.days() if first <= day <= last)
    return Span(kept, tuple(day for day in days if day not in kept), damaged)


def is_kept(folder: Folder, date: dt.date) -> bool:
    """Whether a closed day has a summary, and of its book as it stands."""
    summaries, _ = _read(folder.year(date.year))
    newest = next((s for s in reversed(summaries) if s["date"] == date.isoformat()), None)
    return newest is not None and newest["closed"] and newest["end"] == book_end(folder, date).end


def book_end(folder: Folder, date: dt.date) -> BookEnd:
    """Where the day's book ends, as far as it has been read here."""
    book = folder.day(date)
    return BookEnd(book.lines, book.end)


def keep(folder: Folder, date: dt.date, summary: Kept) -> bool:
    """Keep what is summed up of a day, durable on return; False if its book has moved on.

    Then another terminal has opened the day again since, and its word is the later one.
    """
    day = folder.day(date)

    def make(_number: int) -> dict[str, Any]:
        if day.follow():
            day.sync()  # a line that a power cut may still take must not be vouched for
        if day.end != summary["end"]:
            raise _MovedOn
        return cast(dict[str, Any], summary)

    try:
        folder.year(date.year).append(SUMMARIES, make)
    except _MovedOn:
        return False
    return True


def _read(book: Book) -> tuple[list[Kept], int]:
    """A year's summaries as they were kept, and how many lines or documents are none."""
    found: list[Kept] = []
    strange = 0
    for table, number, document in book.news().changes:
        if table != SUMMARIES or document is None:
            continue
        written = document.get("summary")
        if isinstance(written, int) and written > SUMMARY:
            raise StoreUnusable(
                Problem(
                    say("{path}: summary {number}", path=book.path, number=number),
                    say(
                        "written by a newer version of this program (summary format {written}; "
                        "this one reads up to {known}): update this program; nothing was changed",
                        written=written,
                        known=SUMMARY,
                    ),
                )
            )
        kept = as_kept(document)
        if kept is None:
            strange += 1
        else:
            found.append(kept)
    return found, strange + len(book.damage)
