"""What the desk answers, and the face of it that the front ends see."""

from __future__ import annotations

import datetime as dt
from pathlib import Path
from typing import NamedTuple, Protocol

from core.checks import Verdict, Window
from core.day.report import DayReport
from core.house.model import HouseBook
from core.measure import Measure
from core.recipe.card import Card


class BenchLine(NamedTuple):
    """A bench as the Board shows it. `due` None: its first piece is to be weighed now.

    `open` is a check that still waits, at this terminal or another: its readings, and how
    many it needs; it is no weigh-in yet. `last_state` is light, within or heavy by the mean
    of the last check, mixed when a reading is out though the mean is not, empty without a
    check. `trend` holds the last checks' deviations, oldest first, in tolerances (1.0 is on
    the upper limit).
    """

    number: str
    buncher: str
    roller: str
    vitola: str
    blend: str
    due: dt.datetime | None
    open: tuple[int, int] | None
    last_mean: float | None
    target: float | None
    last_state: str
    trend: tuple[float, ...]
    good: int
    quota: int | None
    made: int
    checks: int
    out: int


class OpenCheck(NamedTuple):
    """This terminal's check at a bench, not yet complete."""

    id: int
    measure: Measure
    readings: tuple[float, ...]
    places: tuple[str, ...]
    needs: int
    window: Window | None


class SeenCheck(NamedTuple):
    """A check of today as it was judged when it was made."""

    id: int
    at: dt.datetime
    measure: Measure
    readings: tuple[float, ...]
    window: Window | None
    verdict: Verdict | None


class LogLine(NamedTuple):
    """One entry in words. `voided_by` names the undo that voids it, with its reason."""

    id: int
    at: dt.datetime
    bench: str | None
    says: str
    terminal: str
    who: str | None
    voided_by: int | None
    void_reason: str


class Meaning(NamedTuple):
    """What Enter would do with the line as it stands; `at` is the column of what is wrong."""

    says: str
    ok: bool
    at: int | None = None


class Recorded(NamedTuple):
    """An entry that is safe on the disk."""

    entry: int
    bench: str | None
    says: str
    kind: str
    measure: Measure | None = None
    verdict: Verdict | None = None
    window: Window | None = None


class Question(NamedTuple):
    """A weight far off its target: the same line, made sure, records it."""

    line: str
    says: str


class Mistake(NamedTuple):
    """A line that was not recorded: what is wrong, and its column where one is to blame."""

    says: str
    at: int | None = None


class NotSaved(NamedTuple):
    """A good line that the disk would not take; `line` is the line to keep."""

    line: str
    says: str


class Go(NamedTuple):
    """A screen to show: board, card, why, day, log, help; only and sort list the Board."""

    screen: str
    bench: str | None = None
    words: str = ""


Outcome = Recorded | Question | Mistake | NotSaved | Go


class DeskFace(Protocol):
    """The desk as the screens and commands use it."""

    @property
    def house(self) -> HouseBook | None: ...
    @property
    def house_version(self) -> int: ...
    @property
    def day(self) -> dt.date: ...
    @property
    def closed(self) -> bool: ...
    @property
    def damaged(self) -> int: ...
    @property
    def data_folder(self) -> Path: ...
    def now(self) -> dt.datetime: ...
    def board(self) -> tuple[BenchLine, ...]: ...
    def bench_line(self, number: str) -> BenchLine: ...
    def card(self, number: str) -> Card: ...
    def moisture_age(self, leaf: str) -> tuple[float, dt.datetime | None]: ...
    def open_check(self, number: str) -> OpenCheck | None: ...
    def recent_checks(self, number: str, limit: int = 20) -> tuple[SeenCheck, ...]: ...
    def meaning(self, line: str, at: str | None) -> Meaning: ...
    def enter(self, line: str, at: str | None, sure: bool = False) -> Outcome: ...
    def report(self) -> DayReport: ...
    def log(self, limit: int = 200) -> tuple[LogLine, ...]: ...
    def follow(self) -> frozenset[str] | None: ...
    def closing(self) -> str: ...
    def close_day(self) -> Outcome: ...
