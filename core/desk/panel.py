"""The panel at one desk: its newest session, read from the year books, and what is added to it.

A session and all that belongs to it stand in the book of the year it was opened in, beside the
summaries of closed days, whose readers pass over it.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Mapping
from typing import TYPE_CHECKING, Any, NamedTuple, cast

from core.day.calendar import local, working_day
from core.day.calendar import stamp as stamped
from core.panel.compose import composed
from core.panel.judge import Judged, judged
from core.panel.line import Open, Request, Score, read
from core.panel.session import (
    FORMAT,
    TRAIT_WORDS,
    Document,
    Kept,
    Scored,
    Session,
    sessions,
)
from core.problems import BadInput
from core.say import Said, joined, say

if TYPE_CHECKING:
    from core.day.room import Stamp
    from core.desk.shelf import Shelf
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
        house, version = self._smoked(request, house, version, stamp)
        books = self._books(year)
        session = _newest(books)
        if isinstance(request, Open) or session is None:
            book = self._folder.year(year)
        else:
            book = next(each for each in books if session in _sessions(each))
        kept = _kept(stamp, version)

        told: Said | None = None

        def make(_number: int) -> dict[str, Any]:
            nonlocal told
            now = next(iter(reversed(_sessions(book))), None)  # others may have added to it
            document = composed(request, now, house, kept)
            told = _says(document, request, now)
            return cast(dict[str, Any], document)

        document = cast("Document", book.append(PANEL, make, stamp.event))
        number = next(n for n, each in _documents(book) if each.get("event") == stamp.event)
        says = told or _says(document, request, None)  # it was kept at an earlier try
        return Added(number, say("saved, panel {number}: {says}", number=number, says=says))

    def asked(self, text: str, at: int) -> Request | Unread:
        """What the text, from that column of the line on, asks of the panel."""
        return read(text, at)

    def would(self, request: Request, house: HouseBook, version: int, stamp: Stamp) -> str:
        """What keeping it would say; BadInput says why it cannot be kept."""
        sheet = self.sheet(int(stamp.at[:4]))
        session = None if sheet is None else sheet.session
        house, version = self._smoked(request, house, version, stamp)
        document = composed(request, session, house, _kept(stamp, version))
        return _says(document, request, session)

    def _smoked(
        self, request: Request, house: HouseBook, version: int, stamp: Stamp
    ) -> tuple[HouseBook, int]:
        """The house book the cigars of a session are of: what it names, else that in force."""
        if not isinstance(request, Open) or request.book is None:
            return house, version
        from core.desk.shelf import Shelf  # noqa: PLC0415 - the desk has its own

        shelf = Shelf(self._folder)
        named = request.book
        if isinstance(named, dt.date):
            named = _in_force(shelf, named, house.house.day_begins, stamp)
        if named not in tuple(shelf):  # for one it lacks it gives the nearest
            raise BadInput(
                say(
                    "there is no house book {named}; the versions are 1 to {last}",
                    named=named,
                    last=max(shelf),
                )
            )
        return shelf[named], named

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


def _in_force(shelf: Shelf, made: dt.date, day_begins: str, now: Stamp) -> int:
    """The version in force as that working day ended; BadInput where none was, or will be."""
    at = local(now.at, now.offset)
    if made > working_day(at, day_begins):
        raise BadInput(say("{day} has not come yet", day=made.isoformat()))
    hours, minutes = map(int, day_begins.split(":"))
    ends = dt.datetime.combine(made + dt.timedelta(days=1), dt.time(hours, minutes), at.tzinfo)
    loaded = {number: str(shelf.source(number)["at"]) for number in shelf}
    found = max((n for n, when in loaded.items() if when < stamped(ends)[0]), default=None)
    if found is None:
        first = local(min(loaded.values()), now.offset)
        raise BadInput(
            say(
                "no house book was in force on {day}; the first was loaded on {first}",
                day=made.isoformat(),
                first=first.date().isoformat(),
            )
        )
    return found


def _says(document: Document, request: Request, session: Session | None) -> Said:
    """The document in words; a score under the code it was typed with, which may be blind."""
    if document["kind"] == "open":
        codes = joined(", ", document["codes"])
        values = {
            "blend": document["blend"],
            "house": document["house"],
            "chosen": document["chosen"],
            "codes": codes,
        }
        if document["blind"]:
            return say(
                "panel on {blend}, house book {house}, against {chosen}: codes {codes}, blind",
                **values,
            )
        return say("panel on {blend}, house book {house}, against {chosen}: {codes}", **values)
    if document["kind"] == "score" and isinstance(request, Score):
        return _score_says(document, request.code, session)
    if document["kind"] == "note":
        return say("note: {text}", text=document["text"])
    return say("the codes are told")


def _score_says(document: Scored, code: str, session: Session | None) -> Said:
    """The scores, and those they take the place of."""
    taster, vitola = document["taster"], document["vitola"]
    codes = session.codes if session else ()
    code = next((each for each in codes if each.casefold() == code.casefold()), code)
    now = _scores(document["scores"])
    before = {
        trait: score
        for (by, of, trait), score in (session.scores if session else {}).items()
        if (by, of) == (taster, vitola) and document["scores"].get(trait, score) != score
    }
    if not before:
        return say("{taster} scores {code}: {scores}", taster=taster, code=code, scores=now)
    return say(
        "{taster} scores {code}: {scores}; before: {before}",
        taster=taster,
        code=code,
        scores=now,
        before=_scores(before),
    )


def _scores(scores: Mapping[str, float]) -> Said:
    return joined(
        ", ",
        (
            joined(" ", (TRAIT_WORDS.get(trait, trait), f"{score:g}"))
            for trait, score in scores.items()
        ),
    )
