"""A terminal that records: an entry is judged by the day as it stands, and safe once told."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, cast

from core import checks
from core.day import tally
from core.day.bench import CheckMade
from core.day.calendar import Clock
from core.day.calendar import stamp as stamped
from core.day.room import CLOSED, Room, Stamp
from core.desk.faces import AsksPin, Mistake, NotSaved, Outcome, Question, Recorded
from core.desk.permission import Permission, PinNeeded
from core.desk.says import already, check_done, counted_today, describe
from core.desk.unconfirmed import Unconfirmed
from core.desk.watch import Watch
from core.entry import requests as ask
from core.house.model import HouseBook
from core.problems import BadInput, StoreUnusable
from core.say import say

if TYPE_CHECKING:
    from core.day.entries import Entry
    from core.day.report import DayReport
    from core.desk.bench_only import BenchOnly


def _only_for(bench: str) -> BenchOnly:
    from core.desk.bench_only import BenchOnly  # noqa: PLC0415 - most terminals are for all

    return BenchOnly(bench)


class Recorder(Watch):
    """Today at one terminal, with its name, whose initials entries carry, and what may be done."""

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
        self._only = None if only is None else _only_for(only)
        self._unconfirmed = Unconfirmed()
        self._begun: ask.Begin | None = None
        super().__init__(folder, clock, date=date, as_of=as_of)
        self._permission = Permission(self.folder, self.shelf, real or clock)

    # -- recording ---------------------------------------------------------------------------

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
        except (BadInput, StoreUnusable) as problem:
            return self._not_kept(problem, line, at, tried.event)
        self._unconfirmed.settle(line, at)
        self._take_note()
        if not made and entry["id"] in self.ledger.undone:
            return self._record(line, make, at, reopens=reopens)
        if not made and late:
            return Question(line, already(entry))
        return self._recorded(entry)

    def _not_kept(
        self, problem: BadInput | StoreUnusable, line: str, at: str | None, event: str
    ) -> Outcome:
        """Why the line is not saved; where the disk refused it, its event keeps its name."""
        if isinstance(problem, BadInput):
            return Mistake(problem.said)
        self._unconfirmed.keep(line, at, event, self.now())
        return NotSaved(line, problem.said)

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

    # -- what asks for the PIN ----------------------------------------------------------------

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

    # -- what entries are judged by and added up to -------------------------------------------

    def _room(self) -> Room:
        ended = self._book.ended
        return Room(self.loaded, self.house_version, self.ledger, self.card_of, self._begun, ended)

    def _division(self, entry: Entry) -> float:
        return self.shelf[entry["house"]].house.scale_division_g

    def _stamp(self, event: str) -> Stamp:
        at, offset = stamped(self.now())
        return Stamp(at, offset, event, self._terminal, self._who)

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
