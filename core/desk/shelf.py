"""The house book's versions as loaded, in the records' house journal."""

from __future__ import annotations

import datetime as dt
import hashlib
from collections.abc import Iterator, Mapping
from typing import Any, NamedTuple

from core.day.calendar import stamp
from core.house.model import HouseBook
from core.house.stored import restore, store
from core.problems import StoreUnusable
from core.records.book import START
from core.records.folder import Folder
from core.say import say

VERSIONS = "versions"


class Loaded(NamedTuple):
    """A version taken in, or found to be the one already there."""

    version: int
    new: bool


class _Known(Exception):
    """The house book to be loaded is the newest version already."""

    def __init__(self, version: int) -> None:
        super().__init__(version)
        self.version = version


class Shelf(Mapping[int, HouseBook]):
    """Every house-book version, read when first asked for; the text is kept as it was typed."""

    def __init__(self, folder: Folder) -> None:
        self._book = folder.house()
        self._documents: dict[int, dict[str, Any]] = {}
        self._houses: dict[int, HouseBook] = {}
        self._cursor = START
        self.follow()

    def follow(self) -> bool:
        """Take in versions loaded elsewhere; whether there were any, or others in their place."""
        news = self._book.news(self._cursor)
        self._cursor = news.cursor
        if news.restarted:
            self._documents.clear()
            self._houses.clear()
        loaded = {
            number: document
            for table, number, document in news.changes
            if table == VERSIONS and document is not None
        }
        self._documents |= loaded
        return bool(loaded) or news.restarted

    def version_at(self, moment: dt.datetime | None) -> int:
        """The version in force: the newest, or the newest loaded by `moment`; 0 without any.

        A moment before the first load is asked of the newest: there was no other then.
        """
        if not self._documents:
            return 0
        newest = max(self._documents)
        if moment is None:
            return newest
        asked, _ = stamp(moment)
        return max((n for n, d in self._documents.items() if d["at"] <= asked), default=newest)

    def __iter__(self) -> Iterator[int]:
        return iter(self._documents)

    def __len__(self) -> int:
        return len(self._documents)

    @property
    def damaged(self) -> int:
        """Lines of the house's records that cannot be read: a version may be among them."""
        return len(self._book.damage)

    def __getitem__(self, version: int) -> HouseBook:
        """The version's house; of one that damage has taken, the nearest before it, or after.

        Entries name the version they were judged by, and must be readable without it.
        """
        if version not in self._documents:
            version = self._nearest(version)
        if version not in self._houses:
            document = self._documents[version]
            try:
                self._houses[version] = restore(document["house"])
            except (KeyError, TypeError, ValueError, AttributeError) as error:
                raise StoreUnusable(
                    say(
                        "house book version {version} cannot be read from the records ({error}); "
                        "if a newer version of this program wrote it, update this one; else load "
                        "it again: bunchbook house load FILE",
                        version=version,
                        error=type(error).__name__,
                    )
                ) from error
        return self._houses[version]

    def _nearest(self, version: int) -> int:
        if not self._documents:
            raise KeyError(version)
        earlier = [known for known in self._documents if known < version]
        return max(earlier) if earlier else min(self._documents)

    def source(self, version: int) -> dict[str, Any]:
        """What was loaded: `toml` text, `file`, `at` (UTC), `sha` of the text."""
        return {k: v for k, v in self._documents[version].items() if k != "house"}

    def load(self, house: HouseBook, text: str, file: str, now: dt.datetime) -> Loaded:
        """Keep a checked house book as the next version, unless it is the newest already."""
        sha = hashlib.sha256(text.encode()).hexdigest()
        at, offset = stamp(now)
        document = {
            "at": at,
            "offset": offset,
            "file": file,
            "sha": sha,
            "toml": text,
            "house": store(house),
        }
        numbers: list[int] = []

        def make(number: int) -> dict[str, Any]:
            self.follow()  # another terminal may be loading the same
            newest = self.version_at(None)
            if newest and self._documents[newest].get("sha") == sha:
                raise _Known(newest)
            numbers.append(number)
            return document

        try:
            self._book.append(VERSIONS, make)
        except _Known as known:
            return Loaded(known.version, new=False)
        self.follow()
        return Loaded(numbers[-1], new=True)
