"""The desk: one terminal's day. Both front ends ask it everything."""

from __future__ import annotations

import contextlib
import datetime as dt
from collections.abc import Callable
from itertools import islice
from pathlib import Path
from typing import TYPE_CHECKING, cast

from core import checks
from core.day import compose, judging, tally
from core.day.bench import CheckMade
from core.day.calendar import Clock, local
from core.day.calendar import stamp as stamped
from core.day.doubts import doubt
from core.day.late import is_late, since_close
from core.day.room import CLOSED, Room, Stamp
from core.day.summing import last_close, opened, summary
from core.desk.bench_only import BenchOnly
from core.desk.benchline import seen
from core.desk.closing import closing_words
from core.desk.faces import (
    AsksPin,
    Go,
    LogLine,
    Meaning,
    Mistake,
    NotSaved,
    OpenCheck,
    Outcome,
    Question,
    Recorded,
    SeenCheck,
    Told,
)
from core.desk.permission import (
    CHANGES_HOUSE,
    CLOSES,
    REOPENS,
    Permission,
    PinNeeded,
    is_anothers,
)
from core.desk.says import already, begun, check_done, counted_today, describe
from core.desk.summaries import book_end, is_kept, keep
from core.desk.today import NO_HOUSE
from core.desk.unconfirmed import Unconfirmed
from core.desk.watch import Watch
from core.entry import requests as ask
from core.entry.complete import complete
from core.entry.parse import parse
from core.house.model import HouseBook, Language
from core.measure import MEASURES
from core.problems import BadInput, StoreUnusable, UserError
from core.say import joined, say

if TYPE_CHECKING:
    from core.day.entries import Entry
    from core.day.report import DayReport
    from core.desk.line import Line
    from core.desk.line_save import Written
    from core.desk.panel import Panel, PanelSheet


class _Doubtful(Exception):
    """Raised inside a recording to leave it unwritten until somebody says it is so."""

    def __init__(self, says: str) -> None:
        super().__init__(says)
        self.says = says


