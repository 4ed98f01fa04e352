"""A bench's control chart with everything it says, from the bench's checks."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Literal, NamedTuple

from core.checks import Window
from core.control.advice import Advice, advice
from core.control.capability import capability_of
from core.control.causes import causes
from core.control.chart import Chart
from core.control.ewma import ewma
from core.control.limits import SETTLED_CHECKS
from core.control.rules import Break, Rule, breaks
from core.day.checked import PIECE
from core.day.history import Charted, Kind
from core.desk.advice import advice_words, with_cause
from core.desk.breaks import broken_words
from core.desk.charts import Series
from core.desk.faces import BenchChart, ChartPoint
from core.desk.lazily import Lazily
from core.desk.measured import Measured
from core.desk.scales import found_words
from core.house.model import SpreadChart
from core.measure import DrawScale


class Subject(NamedTuple):
    """What a chart is of. `window` is as deviations from target.

    `portions` has the mean deviations of portion checks by leaf; `bunches_a_week` None where
    nothing tells; `standard_fraction` turns a gram of filler today into standard grams.
    """

    bench: str
    kind: Kind
    series: Series
    chart: Chart
    portions: Mapping[str, Sequence[float]]
    draw: DrawScale | None
    window: Window
    division: float
    rules: Sequence[Rule]
    spread: SpreadChart
    bunches_a_week: float | None
    standard_fraction: float


def bench_chart(subject: Subject) -> BenchChart:
    """The chart, its rule breaks, capability and advice."""
    kind, checks, chart = subject.kind, subject.series.checks, subject.chart
    groups = [check.group for check in checks]
    found = breaks(chart.means, subject.rules)
    apart = breaks(chart.spreads, [rule for rule in subject.rules if rule == "beyond"])
    judged = _judged(subject)
    what = Measured(kind.measure, subject.draw)
    return BenchChart(
        bench=subject.bench,
        vitola=kind.vitola,
        blend=kind.blend,
        measure=kind.measure,
        division=subject.division,
        low=subject.window.low,
        high=subject.window.high,
        source=_source(chart, bool(checks)),
        baseline=chart.baseline.checks,
        sigma=chart.baseline.sigma if checks else None,
        points=Lazily(len(checks), lambda: _points(checks, chart, (*found, *apart))),
        broken=broken_words(what, checks, found, apart, chart.means),
        capability=capability_of(groups, subject.window.low, subject.window.high),
        judged=judged,
        advice=with_cause(
            advice_words(subject.bench, what, judged, subject.division), _causes(subject, judged)
        ),
        found=found_words(
            kind.measure,
            subject.series,
            sigma=chart.baseline.sigma,
            division=subject.division,
            window_width=subject.window.high - subject.window.low,
        ),
        draw=subject.draw,
        spread=subject.spread,
    )


def _source(chart: Chart, any_checks: bool) -> Literal["bench", "few", "house"] | None:
    return chart.baseline.source if any_checks else None


def _judged(subject: Subject) -> Advice:
    """The advice from the latest checks; nothing a week where no leaf or no count is behind it."""
    lately = [check.group.mean for check in subject.series.checks[-SETTLED_CHECKS:]]
    weekly = subject.bunches_a_week if subject.kind.measure in PIECE else None
    judged = advice(
        lately, bunches_per_week=weekly or 0.0, standard_fraction=subject.standard_fraction
    )
    return judged if weekly else judged._replace(per_week=None)


def _causes(subject: Subject, judged: Advice) -> list[str]:
    """The leaves whose portions to look at, where the portion checks find some."""
    if subject.kind.measure not in PIECE or judged.per_bunch is None:
        return []
    if judged.verdict not in ("heavy", "light"):
        return []
    return [portion.leaf for portion in causes(judged.per_bunch.mean_g, subject.portions).found]


def _points(
    checks: Sequence[Charted], chart: Chart, found: Sequence[Break]
) -> tuple[ChartPoint, ...]:
    if not checks:
        return ()
    at, day, number, groups = zip(*checks, strict=True)
    n, off, _, _ = zip(*groups, strict=True)
    _, _, _, low, high = zip(*chart.means, strict=True)
    spread = [point and point.value for point in chart.spreads]
    spread_high = [point and point.high for point in chart.spreads]
    average, _, _, least, most = zip(*ewma(chart.means), strict=True)
    broke: list[tuple[Rule, ...]] = [()] * len(checks)
    for each in found:
        if each.rule not in broke[each.at]:
            broke[each.at] += (each.rule,)
    columns = (at, day, number, n, off, low, high, spread, spread_high, average, least, most)
    return tuple(map(ChartPoint, *columns, broke))
