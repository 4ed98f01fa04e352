"""A desk on paper: it reads lines as the real one does, and keeps them in memory or a file."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

from core.checks import Window, judge
from core.day.report import DayReport, Totals
from core.desk.faces import (
    BenchChart,
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
    RoundLine,
    SeenCheck,
)
from core.desk.line import Line
from core.desk.panel import PanelSheet
from core.desk.stock import CardLot
from core.entry import requests as ask
from core.entry.complete import complete
from core.entry.parse import parse
from core.house.model import HouseBook, Language
from core.measure import Measure
from core.problems import BadInput
from core.recipe.card import Card, recipe_card
from core.stock.issue import IssueSheet
from core.stock.stock import Stock

NOW = dt.datetime(2026, 5, 4, 10, 30, tzinfo=dt.timezone(dt.timedelta(hours=-6)))
FAR_OFF_G = 30.0
FULL = "the disk is full: free some space, then try again"


class PaperDesk:
    """Everything the floor asks, without records: `lines` holds what was entered, and where.

    A reading over 30 g is asked about. While `full` is set nothing can be saved.
    """

    def __init__(self, house: HouseBook | None, paper: Path | None = None) -> None:
        self.house = house
        self.house_version = 1
        self.day = NOW.date()
        self.who: str | None = None
        self.only: str | None = None
        self.closed = False
        self.damaged = 0
        self.data_folder = Path("/data/house")
        self.full = False
        self.clock = NOW
        self.lines: list[tuple[str, str | None]] = []
        self.benches: dict[str, BenchLine] = {}
        self.opened: dict[str, OpenCheck] = {}
        self.seen: dict[str, tuple[SeenCheck, ...]] = {}
        self.touched: set[str] = set()
        self.asked: list[str] = []
        self.entries: tuple[LogLine, ...] = ()
        self.summary: DayReport | None = None
        self.round: tuple[RoundLine, ...] = ()
        self.charts: dict[tuple[str, Measure], BenchChart] = {}
        self.stocked = Stock((), (), (), 0, ())
        self.sheet = IssueSheet(0.0, (), (), ())
        self.lots: tuple[CardLot, ...] = ()
        self.tasted: PanelSheet | None = None
        self._paper = paper
        for bench in house.benches if house else ():
            self.benches[bench.number] = blank_line(bench.number, bench.vitola, bench.quota)

    def now(self) -> dt.datetime:
        return self.clock

    def board(self) -> tuple[BenchLine, ...]:
        return tuple(self.benches.values())

    def bench_line(self, number: str) -> BenchLine:
        return self.benches[number]

    def card(self, number: str) -> Card:
        assert self.house is not None
        bench = self.house.bench[number]
        return recipe_card(
            self.house, blend=bench.blend, vitola=bench.vitola, moistures={}, bench=number
        )

    def moisture_age(self, leaf: str) -> tuple[float, dt.datetime | None]:
        assert self.house is not None
        return self.house.leaf[leaf].moisture, None

    def open_check(self, number: str) -> OpenCheck | None:
        return self.opened.get(number)

    def recent_checks(self, number: str, limit: int = 20) -> tuple[SeenCheck, ...]:
        return self.seen.get(number, ())[-limit:]

    def meaning(self, line: str, at: str | None) -> Meaning:
        self.asked.append(line)
        parsed = self._parsed(line, at)
        if isinstance(parsed, ask.Unread):
            return Meaning(parsed.says, ok=False, at=parsed.at)
        return Meaning(f"do: {line}", ok=True)

    def _parsed(self, line: str, at: str | None) -> ask.Parsed | ask.Unread:
        assert self.house is not None
        return parse(line, self.house, at)

    def refuses(self, where: Go) -> str:
        return ""

    def complete(
        self, line: str, at: str | None, language: Language | None = None
    ) -> tuple[str, ...]:
        return complete(line, self.house, at) if self.house else ()

    def enter(
        self, line: str, at: str | None, sure: bool = False, pin: str | None = None
    ) -> Outcome:
        parsed = self._parsed(line, at)
        if isinstance(parsed, ask.Unread):
            return Mistake(parsed.says, parsed.at)
        request = parsed.request
        if isinstance(request, ask.OpenBench):
            return Go("card", request.bench)
        if isinstance(request, ask.Show):
            return Go(request.screen, at, request.words)
        if isinstance(request, ask.Reading) and request.reading > FAR_OFF_G and not sure:
            return Question(line, f"{request.reading:g} g is far over target")
        if self.full:
            return NotSaved(line, FULL)
        self.lines.append((line, at))
        if self._paper is not None:
            with self._paper.open("a", encoding="utf-8") as paper:
                paper.write(f"{at or '-'}\t{line}\n")
        bench = getattr(request, "bench", None)
        self.touched.add(bench or "")
        n = len(self.lines)
        return Recorded(n, bench, f"saved, entry {n}: {line.strip()}", "check")

    def rounds(self) -> tuple[RoundLine, ...]:
        return self.round

    def chart(self, number: str, measure: Measure | None = None) -> BenchChart:
        return self.charts[number, measure or "bunch"]

    def stock(self) -> Stock:
        return self.stocked

    def issue(self) -> IssueSheet:
        return self.sheet

    def card_lots(self, number: str) -> tuple[CardLot, ...]:
        return self.lots

    @property
    def line(self) -> Line:
        raise BadInput("a desk on paper has no line")

    def panel(self) -> PanelSheet | None:
        return self.tasted

    def report(self) -> DayReport:
        return self.summary or empty_report(self.day)

    def log(self, limit: int = 200) -> tuple[LogLine, ...]:
        return self.entries[:limit]

    def follow(self) -> frozenset[str] | None:
        found = frozenset(self.touched)
        self.touched.clear()
        return found or None

    def closing(self) -> str:
        return "the day has 0 entries"

    def close_day(self, pin: str | None = None) -> Outcome:
        self.closed = True
        self.touched.add("")
        return Recorded(len(self.lines) + 1, None, "saved: day closed", "close")


def blank_line(number: str, vitola: str, quota: int | None) -> BenchLine:
    """A bench on which nothing has happened yet."""
    return BenchLine(
        number=number,
        buncher=f"P-{number}",
        roller=f"R-{number}",
        vitola=vitola,
        blend="B1",
        due=None,
        open=None,
        last_mean=None,
        target=None,
        last_state="",
        trend=(),
        good=0,
        quota=quota,
        made=0,
        checks=0,
        out=0,
    )


def weighed_line(number: str, vitola: str, mean: float, state: str, due_min: int) -> BenchLine:
    """A bench with one check, due again in so many minutes."""
    return blank_line(number, vitola, 300)._replace(
        due=NOW + dt.timedelta(minutes=due_min),
        last_mean=mean,
        target=10.8,
        last_state=state,
        trend=((mean - 10.8) / 0.6,),
        checks=1,
        out=int(state != "within"),
    )


def empty_report(day: dt.date) -> DayReport:
    """A day on which nothing was recorded."""
    return DayReport(
        date=day.isoformat(),
        closed=False,
        benches=(),
        totals=Totals(made=0, good=0, rejected=0, rework=0, first_pass_yield=None),
        leaf=(),
        leaf_yield=None,
        notes=(),
        entries=0,
        voided=0,
        damaged_lines=0,
        warnings=(),
    )


WINDOW = Window(10.8, 10.2, 11.4)
"""The bunch's window in the small house's toro."""


def seen(n: int, *readings: float) -> SeenCheck:
    """A bunch check of the small house's toro, `n` hours after the first could be."""
    at = NOW - dt.timedelta(hours=3 - n)
    return SeenCheck(n, at, "bunch", readings, WINDOW, judge(readings, WINDOW))