class Desk(Watch):
    """Today at one terminal: what it asks, what is typed at it, what it records."""

    def __init__(
        self,
        folder: Path,
        clock: Clock,
        terminal: str,
        who: str | None = None,
        *,
        date: dt.date | None = None,
        as_of: bool = False,
        real: Clock | None = None,
        only: str | None = None,
    ) -> None:
        """`real` is the time it is where `clock` tells another; `only` the one bench shown."""
        self._terminal = terminal
        self._who = who
        self._only = None if only is None else BenchOnly(only)
        self._unconfirmed = Unconfirmed()
        self._begun: ask.Begin | None = None
        super().__init__(folder, clock, date=date, as_of=as_of)
        self._permission = Permission(self.folder, self.shelf, real or clock)
        self._kept_panel: Panel | None = None
        self._kept_line: Line | None = None

    def follow(self) -> frozenset[str] | None:
        news = super().follow()
        asked = self._kept_panel is not None and self._panel.follow()
        return frozenset({"", *(news or ())}) if asked else news

    @property
    def _panel(self) -> Panel:
        if self._kept_panel is None:
            from core.desk.panel import Panel  # noqa: PLC0415 - most desks ask for none

            self._kept_panel = Panel(self.folder)
        return self._kept_panel

    @property
    def line(self) -> Line:
        """The blend looked at, and what is tried on it."""
        if self._kept_line is None:
            from core.desk.line import Line  # noqa: PLC0415 - most desks ask for none

            self._kept_line = Line(self)
        return self._kept_line

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
            return complete(line, self.house, at, language)
        return self._only.complete(line, self.house, self.ledger, self.house_version, language)

    def _read(self, line: str, at: str | None) -> ask.Parsed | ask.Unread:
        if self._only is None:
            return parse(line, self.loaded, at)
        return self._only.read(line, self.loaded, self.ledger, self.house_version)

    # -- what is asked of it --------------------------------------------------------------

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

    def report(self, *, closing: bool = False) -> DayReport:
        """The day added up; with `closing` as it would be if it were closed now."""
        closed = closing or self.closed
        return self._added_up(self.loaded, self.house_version, closed=closed).report

    def _added_up(self, house: HouseBook, version: int, *, closed: bool) -> tally.Added:
        return tally.add_up(
            self.ledger,
            house=house,
            date=self.day,
            version=version,
            packed=self.filler_g,
            closed=closed,
            damaged_lines=self.damaged,
        )

    def panel(self) -> PanelSheet | None:
        """The panel's newest session and what it says; None where there is none."""
        at, _ = stamped(self.now())
        return self._panel.sheet(int(at[:4]), at if self._as_of else None)

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

    # -- the entry line -------------------------------------------------------------------

    def meaning(self, line: str, at: str | None) -> Meaning:
        """What Enter would do with the line, in words; nothing is recorded."""
        if self.house is None:
            return Meaning(NO_HOUSE, ok=False)
        parsed = self._read(line, at)
        if isinstance(parsed, ask.Unread):
            return Meaning(parsed.says, ok=False, at=parsed.at)
        request = parsed.request
        plain = _plain_words(request)
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
        return Meaning(says + self._counted(entry, recorded=False), ok=True)

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

    def _permitted(self, line: str, pin: str | None, do: Callable[[bool], Outcome]) -> Outcome:
        """Do it; where it asks for the PIN, with that, or say that it does."""
        try:
            return do(False)
        except PinNeeded as needed:
            says, line = needed.said, needed.line or line
        if pin is None:
            return AsksPin(line, says)
        try:
            self._permission.check(pin, says)
        except BadInput as wrong:
            return AsksPin(line, says, wrong.said)
        except StoreUnusable as problem:
            return NotSaved(line, problem.said)
        return do(True)

    def _must_be_permitted(self, says: str, *, may: bool, line: str = "") -> None:
        """Go on where somebody may; `line` is what to enter with the PIN, if not the same."""
        try:
            if not may:
                self._permission.check(None, says)
        except PinNeeded as needed:
            needed.line = line
            raise

    def _shown(self, request: ask.OpenBench | ask.Show | ask.Chart, at: str | None) -> Outcome:
        self._begun = None
        if isinstance(request, ask.Show) and request.screen in ("line", "drop"):
            return self._on_line(request)
        return _where(request, at)

    def _named(self, request: ask.Initials) -> Told:
        """Entries carry these initials from here on, at this terminal."""
        self._who = request.who
        return Told(_initials_words(request))

    def _panel_would(self, request: ask.Panel) -> Meaning:
        asked = self._panel.asked(request.text, request.at)
        if isinstance(asked, ask.Unread):
            return Meaning(asked.says, ok=False, at=asked.at)
        try:
            says = self._panel.would(asked, self.loaded, self.house_version, self._stamp(""))
        except UserError as problem:
            return Meaning(problem.said, ok=False)
        return Meaning(says, ok=True)

    def _on_line(self, request: ask.Show) -> Outcome:
        """Look at a blend; or go on looking at it, as it is today."""
        try:
            if request.screen == "line":
                self.line.look_at(request.words)
            self.line.drop()
            return Go("line", None, self.line.blend)
        except BadInput as problem:
            return Mistake(problem.said)

    def _aside(self, request: ask.Panel | ask.Try | ask.Approve) -> Meaning:
        """What is meant by a line that is no entry of the day."""
        if isinstance(request, ask.Panel):
            return self._panel_would(request)
        if isinstance(request, ask.Approve):
            return self._approve_would(request)
        return self._try_would(request)

    def _try_would(self, request: ask.Try) -> Meaning:
        try:
            return Meaning(self.line.would(request.text), ok=True)
        except BadInput as problem:
            return Meaning(problem.said, ok=False, at=request.at)

    def _of_house(
        self, line: str, request: ask.Try | ask.Approve, *, sure: bool, may: bool
    ) -> Outcome:
        """Try, or do, what makes another house book."""
        if isinstance(request, ask.Approve):
            return self._approve(line, request, sure=sure, may=may)
        return self._try(line, request, sure=sure, may=may)

    def _try(self, line: str, request: ask.Try, *, sure: bool, may: bool) -> Outcome:
        self._begun = None
        try:
            if self.line.is_to_save(request.text):
                return self._save_line(line, sure=sure, may=may)
            self.line.try_out(request.text)
        except BadInput as problem:
            return Mistake(problem.said, request.at)
        return Go("line", None, self.line.blend)

    def _save_line(self, line: str, *, sure: bool, may: bool) -> Outcome:
        """Make what is tried the house book in force, once somebody has said that it is meant."""
        says, new = self.line.saving(), self.line.to_save()
        outcome = self._new_house(line, says, new, sure=sure, may=may)
        if isinstance(outcome, Recorded):
            self.line.drop()
        return outcome

    def _approve(self, line: str, request: ask.Approve, *, sure: bool, may: bool) -> Outcome:
        """Make today's checks of a bench approved bunches, once it is said to be meant."""
        from core.desk.approve import approved  # noqa: PLC0415 - most desks approve none

        try:
            found = approved(self, request.bench)
            return self._new_house(line, found.says, found.written, sure=sure, may=may)
        except BadInput as problem:
            return Mistake(problem.said)

    def _approve_would(self, request: ask.Approve) -> Meaning:
        from core.desk.approve import approved  # noqa: PLC0415

        try:
            return Meaning(approved(self, request.bench).says, ok=True)
        except BadInput as problem:
            return Meaning(problem.said, ok=False)

    def _new_house(self, line: str, says: str, new: Written, *, sure: bool, may: bool) -> Outcome:
        from core.desk.line_save import put_in_force  # noqa: PLC0415

        if self._as_of:
            raise BadInput(say("a house book cannot be saved in the past; leave the time out"))
        if not sure:
            return Question(line, says)
        self._must_be_permitted(CHANGES_HOUSE, may=may)
        try:
            version = put_in_force(self, new)
        except StoreUnusable as problem:
            return NotSaved(line, problem.said)
        return Recorded(
            version, None, say("house book version {version} is in force", version=version), "house"
        )

    def _for_panel(self, line: str, at: str | None, request: ask.Panel) -> Outcome:
        """Keep something of the panel; a line not saved keeps its event's name, as entries do."""
        asked = self._panel.asked(request.text, request.at)
        if isinstance(asked, ask.Unread):
            return Mistake(asked.says, asked.at)
        tried = self._unconfirmed.next_try(line, at)
        try:
            stamp = self._stamp(tried.event)
            added = self._panel.add(asked, self.loaded, self.house_version, stamp)
        except BadInput as problem:
            return Mistake(problem.said)
        except StoreUnusable as problem:
            self._unconfirmed.keep(line, at, tried.event, self.now())
            return NotSaved(line, problem.said)
        self._unconfirmed.settle(line, at)
        return Recorded(added.number, None, added.says, "panel")

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
        entry = compose.compose(request, self._room(), stamp, number)
        voided = self._voided(entry)
        if self._only is not None and voided is not None:
            self._only.must_be_own(voided, anothers=is_anothers(voided, stamp))
        return entry

    def _voided(self, entry: Entry) -> Entry | None:
        return self.ledger.entries[entry["voids"]] if entry["kind"] == "undo" else None

    def _entered(
        self, line: str, at: str | None, request: ask.Request, *, sure: bool, may: bool
    ) -> Outcome:
        def make(number: int, stamp: Stamp) -> Entry:
            entry = self._composed(request, stamp, number)
            why = None if sure else doubt(entry, self._room())
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

    def closing(self) -> str:
        """What to know before the day is closed: what is late, open, short or beyond."""
        stock = self.stock().leaves
        return closing_words(self.board(), self.report(closing=True), stock, self.now())

    def close_day(self, pin: str | None = None) -> Outcome:
        """Close the day and keep its summary; its book takes no more entries.

        A day that is closed, and whose summary was lost on the way, gets it now.
        """
        outcome = self._permitted("close", pin, lambda may: self._end("close", "", may=may))
        if isinstance(outcome, Recorded):
            return self._summed_up(outcome)
        if isinstance(outcome, Mistake) and self.house is not None and self.closed:
            return self._made_up_for(outcome)
        return outcome

    def reopen(self, reason: str, pin: str | None = None) -> Outcome:
        """Open a closed day again."""
        return self._permitted("reopen", pin, lambda may: self._end("reopen", reason, may=may))

    def _end(self, kind: str, reason: str, *, may: bool) -> Outcome:
        if self.house is None:
            return Mistake(NO_HOUSE)
        if self._only is not None:
            return Mistake(self._only.says)

        def make(number: int, stamp: Stamp) -> Entry:
            entry = compose.end_of_day(kind, reason, self._room(), stamp, number)
            if kind == "close":
                self._must_have_begun()
            self._must_be_permitted(CLOSES if kind == "close" else REOPENS, may=may)
            if kind == "reopen":
                # First, so that figures which may change are never shown as the last word.
                end = book_end(self.folder, self.day)
                day = self.day.isoformat()
                keep(self.folder, self.day, opened(day, reason, stamp.at, self.ledger, end))
            return entry

        outcome = self._record(kind, make, reopens=kind == "reopen")
        if isinstance(outcome, Question):  # the earlier one may have been undone by its opposite
            return self._record(kind, make, reopens=kind == "reopen")
        return outcome

    def _must_have_begun(self) -> None:
        """Refuse a day without entries or to come: closing must not begin a day."""
        today = self.day_of(self.now())
        if self.day > today:
            raise BadInput(say("{day} has not begun; today is {today}", day=self.day, today=today))
        if not self.ledger.entries and not self.damaged:
            raise BadInput(
                say("nothing was recorded on {day}: there is nothing to close", day=self.day)
            )

    def _summed_up(self, closed: Recorded) -> Outcome:
        """Keep the closed day's summary; the day is closed and says so even where it cannot."""
        try:
            self._keep_summary()
        except StoreUnusable as problem:
            lost = say(
                "the day is closed, by entry {entry}; its summary could not be kept",
                entry=closed.entry,
            )
            return NotSaved(
                "close", say("{lost}: {problem}; close it again", lost=lost, problem=problem.said)
            )
        with contextlib.suppress(StoreUnusable):
            self.folder.day(self.day).give_back_room()
        return self._next_told(closed)

    def _next_told(self, closed: Recorded) -> Recorded:
        """With what the next day began with that a late correction has made wrong."""
        from core.desk.next_day import next_day_words  # noqa: PLC0415 - a day closes once

        try:
            says = next_day_words(
                self.folder, self.day, self.ledger, self.shelf, self.house_version
            )
        except StoreUnusable as problem:
            says = say("the next day could not be compared: {problem}", problem=problem.said)
        return closed._replace(says=joined("; ", (closed.says, says))) if says else closed

    def _made_up_for(self, refused: Mistake) -> Outcome:
        """Keep the summary that a closed day lacks, as when a terminal died before it did."""
        try:
            if is_kept(self.folder, self.day) or not self._keep_summary():
                return refused
        except StoreUnusable as problem:
            return NotSaved("close", problem.said)
        entry = last_close(self.ledger)["id"]
        says = say(
            "the day was closed already, by entry {entry}; its summary, which was missing or not "
            "up to date, is kept now",
            entry=entry,
        )
        return self._next_told(Recorded(entry, None, says, "close"))

    def _keep_summary(self) -> bool:
        """Sum the closed day up by the house book it was closed under, and keep it."""
        end = book_end(self.folder, self.day)
        version = last_close(self.ledger)["house"]
        added = self._added_up(self.shelf[version], version, closed=True)
        summed = summary(added, self.ledger, version=version, book=end)
        return keep(self.folder, self.day, summed)

    def _record(
        self,
        line: str,
        make: Callable[[int, Stamp], Entry],
        at: str | None = None,
        *,
        reopens: bool = False,
    ) -> Outcome:
        """Record what `make` gives; a line that could not be saved keeps its event's name.

        Where that event turns out to be recorded, the line is the same entry tried again soon
        after; later on it is asked whether it is another.
        """
        tried = self._unconfirmed.next_try(line, at)
        late, made = tried.late(self.now()), False

        def judged(number: int) -> Entry:
            nonlocal made
            made = True
            self._take_note()  # what others recorded meanwhile changes cards and seats
            if self._book.ended and not reopens:
                raise BadInput(CLOSED)
            return make(number, self._stamp(tried.event))

        try:
            self._turn()
            entry = self._book.record(judged, tried.event)
        except BadInput as problem:
            return Mistake(problem.said)
        except StoreUnusable as problem:
            self._unconfirmed.keep(line, at, tried.event, self.now())
            return NotSaved(line, problem.said)
        self._unconfirmed.settle(line, at)
        self._take_note()
        if not made and entry["id"] in self.ledger.undone:
            return self._record(line, make, at, reopens=reopens)
        if not made and late:
            return Question(line, already(entry))
        return self._recorded(entry)

    def _recorded(self, entry: Entry) -> Recorded:
        check = self._judged(entry)
        closed = check is not None and check.closed
        if closed or entry["kind"] not in ("reading", "undo"):
            self._begun = None
        if check is not None and closed and entry["kind"] != "check":
            bench = cast(str, entry.get("bench"))
            house, first = self.shelf[entry["house"]], check.id in self.ledger.bench(bench).firsts
            says = check_done(check, bench, house, self._division(entry), first=first)
        else:
            says = describe(entry, self.ledger, self._division(entry))
            says += self._counted(entry, recorded=True)
        return Recorded(
            entry["id"],
            cast(str | None, entry.get("bench")),
            say("saved, entry {id}: {says}", id=entry["id"], says=says),
            entry["kind"],
            check.measure if check else None,
            checks.judge(check.readings, check.window) if check and check.window else None,
            check.window if check else None,
        )

    def _judged(self, entry: Entry) -> CheckMade | None:
        """The check the entry is, belongs to, or closes."""
        if entry["kind"] == "check":
            return self.ledger.bench(entry["bench"]).check(entry["id"])
        if entry["kind"] == "reading" or entry["kind"] == "done":
            return self.ledger.bench(entry["bench"]).check(entry["check"])
        return None

    def _counted(self, entry: Entry, *, recorded: bool) -> str:
        """What a count makes of the bench's day; the entry is not in the ledger before."""
        if entry["kind"] != "made" and entry["kind"] != "good":
            return ""
        runs = self.ledger.bench(entry["bench"]).runs.values()
        total = sum(run.made if entry["kind"] == "made" else run.good for run in runs)
        quota = self.ledger.seat(entry["bench"], self.house_version).quota
        return counted_today(entry["kind"], total + (0 if recorded else entry["n"]), quota)

    # -- what entries are judged by -------------------------------------------------------

    def _room(self) -> Room:
        ended = self._book.ended
        return Room(self.loaded, self.house_version, self.ledger, self.card_of, self._begun, ended)

    def _division(self, entry: Entry) -> float:
        return self.shelf[entry["house"]].house.scale_division_g

    def _stamp(self, event: str) -> Stamp:
        at, offset = stamped(self.now())
        return Stamp(at, offset, event, self._terminal, self._who)


