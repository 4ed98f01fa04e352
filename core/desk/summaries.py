"""The closed days' summaries in the year books: written at a day's ends, read for trends.

A trend of years must not wait for the days' own books: of those only the names are read.
"""

from __future__ import annotations

import datetime as dt
import itertools
from typing import TYPE_CHECKING, Any, NamedTuple, cast

from core.day.months import MonthSums, as_month, lacking
from core.day.summary import SUMMARY, BookEnd, DayOpened, DaySummary, as_kept
from core.problems import Problem, StoreUnusable
from core.say import say

if TYPE_CHECKING:
    from collections.abc import Mapping

    from core.records.book import Book, Make
    from core.records.folder import Folder

SUMMARIES = "summaries"
"""A year book's table: a document each time a day is closed or opened again."""

MONTHS = "months"
"""A year book's table: a document each time the sums of a month that is over are kept."""

DECEMBER = 12

Kept = DaySummary | DayOpened


class Span(NamedTuple):
    """The newest summary of each day of a span, by its date, and the days' books without one.

    `damaged` counts lines of the year books that cannot be read. `months` are the newest sums
    of each month, as 2026-04, that some days of the span are in, whether they hold or not.
    """

    kept: dict[str, Kept]
    unclosed: tuple[str, ...]
    damaged: int
    months: dict[str, MonthSums]


class _Read(NamedTuple):
    """A year's documents as they were kept; `damaged` counts what is none."""

    summaries: list[Kept]
    months: list[MonthSums]
    damaged: int


class _MovedOn(Exception):
    """The day's book is no longer what was summed up."""


def span(folder: Folder, first: dt.date, last: dt.date, until: str | None = None) -> Span:
    """The days from `first` to `last`, as of `until` (UTC, as entries keep it).

    StoreUnusable where one was summed up by a newer version of this program.
    """
    kept: dict[str, Kept] = {}
    months: dict[str, MonthSums] = {}
    damaged = 0
    begins, ends = first.isoformat(), last.isoformat()
    for year in folder.years():
        if first.year <= year <= last.year:
            read = _read(folder.year(year))
            damaged += read.damaged
            for each in read.summaries:
                if begins <= each["date"] <= ends and (until is None or each["at"] <= until):
                    kept[each["date"]] = each
            months |= {sums["month"]: sums for sums in read.months}
    days = (day.isoformat() for day in folder.days() if first <= day <= last)
    return Span(kept, tuple(day for day in days if day not in kept), damaged, months)


def keep_months(folder: Folder, date: dt.date) -> None:
    """Keep the sums of the months that are over, after the day was closed: see core.day.months.

    StoreUnusable where they cannot be kept; the next closing makes up for it.
    """
    kept: dict[str, Kept] = {}
    months: dict[str, MonthSums] = {}
    begins = date.replace(day=1).isoformat()
    for year in (date.year, date.year - 1, date.year + 1):
        if year < date.year and any(day < begins for day in kept):
            continue  # what was over then has been added up since
        if year > date.year and date.month < DECEMBER:
            continue
        read = _read(folder.year(year))
        kept |= {each["date"]: each for each in read.summaries}
        months |= {each["month"]: each for each in read.months}
    for year, sums in itertools.groupby(lacking(kept, months), lambda each: each["month"][:4]):
        folder.year(int(year)).append_many(MONTHS, map(_given, sums))


def _given(sums: MonthSums) -> Make:
    return lambda _number: cast("dict[str, Any]", sums)


def is_kept(folder: Folder, date: dt.date) -> bool:
    """Whether a closed day has a summary, and of its book as it stands."""
    summaries = reversed(_read(folder.year(date.year)).summaries)
    newest = next((s for s in summaries if s["date"] == date.isoformat()), None)
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


def _read(book: Book) -> _Read:
    """StoreUnusable where a newer version of this program kept a summary in it."""
    summaries: list[Kept] = []
    months: list[MonthSums] = []
    strange, year = 0, f"{book.path.stem}-"
    for table, number, document in book.news().changes:
        if document is None or table not in (SUMMARIES, MONTHS):
            continue
        if table == MONTHS:
            sums = as_month(document)
            if sums is not None and sums["month"].startswith(year):
                months.append(sums)
            continue
        _refuse_newer(book, number, document)
        kept = as_kept(document)
        if kept is None or not kept["date"].startswith(year):
            strange += 1
        else:
            summaries.append(kept)
    return _Read(summaries, months, strange + len(book.damage))


def _refuse_newer(book: Book, number: int, document: Mapping[str, Any]) -> None:
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
