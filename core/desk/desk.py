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
from core.day.entries import Entry
from core.day.late import is_late, since_close
from core.day.report import DayReport
from core.day.room import CLOSED, Room, Stamp
from core.day.summing import last_close, opened, summary
from core.desk.benchline import seen
from core.desk.closing import closing_words
from core.desk.faces import (
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
)
from core.desk.says import already, begun, check_done, counted_today, describe
from core.desk.summaries import book_end, is_kept, keep
from core.desk.today import NO_HOUSE
from core.desk.unconfirmed import Unconfirmed
from core.desk.watch import Watch
from core.entry import requests as ask
from core.entry.parse import parse
from core.house.model import HouseBook
from core.problems import BadInput, StoreUnusable, UserError

if TYPE_CHECKING:
    from core.desk.line import Line
    from core.desk.line_save import Written
    from core.desk.panel import Panel, PanelSheet


class _Doubtful(Exception):
    """Raised inside a recording to leave it unwritten until somebody says it is so."""


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
    ) -> None:
        self._terminal = terminal
        self._who = who
        self._unconfirmed = Unconfirmed()
        self._begun: ask.Begin | None = None
        super().__init__(folder, clock, date=date, as_of=as_of)
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
        parsed = parse(line, self.house, at)
        if isinstance(parsed, ask.Unread):
            return Meaning(parsed.says, ok=False, at=parsed.at)
        request = parsed.request
        if isinstance(request, ask.OpenBench):
            return Meaning(f"open bench {request.bench}'s card", ok=True)
        if isinstance(request, ask.Reopen):
            return Meaning(f"open the day again: {request.reason}", ok=True)
        if isinstance(request, ask.Show):
            return Meaning(_SHOWS[request.screen].format(words=request.words), ok=True)
        if isinstance(request, ask.Chart):
            of = f" of {request.measure}" if request.measure else ""
            return Meaning(f"show bench {request.bench}'s chart{of}", ok=True)
        if isinstance(request, ask.Panel | ask.Try | ask.Approve):
            return self._aside(request)
        try:
            if isinstance(request, ask.Begin):
                judged_by = judging.begin(request, self._room(), self._terminal)
                return Meaning(begun(request, self.loaded, *judged_by), ok=True)
            stamp = self._stamp("")
            entry = compose.compose(request, self._room(), stamp, self.ledger.latest + 1)
        except BadInput as problem:
            return Meaning(str(problem), ok=False)
        says = describe(entry, self.ledger, self._division(entry))
        return Meaning(says + self._counted(entry, recorded=False), ok=True)

    def enter(self, line: str, at: str | None, sure: bool = False) -> Outcome:
        """Do what the line says. An entry is safe on the disk before this returns it.

        Nothing a user or a disk can do is raised: the outcome says it.
        """
        if self.house is None:
            return Mistake(NO_HOUSE)
        parsed = parse(line, self.house, at)
        if isinstance(parsed, ask.Unread):
            return Mistake(parsed.says, parsed.at)
        request = parsed.request
        if isinstance(request, ask.Begin):
            return self._begin(request)
        if isinstance(request, ask.OpenBench | ask.Show | ask.Chart):
            self._begun = None
            if isinstance(request, ask.Show) and request.screen in ("line", "drop"):
                return self._on_line(request)
            return _where(request, at)
        if isinstance(request, ask.Try | ask.Approve):
            return self._of_house(line, request, sure=sure or parsed.sure)
        if isinstance(request, ask.Panel):
            return self._for_panel(line, at, request)
        if isinstance(request, ask.Reopen):
            return self.reopen(request.reason)
        if isinstance(request, ask.Done) and self._is_only_begun(request.bench):
            self._begun = None
            return Go("card", request.bench)
        return self._entered(line, at, request, sure=sure or parsed.sure)

    def _panel_would(self, request: ask.Panel) -> Meaning:
        asked = self._panel.asked(request.text, request.at)
        if isinstance(asked, ask.Unread):
            return Meaning(asked.says, ok=False, at=asked.at)
        try:
            says = self._panel.would(asked, self.loaded, self.house_version, self._stamp(""))
        except UserError as problem:
            return Meaning(str(problem), ok=False)
        return Meaning(says, ok=True)

    def _on_line(self, request: ask.Show) -> Outcome:
        """Look at a blend; or go on looking at it, as it is today."""
        try:
            if request.screen == "line":
                self.line.look_at(request.words)
            self.line.drop()
            return Go("line", None, self.line.blend)
        except BadInput as problem:
            return Mistake(str(problem))

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
            return Meaning(str(problem), ok=False, at=request.at)

    def _of_house(self, line: str, request: ask.Try | ask.Approve, *, sure: bool) -> Outcome:
        """Try, or do, what makes another house book."""
        if isinstance(request, ask.Approve):
            return self._approve(line, request, sure=sure)
        return self._try(line, request, sure=sure)

    def _try(self, line: str, request: ask.Try, *, sure: bool) -> Outcome:
        self._begun = None
        try:
            if self.line.is_to_save(request.text):
                return self._save_line(line, sure=sure)
            self.line.try_out(request.text)
        except BadInput as problem:
            return Mistake(str(problem), request.at)
        return Go("line", None, self.line.blend)

    def _save_line(self, line: str, *, sure: bool) -> Outcome:
        """Make what is tried the house book in force, once somebody has said that it is meant."""
        outcome = self._new_house(line, self.line.saving(), self.line.to_save(), sure=sure)
        if isinstance(outcome, Recorded):
            self.line.drop()
        return outcome

    def _approve(self, line: str, request: ask.Approve, *, sure: bool) -> Outcome:
        """Make today's checks of a bench approved bunches, once it is said to be meant."""
        from core.desk.approve import approved  # noqa: PLC0415 - most desks approve none

        try:
            found = approved(self, request.bench)
            return self._new_house(line, found.says, found.written, sure=sure)
        except BadInput as problem:
            return Mistake(str(problem))

    def _approve_would(self, request: ask.Approve) -> Meaning:
        from core.desk.approve import approved  # noqa: PLC0415

        try:
            return Meaning(approved(self, request.bench).says, ok=True)
        except BadInput as problem:
            return Meaning(str(problem), ok=False)

    def _new_house(self, line: str, says: str, new: Written, *, sure: bool) -> Outcome:
        from core.desk.line_save import put_in_force  # noqa: PLC0415

        if self._as_of:
            raise BadInput("a house book cannot be saved in the past; leave the time out")
        if not sure:
            return Question(line, says)
        try:
            version = put_in_force(self, new)
        except StoreUnusable as problem:
            return NotSaved(line, str(problem))
        return Recorded(version, None, f"house book version {version} is in force", "house")

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
            return Mistake(str(problem))
        except StoreUnusable as problem:
            self._unconfirmed.keep(line, at, tried.event, self.now())
            return NotSaved(line, str(problem))
        self._unconfirmed.settle(line, at)
        return Recorded(added.number, None, added.says, "panel")

    def _begin(self, request: ask.Begin) -> Outcome:
        """Go to the card for the readings of that kind; nothing is recorded before the first."""
        try:
            judging.begin(request, self._room(), self._terminal)
        except BadInput as problem:
            return Mistake(str(problem))
        self._begun = request
        return Go("card", request.bench)

    def _is_only_begun(self, bench: str) -> bool:
        check = self.open_check(bench)
        return check is not None and not check.readings

    def _entered(self, line: str, at: str | None, request: ask.Request, *, sure: bool) -> Outcome:
        def make(number: int, stamp: Stamp) -> Entry:
            entry = compose.compose(request, self._room(), stamp, number)
            why = None if sure else doubt(entry, self._room())
            if why is not None:
                words = describe(entry, self.ledger, self._division(entry))
                raise _Doubtful(f"{why}: {words}")
            return entry

        try:
            return self._record(line, make, at)
        except _Doubtful as question:
            return Question(line, str(question))

    def closing(self) -> str:
        """What to know before the day is closed: what is late, open, short or beyond."""
        stock = self.stock().leaves
        return closing_words(self.board(), self.report(closing=True), stock, self.now())

    def close_day(self) -> Outcome:
        """Close the day and keep its summary; its book takes no more entries.

        A day that is closed, and whose summary was lost on the way, gets it now.
        """
        outcome = self._end("close", "")
        if isinstance(outcome, Recorded):
            return self._summed_up(outcome)
        if isinstance(outcome, Mistake) and self.house is not None and self.closed:
            return self._made_up_for(outcome)
        return outcome

    def reopen(self, reason: str) -> Outcome:
        """Open a closed day again."""
        return self._end("reopen", reason)

    def _end(self, kind: str, reason: str) -> Outcome:
        if self.house is None:
            return Mistake(NO_HOUSE)

        def make(number: int, stamp: Stamp) -> Entry:
            entry = compose.end_of_day(kind, reason, self._room(), stamp, number)
            if kind == "close":
                self._must_have_begun()
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
            raise BadInput(f"{self.day} has not begun; today is {today}")
        if not self.ledger.entries and not self.damaged:
            raise BadInput(f"nothing was recorded on {self.day}: there is nothing to close")

    def _summed_up(self, closed: Recorded) -> Outcome:
        """Keep the closed day's summary; the day is closed and says so even where it cannot."""
        try:
            self._keep_summary()
        except StoreUnusable as problem:
            lost = f"the day is closed, by entry {closed.entry}; its summary could not be kept"
            return NotSaved("close", f"{lost}: {problem}; close it again")
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
            says = f"the next day could not be compared: {problem}"
        return closed._replace(says=f"{closed.says}; {says}") if says else closed

    def _made_up_for(self, refused: Mistake) -> Outcome:
        """Keep the summary that a closed day lacks, as when a terminal died before it did."""
        try:
            if is_kept(self.folder, self.day) or not self._keep_summary():
                return refused
        except StoreUnusable as problem:
            return NotSaved("close", str(problem))
        entry = last_close(self.ledger)["id"]
        says = f"the day was closed already, by entry {entry}; its summary, which was missing"
        says = f"{says} or not up to date, is kept now"
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
            return Mistake(str(problem))
        except StoreUnusable as problem:
            self._unconfirmed.keep(line, at, tried.event, self.now())
            return NotSaved(line, str(problem))
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
            f"saved, entry {entry['id']}: {says}",
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


def _where(request: ask.OpenBench | ask.Show | ask.Chart, at: str | None) -> Go:
    if isinstance(request, ask.Show):
        return Go(request.screen, at, request.words)
    if isinstance(request, ask.Chart):
        return Go("chart", request.bench, request.measure or "")
    return Go("card", request.bench)


_SHOWS = {
    "board": "go to the Board",
    "why": "show the steps behind this card",
    "rounds": "go to the rounds: who is to be weighed next",
    "leaf": "go to the Leaf: what is in stock and for how long",
    "line": "go to the Line: what holds in which size, and what it costs",
    "drop": "go to the Line as it is today",
    "day": "go to the Day",
    "days": "go to the Days: the last weeks side by side",
    "panel": "go to the Panel: does the line taste alike?",
    "log": "go to the Log",
    "help": "show help",
    "only": "list only the benches with: {words}",
    "sort": "sort the benches by {words}",
    "close": "close the day (asks first)",
}
