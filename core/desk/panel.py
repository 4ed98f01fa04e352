"""The panel at one desk: its newest session, read from the year books, and what is added to it.

A session and all that belongs to it stand in the book of the year it was opened in, beside the
summaries of closed days, whose readers pass over it.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING, Any, NamedTuple, cast

from core.panel.compose import composed
from core.panel.judge import Judged, judged
from core.panel.line import Open, Request, Score, read
from core.panel.session import FORMAT, Document, Kept, Session, sessions

if TYPE_CHECKING:
    from core.day.room import Stamp
    from core.entry.requests import Unread
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


class Added(NamedTuple):
    """A document of the panel that is safe on the disk: its number in the year's book."""

    number: int
    says: str


class _Asked(NamedTuple):
    """A sheet, what it was asked of, and where those books then ended."""

    year: int
    until: str | None
    ends: tuple[str, ...]
    sheet: PanelSheet | None


class Panel:
    """The panel's documents in a data folder."""

    def __init__(self, folder: Folder) -> None:
        self._folder = folder
        self._asked: _Asked | None = None

    def sheet(self, year: int, until: str | None = None) -> PanelSheet | None:
        """The newest session of the year or the one before; as of `until` (UTC) where given.

        StoreUnusable where it cannot be read.
        """
        books = self._books(year)
        ends = tuple(book.end for book in books)
        if self._asked is None or self._asked[:3] != (year, until, ends):
            session = _newest(books, until)
            sheet = None if session is None else PanelSheet(session, judged(session))
            self._asked = _Asked(year, until, ends, sheet)
        return self._asked.sheet

    def follow(self) -> bool:
        """Whether something was added since the sheet was last asked for, here or elsewhere."""
        if self._asked is None:
            return False
        before = self._asked
        self.sheet(before.year, before.until)
        return self._asked is not before

    def add(self, request: Request, house: HouseBook, version: int, stamp: Stamp) -> Added:
        """Keep it, durable on return. BadInput and StoreUnusable say why it is not kept."""
        year = int(stamp.at[:4])
        books = self._books(year)
        session = _newest(books)
        if isinstance(request, Open) or session is None:
            book = self._folder.year(year)
        else:
            book = next(each for each in books if session in _sessions(each))
        kept = _kept(stamp, version)

        def make(_number: int) -> dict[str, Any]:
            now = next(iter(reversed(_sessions(book))), None)  # others may have added to it
            return cast(dict[str, Any], composed(request, now, house, kept))

        document = cast("Document", book.append(PANEL, make, stamp.event))
        number = next(n for n, each in _documents(book) if each.get("event") == stamp.event)
        return Added(number, f"saved, panel {number}: {_says(document, request)}")

    def asked(self, text: str, at: int) -> Request | Unread:
        """What the text, from that column of the line on, asks of the panel."""
        return read(text, at)

    def would(self, request: Request, house: HouseBook, version: int, stamp: Stamp) -> str:
        """What keeping it would say; BadInput says why it cannot be kept."""
        sheet = self.sheet(int(stamp.at[:4]))
        session = None if sheet is None else sheet.session
        return _says(composed(request, session, house, _kept(stamp, version)), request)

    def _books(self, year: int) -> list[Book]:
        """The newest first, with what others added to them."""
        kept = self._folder.years()
        books = [self._folder.year(y) for y in range(year, year - YEARS, -1) if y in kept]
        for book in books:
            book.follow()
        return books


def _kept(stamp: Stamp, version: int) -> Kept:
    return {
        "format": FORMAT,
        "at": stamp.at,
        "offset": stamp.offset,
        "event": stamp.event,
        "terminal": stamp.terminal,
        "who": stamp.who,
        "house": version,
    }


def _newest(books: Iterable[Book], until: str | None = None) -> Session | None:
    found = (session for book in books for session in reversed(_sessions(book, until)))
    return next(found, None)


def _sessions(book: Book, until: str | None = None) -> tuple[Session, ...]:
    return sessions(
        (n, d) for n, d in _documents(book) if until is None or d.get("at", "") <= until
    )


def _documents(book: Book) -> list[tuple[int, dict[str, Any]]]:
    changes = book.news(look=False).changes
    return [(n, d) for table, n, d in changes if table == PANEL and d is not None]


def _says(document: Document, request: Request) -> str:
    """The document in words; a score under the code it was typed with, which may be blind."""
    if document["kind"] == "open":
        codes = document["codes"]
        named = f"codes {', '.join(codes)}, blind" if document["blind"] else ", ".join(codes)
        return f"panel on {document['blend']}, against {document['chosen']}: {named}"
    if document["kind"] == "score" and isinstance(request, Score):
        scores = ", ".join(f"{trait} {score:g}" for trait, score in document["scores"].items())
        return f"{document['taster']} scores {request.code}: {scores}"
    return f"note: {document['text']}" if document["kind"] == "note" else "the codes are told"
