"""The desk: one terminal's day. Both front ends ask it everything."""

from __future__ import annotations

from itertools import islice
from typing import TYPE_CHECKING, cast

from core import checks
from core.day import judging
from core.day.calendar import local
from core.day.late import is_late, since_close
from core.day.room import ALREADY_CLOSED, Stamp
from core.desk.benchline import seen
from core.desk.blending import Blending
from core.desk.faces import (
    Go,
    LogLine,
    Meaning,
    Mistake,
    OpenCheck,
    Outcome,
    Question,
    SeenCheck,
    Told,
)
from core.desk.permission import is_anothers
from core.desk.says import begun, describe
from core.desk.shows import initials_words, plain_words, where
from core.desk.today import NO_HOUSE
from core.entry import requests as ask
from core.house.model import Language
from core.problems import BadInput
from core.say import joined, say

if TYPE_CHECKING:
    from core.day.entries import Entry


class _Doubtful(Exception):
    """Raised inside a recording to leave it unwritten until somebody says it is so."""

    def __init__(self, says: str) -> None:
        super().__init__(says)
        self.says = says


class Desk(Blending):
    """Today at one terminal: what it asks, what is typed at it, what it records."""

    # -- who is at it, and what it is for ---------------------------------------------------

    @property
    def who(self) -> str | None:
        """Whose initials entries carry."""
        return self._who

    @property
    def only(self) -> str | None:
        """The bench this terminal is for alone, if it is."""
        return self._only.bench if self._only else None

    def refuses(self, where: Go) -> str:
        """Why a page is not for this terminal; empty where it is."""
        return self._only.refuses(where.screen, where.bench) if self._only else ""

    def complete(
        self, line: str, at: str | None, language: Language | None = None
    ) -> tuple[str, ...]:
        """Whole lines that complete the last word, of what may be entered here.

        `language` is that of who types; the house's where it is not told.
        """
        if self.house is None:
            return ()
        if self._only is None:
            from core.entry.complete import complete  # noqa: PLC0415 - nothing is typed yet

            return complete(line, self.house, at, language)
        return self._only.complete(line, self.house, self.ledger, self.house_version, language)

    def _read(self, line: str, at: str | None) -> ask.Parsed | ask.Unread:
        if self._only is None:
            from core.entry.parse import parse  # noqa: PLC0415 - nothing is typed yet

            return parse(line, self.loaded, at)
        return self._only.read(line, self.loaded, self.ledger, self.house_version)

    # -- what is asked of it ----------------------------------------------------------------

    def open_check(self, number: str) -> OpenCheck | None:
        """This terminal's check at the bench that still waits for readings, or for its first."""
        check = judging.open_check(self._room(), number, self._terminal)
        if check is None and self._begun is not None and self._begun.bench == number:
            return self._without_readings(self._begun)
        if check is None:
            return None
        window = check.window
        places = tuple(checks.place(r, window) if window else "" for r in check.readings)
        return OpenCheck(
            check.id, check.measure, check.readings, places, check.needs, window,
            check.leaf, check.draw,
        )  # fmt: skip

    def _without_readings(self, what: ask.Begin) -> OpenCheck | None:
        try:
            draw, window = judging.begin(what, self._room(), self._terminal)
        except BadInput:  # what it was begun for is no longer rolled here
            return None
        needs = self.loaded.house.readings
        return OpenCheck(0, what.measure, (), (), needs, window, what.leaf, draw)

    def recent_checks(self, number: str, limit: int = 20) -> tuple[SeenCheck, ...]:
        """The bench's last checks of what it rolls today, oldest first."""
        return tuple(seen(check) for check in self.ledger.bench(number).since_roll[-limit:])

    def log(self, limit: int = 200) -> tuple[LogLine, ...]:
        """The day's last entries, newest first."""
        newest = islice(reversed(self.ledger.entries.values()), limit)
        return tuple(self._log_line(entry) for entry in newest)

    def since_close(self) -> tuple[LogLine, ...]:
        """What was recorded after the day was first closed, oldest first."""
        return tuple(map(self._log_line, since_close(self.ledger)))

    def _log_line(self, entry: Entry) -> LogLine:
        ledger = self.ledger
        undo = ledger.undone.get(entry["id"])
        return LogLine(
            id=entry["id"],
            at=local(entry["at"], entry["offset"]),
            bench=cast(str | None, entry.get("bench")),
            says=describe(entry, ledger, self._division(entry)),
            terminal=entry["terminal"],
            who=entry.get("who"),
            voided_by=undo["id"] if undo else None,
            void_reason=undo.get("reason", "") if undo else "",
            late=is_late(entry, ledger),
        )

    # -- the entry line ---------------------------------------------------------------------

    def meaning(self, line: str, at: str | None) -> Meaning:
        """What Enter would do with the line, in words; nothing is recorded."""
        if self.house is None:
            return Meaning(NO_HOUSE, ok=False)
        parsed = self._read(line, at)
        if isinstance(parsed, ask.Unread):
            return Meaning(parsed.says, ok=False, at=parsed.at)
        request = parsed.request
        if self._is_closed_already(request):
            return Meaning(ALREADY_CLOSED, ok=False)
        plain = plain_words(request)
        if plain is not None:
            return Meaning(plain, ok=True)
        if isinstance(request, ask.Panel | ask.Try | ask.Approve):
            return self._aside(request)
        try:
            if isinstance(request, ask.Begin):
                judged_by = judging.begin(request, self._room(), self._terminal)
                return Meaning(begun(request, self.loaded, *judged_by), ok=True)
            entry = self._composed(request, self._stamp(""), self.ledger.latest + 1)
        except BadInput as problem:
            return Meaning(problem.said, ok=False)
        says = describe(entry, self.ledger, self._division(entry))
        says += self._counted(entry, recorded=False)
        if not parsed.sure and self._why_ask(entry) is not None:
            says = say("{what} (asks first)", what=says)
        return Meaning(says, ok=True)

    def enter(
        self, line: str, at: str | None, sure: bool = False, pin: str | None = None
    ) -> Outcome:
        """Do what the line says. An entry is safe on the disk before this returns it.

        Nothing a user or a disk can do is raised: the outcome says it. `pin` is tried where
        the line asks for the house's.
        """
        if self.house is None:
            return Mistake(NO_HOUSE)
        parsed = self._read(line, at)
        if isinstance(parsed, ask.Unread):
            return Mistake(parsed.says, parsed.at)
        request, sure = parsed.request, sure or parsed.sure
        if isinstance(request, ask.Begin):
            return self._begin(request)
        if isinstance(request, ask.OpenBench | ask.Show | ask.Chart):
            return self._shown(request, at)
        if isinstance(request, ask.Panel):
            return self._for_panel(line, at, request)
        if isinstance(request, ask.Initials):
            return self._named(request)
        if isinstance(request, ask.Done) and self._is_only_begun(request.bench):
            self._begun = None
            return Go("card", request.bench)
        return self._permitted(
            line, pin, lambda may: self._done(line, at, request, sure=sure, may=may)
        )

    def _done(
        self, line: str, at: str | None, request: ask.Request, *, sure: bool, may: bool
    ) -> Outcome:
        """Do what may ask for the PIN; PinNeeded where it does and nobody may."""
        if isinstance(request, ask.Try | ask.Approve):
            return self._of_house(line, request, sure=sure, may=may)
        if isinstance(request, ask.Reopen):
            return self._end("reopen", request.reason, may=may)
        return self._entered(line, at, request, sure=sure, may=may)

    def _shown(self, request: ask.OpenBench | ask.Show | ask.Chart, at: str | None) -> Outcome:
        self._begun = None
        if isinstance(request, ask.Show) and request.screen in ("line", "drop"):
            return self._on_line(request)
        if self._is_closed_already(request):
            return self.close_day()  # which keeps a summary that was lost, and needs no question
        return where(request, at)

    def _is_closed_already(self, request: ask.Request) -> bool:
        closes = isinstance(request, ask.Show) and request.screen == "close"
        return closes and self._only is None and self.closed

    def _named(self, request: ask.Initials) -> Told:
        """Entries carry these initials from here on, at this terminal."""
        self._who = request.who
        return Told(initials_words(request))

    def _begin(self, request: ask.Begin) -> Outcome:
        """Go to the card for the readings of that kind; nothing is recorded before the first."""
        try:
            judging.begin(request, self._room(), self._terminal)
        except BadInput as problem:
            return Mistake(problem.said)
        self._begun = request
        return Go("card", request.bench)

    def _is_only_begun(self, bench: str) -> bool:
        check = self.open_check(bench)
        return check is not None and not check.readings

    def _composed(self, request: ask.Request, stamp: Stamp, number: int) -> Entry:
        """The entry that records it; BadInput also where that is not this terminal's to do."""
        from core.day.compose import compose  # noqa: PLC0415 - nothing is entered yet

        entry = compose(request, self._room(), stamp, number)
        voided = self._voided(entry)
        if self._only is not None and voided is not None:
            self._only.must_be_own(voided, anothers=is_anothers(voided, stamp))
        return entry

    def _why_ask(self, entry: Entry) -> str | None:
        """Why the entry is asked about before it is recorded, if it is."""
        from core.day.doubts import doubt  # noqa: PLC0415 - nothing is entered yet

        return doubt(entry, self._room())

    def _voided(self, entry: Entry) -> Entry | None:
        return self.ledger.entries[entry["voids"]] if entry["kind"] == "undo" else None

    def _entered(
        self, line: str, at: str | None, request: ask.Request, *, sure: bool, may: bool
    ) -> Outcome:
        def make(number: int, stamp: Stamp) -> Entry:
            entry = self._composed(request, stamp, number)
            why = None if sure else self._why_ask(entry)
            if why is not None:
                words = describe(entry, self.ledger, self._division(entry))
                raise _Doubtful(joined(": ", (why, words)))
            voided = self._voided(entry)
            if voided is not None and is_anothers(voided, stamp):
                self._must_be_permitted(
                    say("to void entry {entry}, which is another's", entry=voided["id"]),
                    may=may,
                    line=f"undo {voided['id']} {entry.get('reason', '')}".rstrip() + "!",
                )
            return entry

        try:
            return self._record(line, make, at)
        except _Doubtful as question:
            return Question(line, question.says)
