"""Charts made by hand from check means: what the desk would hand the Chart page."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence

from core.control.advice import advice
from core.control.capability import capability
from core.control.chart import mean_and_deviation
from core.control.ewma import ewma
from core.control.rules import RULES, Rule, breaks
from core.control.subgroups import Subgroup
from core.desk.faces import BenchChart, ChartPoint
from tests.floor.paper import NOW

SPREAD_G = 0.35
EVERY = dt.timedelta(minutes=40)
A_DAY = 10
"""Checks a day; the last day's end at the paper desk's moment."""


def charted(
    means: Sequence[float], *, readings: int = 5, bench: str = "7", found: tuple[str, ...] = ()
) -> BenchChart:
    """A bench's bunch checks with these mean deviations (grams), every 40 minutes."""
    spread = SPREAD_G if readings > 1 else None
    checks = [Subgroup(readings, mean, spread) for mean in means]
    chart = mean_and_deviation(checks, house_sigma=0.4, division_g=0.1)
    averages = ewma(chart.means)
    broke: dict[int, list[Rule]] = {}
    for found_break in breaks(chart.means, RULES):
        broke.setdefault(found_break.at, []).append(found_break.rule)
    points = []
    for i, (point, average) in enumerate(zip(chart.means, averages, strict=True)):
        left = len(means) - 1 - i
        beside = chart.spreads[i]
        at = NOW - EVERY * (left % A_DAY) - dt.timedelta(days=left // A_DAY)
        points.append(
            ChartPoint(
                at=at,
                day=at.date(),
                check=100 + i,
                readings=readings,
                deviation=point.value,
                low=point.low,
                high=point.high,
                spread=beside.value if beside else None,
                spread_high=beside.high if beside else None,
                ewma=average.value,
                ewma_low=average.low,
                ewma_high=average.high,
                broke=tuple(broke.get(i, ())),
            )
        )
    judged = advice(list(means)[-20:], bunches_per_week=1200, standard_fraction=1.0)
    halves = [[mean - SPREAD_G, mean + SPREAD_G, mean] for mean in means]
    return BenchChart(
        bench=bench,
        vitola="toro",
        blend="B1",
        measure="bunch",
        division=0.1,
        low=-0.6,
        high=0.6,
        source=chart.baseline.source if means else None,
        baseline=chart.baseline.checks,
        sigma=chart.baseline.sigma,
        points=tuple(points),
        broken=(),
        capability=capability(halves, -0.6, 0.6),
        judged=judged,
        advice="",
        found=found,
    )