def _plain_words(request: ask.Request) -> str | None:
    """What is done by a line that needs no judging."""
    if isinstance(request, ask.OpenBench):
        return say("open bench {bench}'s card", bench=request.bench)
    if isinstance(request, ask.Reopen):
        return say("open the day again: {reason}", reason=request.reason)
    if isinstance(request, ask.Initials):
        return _initials_words(request)
    if isinstance(request, ask.Show):
        return _SHOWS[request.screen].format(words=request.words)
    return _chart_words(request) if isinstance(request, ask.Chart) else None


def _initials_words(request: ask.Initials) -> str:
    return say("entries of this terminal carry {who} from here on", who=request.who)


def _where(request: ask.OpenBench | ask.Show | ask.Chart, at: str | None) -> Go:
    if isinstance(request, ask.Show):
        return Go(request.screen, at, request.words)
    if isinstance(request, ask.Chart):
        return Go("chart", request.bench, request.measure or "")
    return Go("card", request.bench)


def _chart_words(request: ask.Chart) -> str:
    if not request.measure:
        return say("show bench {bench}'s chart", bench=request.bench)
    name = MEASURES[request.measure]
    return say("show bench {bench}'s chart of {measure}", bench=request.bench, measure=name)


_SHOWS = {
    "board": say("go to the Board"),
    "why": say("show the steps behind this card"),
    "rounds": say("go to the rounds: who is to be weighed next"),
    "leaf": say("go to the Leaf: what is in stock and for how long"),
    "line": say("go to the Line: what holds in which size, and what it costs"),
    "drop": say("go to the Line as it is today"),
    "day": say("go to the Day"),
    "days": say("go to the Days: the last weeks side by side"),
    "panel": say("go to the Panel: does the line taste alike?"),
    "log": say("go to the Log"),
    "help": say("show help"),
    "only": say("list only the benches with: {words}"),
    "sort": say("sort the benches by {words}"),
    "close": say("close the day (asks first)"),
}
