"""The desk: one house, one working day, one terminal. Both front ends ask it everything."""

from __future__ import annotations

import datetime as dt
import os
from collections.abc import Iterable
from pathlib import Path
from typing import cast

from core import checks
from core.day import compose, tally
from core.day.bench import CheckMade, RunKey
from core.day.calendar import Clock, local, stamp, working_day
from core.day.compose import Room, Stamp
from core.day.entries import Entry
from core.day.report import DayReport
from core.desk.benchline import bench_line, seen
from core.desk.daybook import DayBook
from core.desk.faces import (
    BenchLine,
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
from core.desk.figures import percent
from core.desk.says import describe
from core.desk.shelf import Shelf
from core.entry import requests as ask
from core.entry.parse import parse
from core.house.model import HouseBook, bench_order
from core.line.sheet import LineSheet, line_sheet
from core.problems import BadInput, StoreUnusable
from core.recipe.card import Card, recipe_card
from core.recipe.packing import Law, fit, packed
from core.records.folder import Folder

NO_HOUSE = "no house book is loaded yet; load one with: bunchbook house load FILE"


class _FarOff(Exception):
    """Raised inside a recording to leave it unwritten until somebody says it is so."""


class Desk:
    """A day's work at one terminal, on records that other terminals write too.

    `clock` gives aware local time. `date` holds the desk to one day's book; without it the
    desk turns to the next working day by itself. With `as_of` questions are answered as of
    the clock's time: later entries and house books are left out.
    """

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
        self.now = clock
        self.folder = Folder(folder)
        self._terminal = terminal
        self._who = who
        self._date = date
        self._as_of = as_of
        self.shelf = Shelf(self.folder)
        self._retry: tuple[str, str] | None = None
        self._laws: dict[tuple[int, str], Law] = {}
        self._packed: dict[RunKey, float] = {}
        self._unseen: set[str] = set()
        self._settle()

    # -- the house and the day ------------------------------------------------------------

    @property
    def house(self) -> HouseBook | None:
        """The house book in force, None before one is loaded."""
        return self.shelf[self.house_version] if self.house_version else None

    @property
    def day(self) -> dt.date:
        return self._book.date

    @property
    def closed(self) -> bool:
        return self._book.ledger.closed

    @property
    def damaged(self) -> int:
        """Lines of today's book that cannot be read."""
        return self._book.damaged

    def _today(self) -> dt.date:
        if self._date is not None:
            return self._date
        begins = self.house.house.day_begins if self.house else "00:00"
        return working_day(self.now(), begins)

    def _version(self) -> int:
        return self.shelf.version_at(self.now() if self._as_of else None)

    def _settle(self) -> None:
        """Take the house version in force and the day's book, as of now."""
        self.house_version = self._version()
        until = stamp(self.now())[0] if self._as_of else None
        self._book = DayBook(self.folder, self._today(), self.shelf, until)
        if self.house_version:
            self._book.carry_in(self.house_version)
        self._forget()

    def _forget(self) -> None:
        self._cards: dict[tuple[str, str], Card] = {}
        self._lines: dict[str, BenchLine] = {}

    def follow(self) -> frozenset[str] | None:
        """Take in what other terminals recorded: the benches touched, "" for the whole day.

        What this terminal recorded since last asked is among them; None if nothing is new.
        """
        loaded = self.shelf.follow() or self._version() != self.house_version
        if loaded or self._today() != self.day:
            self._settle()
            self._unseen.add("")
        self._book.follow()
        self._take_note()
        seen_now = frozenset(self._unseen)
        self._unseen.clear()
        return seen_now or None

    def _take_note(self) -> None:
        """Forget the figures of benches with new entries; all of them when the day is touched."""
        touched = self._book.touched()
        if "" in touched:
            self._forget()
        for bench in touched:
            self._lines.pop(bench, None)
        self._unseen |= touched

    # -- what is asked of it --------------------------------------------------------------

    def card(self, number: str) -> Card:
        """The bench's card at today's moistures; BadInput says why there is none."""
        house = self._loaded()
        number = _spelt(number, house.bench)
        if number not in house.bench:
            known = sorted(house.bench, key=bench_order)
            span = f"{known[0]} to {known[-1]}" if known else "none"
            raise BadInput(f"there is no bench {number} in the house book; its benches: {span}")
        seat = self._book.ledger.seat(number, self.house_version)
        card = self._card(seat.blend, seat.vitola)
        return card.at_bench(number)

    def board(self) -> tuple[BenchLine, ...]:
        """Every bench, in the house book's order."""
        house = self.house
        return tuple(self.bench_line(number) for number in house.bench) if house else ()

    def bench_line(self, number: str) -> BenchLine:
        """One bench as the Board shows it."""
        line = self._lines.get(number)
        if line is None:
            ledger = self._book.ledger
            line = bench_line(number, ledger, self._loaded(), self.house_version)
            self._lines[number] = line
        return line

    def moisture_age(self, leaf: str) -> tuple[float, dt.datetime | None]:
        """The leaf's moisture in force, and when it was measured (None: the house book's)."""
        measured = self._book.ledger.moisture(leaf, self.house_version)
        when = dt.datetime.fromisoformat(measured.at) if measured.at else None
        return measured.moisture, when.astimezone(self.now().tzinfo) if when else None

    def open_check(self, number: str) -> OpenCheck | None:
        """This terminal's check at the bench that still waits for readings."""
        check = compose.open_check(self._room(), number, self._terminal)
        if check is None:
            return None
        window = check.window
        places = tuple(checks.place(r, window) if window else "" for r in check.readings)
        return OpenCheck(check.id, check.measure, check.readings, places, check.needs, window)

    def recent_checks(self, number: str, limit: int = 20) -> tuple[SeenCheck, ...]:
        """The bench's last checks of today, oldest first."""
        return tuple(seen(check) for check in self._book.ledger.bench(number).checks[-limit:])

    def line(self, blend: str) -> LineSheet:
        """The blend in every vitola of the house; BadInput says why there is none."""
        house, moistures = self._loaded(), self._book.ledger.moistures(self.house_version)
        code = _spelt(blend, house.blend)
        return line_sheet(house, code, moistures, law=self._law(self.house_version, code))

    @property
    def division_g(self) -> float:
        """The division of the bench scales."""
        return self._loaded().house.scale_division_g

    def report(self) -> DayReport:
        """The day added up."""
        self._loaded()
        return tally.report(
            self._book.ledger,
            date=self.day,
            version=self.house_version,
            packed=self._filler,
            damaged_lines=self.damaged,
        )

    def log(self, limit: int = 200) -> tuple[LogLine, ...]:
        """The day's last entries, newest first."""
        ledger = self._book.ledger
        newest = list(ledger.entries.values())[: -limit - 1 : -1]
        return tuple(self._log_line(entry) for entry in newest)

    def _log_line(self, entry: Entry) -> LogLine:
        ledger = self._book.ledger
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
        if isinstance(request, ask.Show):
            return Meaning(_SHOWS[request.screen].format(words=request.words), ok=True)
        number = max(self._book.ledger.entries, default=0) + 1
        try:
            entry = compose.compose(request, self._room(), self._stamp(""), number)
        except BadInput as problem:
            return Meaning(str(problem), ok=False)
        return Meaning(describe(entry, self._book.ledger, self._division(entry)), ok=True)

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
        if isinstance(request, ask.OpenBench):
            return Go("card", request.bench)
        if isinstance(request, ask.Show):
            return Go(request.screen, at, request.words)
        sure = sure or parsed.sure
        event = self._event(line)

        def make(number: int) -> Entry:
            entry = compose.compose(request, self._room(), self._stamp(event), number)
            off = None if sure else compose.far_off(entry)
            if off is not None:
                side = "over" if off > 0 else "under"
                words = describe(entry, self._book.ledger, self._division(entry))
                raise _FarOff(f"{percent(abs(off), 0)} {side} target: {words}")
            return entry

        try:
            return self._record(make, event)
        except _FarOff as question:
            return Question(line, str(question))
        except BadInput as problem:
            return Mistake(str(problem))
        except StoreUnusable as problem:
            self._retry = (line, event)
            return NotSaved(line, str(problem))

    def close_day(self) -> Outcome:
        """Close the day and keep its summary; its book takes no more entries."""
        return self._end("close", "")

    def reopen(self, reason: str) -> Outcome:
        """Open a closed day again."""
        return self._end("reopen", reason)

    def _end(self, kind: str, reason: str) -> Outcome:
        event = self._event(kind)

        def make(number: int) -> Entry:
            return compose.end_of_day(kind, reason, self._room(), self._stamp(event), number)

        try:
            self._loaded()
            outcome = self._record(make, event)
            if kind == "close":
                summary = self.report().model_dump(mode="json")
                self.folder.house().append("summaries", lambda _number: summary)
        except BadInput as problem:
            return Mistake(str(problem))
        except StoreUnusable as problem:
            self._retry = (kind, event)
            return NotSaved(kind, str(problem))
        return outcome

    def _record(self, make: compose.Make, event: str) -> Outcome:
        if self._today() != self.day:
            self._settle()
        entry = self._book.record(make, event)
        self._retry = None
        self._take_note()
        says = describe(entry, self._book.ledger, self._division(entry))
        check = self._judged(entry)
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
        """The check the entry is, or belongs to."""
        if entry["kind"] not in ("check", "reading"):
            return None
        number = entry["check"] if entry["kind"] == "reading" else entry["id"]
        made = self._book.ledger.bench(entry["bench"]).checks
        return next((check for check in reversed(made) if check.id == number), None)

    # -- what entries are judged by -------------------------------------------------------

    def _loaded(self) -> HouseBook:
        if self.house is None:
            raise BadInput(NO_HOUSE)
        return self.house

    def _room(self) -> Room:
        return Room(self._loaded(), self.house_version, self._book.ledger, self._card)

    def _card(self, blend: str, vitola: str) -> Card:
        card = self._cards.get((blend, vitola))
        if card is None:
            card = recipe_card(
                self._loaded(),
                blend=blend,
                vitola=vitola,
                moistures=self._book.ledger.moistures(self.house_version),
                law=self._law(self.house_version, blend),
            )
            self._cards[blend, vitola] = card
        return card

    def _law(self, version: int, blend: str) -> Law:
        if (version, blend) not in self._laws:
            self._laws[version, blend] = fit(self.shelf[version], blend)
        return self._laws[version, blend]

    def _filler(self, run: RunKey) -> float:
        """Filler per bunch, standard grams, of what was rolled."""
        if run not in self._packed:
            house = self.shelf[run.house]
            law = self._law(run.house, run.blend)
            found = packed(house, run.blend, house.vitola[run.vitola], law)
            self._packed[run] = found.filler_standard_g
        return self._packed[run]

    def _division(self, entry: Entry) -> float:
        return self.shelf[entry["house"]].house.scale_division_g

    def _stamp(self, event: str) -> Stamp:
        at, offset = stamp(self.now())
        return Stamp(at, offset, event, self._terminal, self._who)

    def _event(self, line: str) -> str:
        """A name for this write; the same again when an unsaved line is tried again."""
        if self._retry is not None and self._retry[0] == line:
            return self._retry[1]
        return os.urandom(8).hex()


def _spelt(code: str, known: Iterable[str]) -> str:
    """The code as the house spells it; itself where the house has none like it."""
    return next((each for each in known if each.casefold() == code.casefold()), code)


_SHOWS = {
    "board": "go to the Board",
    "card": "go to the card",
    "why": "show the steps behind this card",
    "day": "go to the Day",
    "log": "go to the Log",
    "help": "show help",
    "only": "list only the benches with: {words}",
    "sort": "sort the benches by {words}",
    "close": "close the day (asks first)",
}
