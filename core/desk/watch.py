"""The weighing side of the desk: the Board's lines, the rounds, the control charts."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from core import checks
from core.checks import Window
from core.control.limits import SETTLED_CHECKS
from core.day.bench import CheckMade
from core.day.history import Kind
from core.desk.benchline import bench_line, is_off
from core.desk.charts import Charts, Series, division_of
from core.desk.faces import BenchChart, BenchLine, RoundLine
from core.desk.stock import CardLot, card_lots, issue_of, stock_of
from core.desk.today import Today
from core.desk.weighed import Weighed, due, weighed
from core.measure import MEASURES, WEIGH_IN, Measure
from core.problems import BadInput
from core.say import say

if TYPE_CHECKING:
    from core.desk.drawn import Subject
    from core.stock.issue import IssueSheet
    from core.stock.stock import Stock

WORKING_DAYS = 6
"""In a week: common practice."""


class _Drawn(NamedTuple):
    """A chart as it was drawn, and the house's spread it was drawn with."""

    house_sigma: float | None
    chart: BenchChart


class Watch(Today):
    """Today's weigh-ins, bench by bench; a new entry has its own bench worked out anew."""

    _watched: Charts | None = None

    def _forget(self) -> None:
        super()._forget()
        self._lines: dict[str, BenchLine] = {}
        self._weighed: dict[str, Weighed] = {}
        self._drawn: dict[tuple[str, Measure | None], _Drawn] = {}

    def _forget_bench(self, number: str) -> None:
        self._lines.pop(number, None)
        for key in [key for key in self._drawn if key[0] == number]:
            del self._drawn[key]
        if self._watched is not None:
            self._watched.forget(number)

    # -- the Board and the rounds -----------------------------------------------------------

    def board(self) -> tuple[BenchLine, ...]:
        """Every bench, in the house book's order."""
        house = self.house
        return tuple(self.bench_line(number) for number in house.bench) if house else ()

    def bench_line(self, number: str) -> BenchLine:
        """One bench as the Board shows it."""
        line = self._lines.get(number)
        now = self.now()
        if line is None or is_off(line.due, self.loaded, now):
            made = weighed(number, self.ledger, self.house_version)
            at = due(number, made.done, self.loaded, now, self._error_of)
            line = bench_line(number, self.ledger, self.loaded, self.house_version, made, at)
            self._lines[number], self._weighed[number] = line, made
        return line

    def rounds(self) -> tuple[RoundLine, ...]:
        """Every bench in the order to be weighed, with the reason."""
        from core.desk.rounds import in_order, round_line  # noqa: PLC0415 - not for the Board

        now = self.now()
        return in_order(
            [
                round_line(line, self._weighed[line.number], now, self.division_g)
                for line in self.board()
            ]
        )

    # -- the leaf -----------------------------------------------------------------------------

    def stock(self) -> Stock:
        """What leaf is on hand and out, how long it lasts, what runs out when."""
        return stock_of(self)

    def issue(self) -> IssueSheet:
        """What leaf to issue for today's quotas."""
        return issue_of(self)

    def card_lots(self, number: str) -> tuple[CardLot, ...]:
        """The lots to be issued for the bench's card."""
        return card_lots(self, number)

    # -- control charts -----------------------------------------------------------------------

    def chart(self, number: str, measure: Measure | None = None) -> BenchChart:
        """The bench's control chart of what it rolls; without a measure of what it was last
        weighed by. BadInput where there is no such bench, or nothing to weigh against.
        """
        from core.desk.drawn import bench_chart  # noqa: PLC0415 - not for the Board

        number = self.bench_number(number)
        charts = self._charts()
        drawn = self._drawn.get((number, measure))
        if drawn is None or drawn.house_sigma != charts.house_sigma(drawn.chart.measure):
            kind = self._kind(number, measure)
            chart = bench_chart(self._subject(number, kind))
            drawn = _Drawn(charts.house_sigma(kind.measure), chart)
            self._drawn[number, measure] = drawn
        return drawn.chart

    def _charts(self) -> Charts:
        earlier = self._book.earlier_checks()
        if self._watched is None or not self._watched.follows(self.ledger, earlier):
            self._watched = Charts(self.ledger, earlier, self.day, self.shelf)
        return self._watched

    def _error_of(self, number: str, check: CheckMade) -> float | None:
        division = division_of(check.measure, self.division_g)
        return self._charts().error_of(number, check, division)

    def _kind(self, number: str, measure: Measure | None) -> Kind:
        """What is charted: of the bench's present work, the measure asked for or weighed last."""
        seat = self.ledger.seat(number, self.house_version)
        buncher = self.loaded.bench[number].buncher or ""
        known = [
            (kind.measure in WEIGH_IN, kind.measure != "portion", series.checks[-1].at, kind)
            for kind, series in self._charts().kinds(number).items()
            if kind[1:4] == (seat.blend, seat.vitola, buncher) and measure in (None, kind.measure)
        ]
        if known:
            return max(known)[-1]
        return Kind(measure or "bunch", seat.blend, seat.vitola, buncher)

    def _subject(self, number: str, kind: Kind) -> Subject:
        from core.desk.drawn import Subject  # noqa: PLC0415

        charts = self._charts()
        series = charts.kinds(number).get(kind, Series())
        last = series.today[-1] if series.today else None
        window = self._window(kind, last)
        of = last.of if last else 1
        division = division_of(kind.measure, self.division_g) / of
        spread = self.loaded.house.spread_chart
        return Subject(
            bench=number,
            kind=kind,
            series=series,
            chart=charts.chart(number, kind, window, division, ranges=spread == "range"),
            portions=self._portions(number, kind),
            draw=last.draw if last else None,
            window=window,
            division=division,
            rules=self.loaded.house.rules,
            spread=spread,
            bunches_a_week=self._bunches_a_week(number),
            standard_fraction=(last.standard if last else None) or 1.0,
        )

    def _portions(self, number: str, kind: Kind) -> dict[str, list[float]]:
        """The mean deviations of the latest portion checks, by class and leaf of the blend."""
        kinds = self._charts().kinds(number)
        if not any(known.measure == "portion" for known in kinds):
            return {}
        found: dict[str, list[float]] = {}
        for leaf in self.loaded.blend[kind.blend].shares:
            series = kinds.get(kind._replace(measure="portion", of=leaf), Series())
            name = f"{self.loaded.filler[leaf].leaf_class} {leaf}"
            found[name] = [check.group.mean for check in series.checks[-SETTLED_CHECKS:]]
        return found

    def _window(self, kind: Kind, last: CheckMade | None) -> Window:
        """Limits as deviations from target: the last check's own, else those of today's card."""
        window, of = (last.window, last.of) if last else (None, 1)
        if window is None:
            vitola = self.loaded.vitola[kind.vitola]
            card = self.card_of(kind.blend, kind.vitola)
            window = checks.window(card, vitola, self.loaded, kind.measure)
        if window is None:
            raise BadInput(
                say(
                    "the house book gives {vitola} no window for {measure}: there is nothing to "
                    "chart it against",
                    vitola=kind.vitola,
                    measure=MEASURES[kind.measure],
                )
            )
        target, low, high = window
        return Window(0.0, (low - target) / of, (high - target) / of)

    def _bunches_a_week(self, number: str) -> float | None:
        """By the bench's quota, else by what it has made today."""
        a_day = self.ledger.seat(number, self.house_version).quota
        if not a_day:
            a_day = sum(run.made for run in self.ledger.bench(number).runs.values())
        return WORKING_DAYS * a_day or None
