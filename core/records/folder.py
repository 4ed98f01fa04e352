"""The data folder: one house book, a book per working day and per year, one latch for all."""

from __future__ import annotations

import contextlib
import datetime as dt
import os
import time
from collections.abc import Iterator
from pathlib import Path

from core.records.book import Book
from core.records.disk import unusable
from core.records.latch import LOOK_EVERY_S, Latch
from core.records.lines import FORMAT
from core.say import say

RESTORING = "restoring-"
"""How the folder of a restore at work begins; it is gone when the restore is complete."""


class Folder:
    """The books of a house. A folder that is not there reads as an empty one.

    `latch` is held while a copy is taken; see `replacing` for putting one back.
    """

    def __init__(self, path: Path, wait_s: float = 5.0) -> None:
        self.path = path
        self.latch = Latch(path / "latch", wait_s)
        self._house: Book | None = None
        self._days: dict[dt.date, Book] = {}
        self._years: dict[int, Book] = {}

    def house(self) -> Book:
        """The house book: house-book versions, lots, stock."""
        if self._house is None:
            self._house = open_book(self.path / "house.jsonl", self.latch)
        return self._house

    def day(self, day: dt.date) -> Book:
        """The book of a working day, be there one yet or not."""
        if day not in self._days:
            path = self.path / "days" / f"{day}.jsonl"
            self._days[day] = Book(path, head_of(path.name), self.latch, keeps_room=True)
        return self._days[day]

    def year(self, year: int) -> Book:
        """The book of a year's closed days, be there one yet or not."""
        if year not in self._years:
            self._years[year] = open_book(self.path / "years" / f"{year:04}.jsonl", self.latch)
        return self._years[year]

    def days(self) -> tuple[dt.date, ...]:
        """The days that have a book, oldest first."""
        return tuple(sorted(filter(None, map(_day_of, self._names("days")))))

    def years(self) -> tuple[int, ...]:
        """The years that have a book, oldest first."""
        return tuple(sorted(filter(None, map(_year_of, self._names("years")))))

    def books(self) -> tuple[str, ...]:
        """The names, within the folder, of all books there are: house, days, years."""
        house = ("house.jsonl",) if (self.path / "house.jsonl").exists() else ()
        days = (f"days/{day}.jsonl" for day in self.days())
        return (*house, *days, *(f"years/{year:04}.jsonl" for year in self.years()))

    def unfinished(self) -> tuple[Path, ...]:
        """What restores that were broken off have left: see `core.records.restore`."""
        return tuple(sorted(self.path.glob(f"{RESTORING}*")))

    def name(self, book: Book) -> str:
        """The book's name within the folder."""
        return book.path.relative_to(self.path).as_posix()

    def _names(self, kind: str) -> list[str]:
        folder = self.path / kind
        try:
            return os.listdir(folder)  # noqa: PTH208 - names only
        except FileNotFoundError:
            return []
        except OSError as error:
            raise unusable(error, folder, say("list the {kind} in it", kind=kind)) from error

    def latest_before(self, day: dt.date) -> dt.date | None:
        """The last day before `day` that has a book."""
        return max((each for each in self.days() if each < day), default=None)

    @contextlib.contextmanager
    def replacing(self) -> Iterator[None]:
        """Hold all writers off while files are put in place, until they will look for them."""
        with self.latch:
            yield
            time.sleep(2 * LOOK_EVERY_S)

    def close(self) -> None:
        """Give all files back; the next use reads from the start."""
        for book in (self._house, *self._days.values(), *self._years.values()):
            if book is not None:
                book.close()
        self.latch.close()


def open_book(path: Path, latch: Latch) -> Book:
    """The book at `path`, which is named for its day or year, or `house.jsonl`."""
    return Book(path, head_of(path.name), latch)


def head_of(file: str) -> dict[str, object]:
    """What the head of a book in a file of that name says."""
    day, year = _day_of(file), _year_of(file)
    what: dict[str, object] = {"kind": "house"}
    if day is not None:
        what = {"kind": "day", "day": day.isoformat()}
    elif year is not None:
        what = {"kind": "year", "year": year}
    return {"format": FORMAT, **what}


def is_book(name: str) -> bool:
    """Whether a book has this name within a data folder: each is spelt in one way only."""
    kind, _, file = name.rpartition("/")
    if kind == "days":
        return _day_of(file) is not None
    return _year_of(file) is not None if kind == "years" else name == "house.jsonl"


def _day_of(name: str) -> dt.date | None:
    stem, _, ending = name.partition(".")
    try:
        day = dt.date.fromisoformat(stem)
    except ValueError:
        return None
    return day if ending == "jsonl" and day.isoformat() == stem else None


def _year_of(name: str) -> int | None:
    stem, _, ending = name.partition(".")
    whole = len(stem) == 4 and stem.isascii() and stem.isdigit()
    return int(stem) if whole and ending == "jsonl" else None
