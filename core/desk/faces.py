"""What the desk answers, and the face of it that the front ends see."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Literal, NamedTuple, Protocol

from core.checks import Verdict, Window
from core.house.model import HouseBook, Language, SpreadChart
from core.measure import DrawScale, Measure

if TYPE_CHECKING:
    from core.control.advice import Advice
    from core.control.capability import Capability, Unjudged
    from core.control.rules import Rule
    from core.day.report import DayReport
    from core.desk.line import Line
    from core.desk.panel import PanelSheet
    from core.desk.stock import CardLot
    from core.recipe.card import Card
    from core.stock.issue import IssueSheet
    from core.stock.stock import Stock


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
    """This terminal's check at a bench, not yet complete; it may wait for its first reading.

    `leaf` is whose portion is weighed; `draw` what draw is read in.
    """

    id: int
    measure: Measure
    readings: tuple[float, ...]
    places: tuple[str, ...]
    needs: int
    window: Window | None
    leaf: str | None = None
    draw: DrawScale | None = None


class SeenCheck(NamedTuple):
    """A check of today as it was judged when it was made; `leaf`, `draw` as in an open one."""

    id: int
    at: dt.datetime
    measure: Measure
    readings: tuple[float, ...]
    window: Window | None
    verdict: Verdict | None
    leaf: str | None = None
    draw: DrawScale | None = None


RoundReason = Literal["first piece", "out", "overdue", "due"]


class RoundLine(NamedTuple):
    """A bench in the order to be weighed. `due` None: its first piece is due now.

    `says` tells why it stands here, in words.
    """

    bench: str
    buncher: str
    vitola: str
    blend: str
    reason: RoundReason
    due: dt.datetime | None
    says: str


class ChartPoint(NamedTuple):
    """A check on a control chart: its deviation from target, limits and what they judge.

    All in the measure's unit. `spread` is None of a single reading. `broke` are the rules
    that this point completes, by code.
    """

    at: dt.datetime
    day: dt.date
    check: int
    readings: int
    deviation: float
    low: float
    high: float
    spread: float | None
    spread_high: float | None
    ewma: float
    ewma_low: float
    ewma_high: float
    broke: tuple[Rule, ...]


class BenchChart(NamedTuple):
    """A bench's control chart of one measure of what it rolls, oldest check first.

    `low` and `high` are the tolerance window as deviations; `source` is where the limits come
    from: the bench's own checks, a few of them, the house's pooled spread; None without any.
    `broken` names each run rule broken lately, in words; `judged` and `found` are the advice
    and what is odd about the scale, in words. `draw` is what draw was read in, `spread` what
    the spreads of its points are. A bundle is charted by one of its cigars.
    """

    bench: str
    vitola: str
    blend: str
    measure: Measure
    division: float
    low: float
    high: float
    source: Literal["bench", "few", "house"] | None
    baseline: int
    sigma: float | None
    points: Sequence[ChartPoint]
    broken: tuple[str, ...]
    capability: Capability | Unjudged
    judged: Advice
    advice: str
    found: tuple[str, ...]
    draw: DrawScale | None = None
    spread: SpreadChart = "deviation"


class LogLine(NamedTuple):
    """One entry in words. `voided_by` names the undo that voids it, with its reason.

    `late`: it was made after the day was first closed.
    """

    id: int
    at: dt.datetime
    bench: str | None
    says: str
    terminal: str
    who: str | None
    voided_by: int | None
    void_reason: str
    late: bool = False


class Meaning(NamedTuple):
    """What Enter would do with the line as it stands; `at` is the column of what is wrong."""

    says: str
    ok: bool
    at: int | None = None


class Recorded(NamedTuple):
    """An entry that is safe on the disk; `shown_on` is the page that is about it alone."""

    entry: int
    bench: str | None
    says: str
    kind: str
    measure: Measure | None = None
    verdict: Verdict | None = None
    window: Window | None = None
    shown_on: str = ""


class Question(NamedTuple):
    """A weight far off its target: the same line, made sure, records it."""

    line: str
    says: str


class Mistake(NamedTuple):
    """A line that was not recorded: what is wrong, and its column where one is to blame."""

    says: str
    at: int | None = None


class AsksPin(NamedTuple):
    """What asks for the house's PIN: the same line, with it, does it.

    `says` is what it is needed for; `wrong` why the one given was not taken, else empty.
    """

    line: str
    says: str
    wrong: str = ""


class Told(NamedTuple):
    """Something done that is no entry: it is recorded nowhere."""

    says: str


class NotSaved(NamedTuple):
    """A good line that the disk would not take; `line` is the line to keep."""

    line: str
    says: str


class Go(NamedTuple):
    """A screen to show: board, card, why, rounds, chart, line, day, log, help, …; the Board
    takes only, sort.
    """

    screen: str
    bench: str | None = None
    words: str = ""


Outcome = Recorded | Question | AsksPin | Mistake | NotSaved | Told | Go


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
    @property
    def who(self) -> str | None: ...
    @property
    def only(self) -> str | None: ...
    def refuses(self, where: Go) -> str: ...
    def complete(
        self, line: str, at: str | None, language: Language | None = None
    ) -> tuple[str, ...]: ...
    def now(self) -> dt.datetime: ...
    def board(self) -> tuple[BenchLine, ...]: ...
    def bench_line(self, number: str) -> BenchLine: ...
    def card(self, number: str) -> Card: ...
    def moisture_age(self, leaf: str) -> tuple[float, dt.datetime | None]: ...
    def open_check(self, number: str) -> OpenCheck | None: ...
    def recent_checks(self, number: str, limit: int = 20) -> tuple[SeenCheck, ...]: ...
    def meaning(self, line: str, at: str | None) -> Meaning: ...
    def enter(
        self, line: str, at: str | None, sure: bool = False, pin: str | None = None
    ) -> Outcome: ...
    def rounds(self) -> tuple[RoundLine, ...]: ...
    def chart(self, number: str, measure: Measure | None = None) -> BenchChart: ...
    def stock(self) -> Stock: ...
    def issue(self) -> IssueSheet: ...
    def card_lots(self, number: str) -> tuple[CardLot, ...]: ...
    def report(self) -> DayReport: ...
    @property
    def line(self) -> Line: ...
    def panel(self) -> PanelSheet | None: ...
    def log(self, limit: int = 200) -> tuple[LogLine, ...]: ...
    def follow(self) -> frozenset[str] | None: ...
    def closing(self) -> str: ...
    def close_day(self, pin: str | None = None) -> Outcome: ...
