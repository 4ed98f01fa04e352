"""The control charts of every bench, worked out when first asked for and kept until it changes.

A new check touches its own bench alone. It also moves what the house spreads, but that is
taken to two figures, so that it seldom changes: or each check would redraw all charts.
"""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Mapping, Sequence
from functools import reduce
from typing import NamedTuple

from core.checks import Window
from core.control.chart import Chart, mean_and_deviation, mean_and_range, single_readings
from core.control.limits import LEAST_CHECKS
from core.control.subgroups import Pooled, pooled
from core.day.bench import CheckMade
from core.day.history import (
    Charted,
    Earlier,
    Kind,
    Made,
    kind_carried,
    kind_of,
    made_today,
    spreads_carried,
    take_apart,
)
from core.day.ledger import Ledger
from core.desk.figures import places_of
from core.house.model import HouseBook
from core.measure import WEIGHED, Measure

TOLERANCE_SIGMAS = 3
"""A tolerance holds three σ, until the house has checks to tell: common practice."""


class Series(NamedTuple):
    """A bench's checks of one kind, oldest first; the last of them are `today`'s."""

    checks: tuple[Charted, ...] = ()
    today: tuple[CheckMade, ...] = ()


class Charts:
    """The charts of a day whose entries are in `ledger`, on top of the days before it."""

    def __init__(
        self, ledger: Ledger, earlier: Earlier, day: dt.date, houses: Mapping[int, HouseBook]
    ) -> None:
        self._ledger = ledger
        self._earlier = earlier
        self._day = day
        self._houses = houses
        self._carried: dict[str, dict[Kind, Pooled]] = {}
        self._made: dict[str, dict[Kind, Made]] = {}
        self._series: dict[str, dict[Kind, Series]] = {}
        self._spreads: dict[str, dict[Measure, Pooled]] = {}
        self._sigmas: dict[Measure, float | None] = {}
        self._charts: dict[str, dict[Kind, tuple[float, bool, Chart]]] = {}

    def follows(self, ledger: Ledger, earlier: Earlier) -> bool:
        """Whether these are the charts of that ledger and those earlier days."""
        return self._ledger is ledger and self._earlier is earlier

    def forget(self, bench: str) -> None:
        """Work the bench's charts out anew when they are asked for."""
        self._series.pop(bench, None)
        self._made.pop(bench, None)
        self._spreads.pop(bench, None)
        self._charts.pop(bench, None)
        self._sigmas.clear()

    def kinds(self, bench: str) -> dict[Kind, Series]:
        """Every kind of check that the bench has, with its checks."""
        found = self._series.get(bench)
        if found is None:
            found = self._series[bench] = self._gathered(bench)
        return found

    def _gathered(self, bench: str) -> dict[Kind, Series]:
        today = dict(self._today(bench))
        found: dict[Kind, Series] = {}
        for carried in self._earlier.get(bench, ()):
            kind = kind_carried(carried)
            new = today.pop(kind, Made([], []))
            found[kind] = Series((*take_apart(carried), *new.charted), tuple(new.checks))
        for kind, new in today.items():
            found[kind] = Series(tuple(new.charted), tuple(new.checks))
        return found

    def _today(self, bench: str) -> dict[Kind, Made]:
        found = self._made.get(bench)
        if found is None:
            checks = self._ledger.bench(bench).checks
            found = self._made[bench] = made_today(bench, checks, self._day, self._houses)
        return found

    def chart(
        self, bench: str, kind: Kind, window: Window, division: float, *, ranges: bool = False
    ) -> Chart:
        """The bench's mean and spread (or range) of that kind, against their limits.

        `window` serves for σ while the house has too few checks of the measure.
        """
        start = self.house_sigma(kind.measure) or _by_tolerance(window)
        mine = self._charts.setdefault(bench, {})
        known = mine.get(kind)
        if known is not None and known[:2] == (start, ranges):
            return known[2]
        checks = self.kinds(bench).get(kind, Series()).checks
        drawn = _drawn(checks, start, division, ranges=ranges)
        mine[kind] = start, ranges, drawn
        return drawn

    def error_of(self, bench: str, check: CheckMade, division: float) -> float | None:
        """What the mean of the bench's last check of its kind errs by.

        By the checks carried from earlier days where there are enough of them, which spares
        the Board every chart; else as the chart has it.
        """
        if check.window is None:
            return None
        kind = kind_of(bench, check, self._houses)
        earlier = self._spreads_carried(bench).get(kind, Pooled())
        if earlier.checks >= LEAST_CHECKS and earlier.sigma is not None:
            sigma = max(earlier.sigma, division / math.sqrt(12))
            return sigma / math.sqrt(len(check.readings))
        means = self.chart(bench, kind, check.window, division).means
        return means[-1].error if means else None

    def house_sigma(self, measure: Measure) -> float | None:
        """σ of a reading within a check over all benches; None with fewer than eight checks."""
        if measure not in self._sigmas:
            self._sigmas[measure] = self._pooled(measure)
        return self._sigmas[measure]

    def _pooled(self, measure: Measure) -> float | None:
        benches = dict.fromkeys((*self._earlier, *self._ledger.benches()))
        spreads = (self._spread(bench).get(measure, Pooled()) for bench in benches)
        house = reduce(Pooled.plus, spreads, Pooled())
        if house.checks < LEAST_CHECKS or house.sigma is None:
            return None
        return float(f"{house.sigma:.2g}")

    def _spread(self, bench: str) -> dict[Measure, Pooled]:
        found = self._spreads.get(bench)
        if found is None:
            found = self._spreads[bench] = {}
            today = {
                kind: pooled((check.group.n, check.group.s) for check in made.charted)
                for kind, made in self._today(bench).items()
            }
            for kind, spread in (*self._spreads_carried(bench).items(), *today.items()):
                found[kind.measure] = found.get(kind.measure, Pooled()).plus(spread)
        return found

    def _spreads_carried(self, bench: str) -> dict[Kind, Pooled]:
        found = self._carried.get(bench)
        if found is None:
            found = self._carried[bench] = {
                kind_carried(carried): pooled(spreads_carried(carried))
                for carried in self._earlier.get(bench, ())
            }
        return found


def division_of(measure: Measure, division_g: float) -> float:
    """What a reading of the measure is told to, in its unit: the scale's division for weights."""
    if measure in WEIGHED:
        return division_g
    return float(10 ** -places_of(measure, division_g))


def _by_tolerance(window: Window) -> float:
    return (window.high - window.low) / 2 / TOLERANCE_SIGMAS


def _drawn(
    checks: Sequence[Charted], house_sigma: float, division: float, *, ranges: bool
) -> Chart:
    """Individuals where every check is a single reading, else means and spreads or ranges."""
    if checks and all(check.group.n == 1 for check in checks):
        readings = [check.group.mean for check in checks]
        return single_readings(readings, house_sigma=house_sigma, division_g=division)
    groups = (check.group for check in checks)
    of_checks = mean_and_range if ranges else mean_and_deviation
    return of_checks(groups, house_sigma=house_sigma, division_g=division)
