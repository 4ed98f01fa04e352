"""The panel at one desk: its newest session, read from the year books, and what is added to it.

A session and all that belongs to it stand in the book of the year it was opened in, beside the
summaries of closed days, whose readers pass over it.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING, Any, NamedTuple, cast

from core.panel.compose import composed
from core.panel.judge import Judged, judged
from core.panel.line import Open, Remark, Request, Reveal, Score
from core.panel.session import FORMAT, Kept, Session, sessions

if TYPE_CHECKING:
    from core.day.room import Stamp
    from core.house.model import HouseBook
    from core.records.book import Book
    from core.records.folder import Folder

PANEL = "panel"
"""A year book's table: a document for each session, score, note and telling of codes."""

YEARS = 2
"""How many years' books are looked through for the newest session: this one and the last."""


class PanelSheet(NamedTuple):
    """A session, and what its scores say, trait by trait."""

    session: Session
    traits: tuple[Judged, ...]


class Kept_(NamedTuple):
    """A document of the panel that is safe on the disk, in words."""

    number: int
    says: str


class PanelBook:
    """The panel's documents in a data folder. `until` leaves out what was added later."""

    def __init__(self, folder: Folder) -> None:
        self._folder = folder
        self._seen: dict[int, tuple[str, PanelSheet | None]] = {}

    def newest(self, year: int, until: str | None = None) -> PanelSheet | None:
        """The newest session of the year or the one before. StoreUnusable as records are."""
        for each in self._years(year):
            sheet = self._sheet(each, until)
            if sheet is not None:
                return sheet
        return None

    def _years(self, year: int) -> Iterable[int]:
        kept = self._folder.years()
        return (each for each in range(year, year - YEARS, -1) if each in kept)

    def _sheet(self, year: int, until: str | None) -> PanelSheet | None:
        book = self._folder.year(year)
        book.follow()
        if until is not None:
            return _sheet(_sessions(book, until))
        seen = self._seen.get(year)
        if seen is None or seen[0] != book.end:
            seen = self._seen[year] = (book.end, _sheet(_sessions(book)))
        return seen[1]
