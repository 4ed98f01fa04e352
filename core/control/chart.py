"""Control charts of a bench's checks, on deviations from target.

Each check is judged by what was known before it: σ from the latest 50 earlier checks found in
control (at least 8; the house's σ until then). A check found beyond 3σ limits, of mean or of
spread, teaches nothing, so a fault cannot widen the limits that show it; and as limits never
look ahead, what a chart once said of a check it says for good.

The centre is 0, the target, not the bench's own mean: a bench that settles 0.4 g heavy costs
leaf all day, and a centre that is learned would call that normal, or creep along with a slow
drift. "Changed", rather than "off target", is the same chart with the bench's own earlier mean
as `centre`: the `baseline.mean` of a chart of the days before.

Limits are Shewhart's for σ within a check (ISO 7870-2). If the mean wanders from check to
check for reasons the house accepts, they are narrow for it; `advice` allows for that.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from typing import NamedTuple

from core.control.constants import MOST_FOR_RANGE, Spread, deviation_spread, range_spread
from core.control.limits import Baseline, Learning
from core.control.subgroups import Subgroup

_Row = tuple[int, float, float | None, Spread | None]


class Point(NamedTuple):
    """One point of a chart: grams. `error` is the standard deviation of `value` in control."""

    value: float
    centre: float
    error: float
    low: float
    high: float


class Chart(NamedTuple):
    """A mean and its spread, check by check; None where a check has no spread to show.

    The first `house_points` checks were judged by the house's σ; `baseline` judges the next.
    """

    means: tuple[Point, ...]
    spreads: tuple[Point | None, ...]
    house_points: int
    baseline: Baseline


def mean_and_deviation(
    checks: Iterable[Subgroup], *, house_sigma: float, division_g: float, centre: float = 0.0
) -> Chart:
    """X̄–s chart of checks in time order, sizes as they are: grams (ISO 7870-2).

    A single reading has a mean but no spread, and teaches nothing.
    """
    rows = ((n, mean, s, None if s is None else deviation_spread(n)) for n, mean, s, _ in checks)
    return _chart(rows, Learning(house_sigma, division_g), centre)


def mean_and_range(
    checks: Iterable[Subgroup], *, house_sigma: float, division_g: float, centre: float = 0.0
) -> Chart:
    """X̄–R chart of checks in time order: grams (ISO 7870-2).

    A check of one reading, of more than 25, or whose range was not kept, has none to show.
    """
    rows = (
        (n, mean, wide, range_spread(n) if wide is not None and n <= MOST_FOR_RANGE else None)
        for n, mean, _, wide in checks
    )
    return _chart(rows, Learning(house_sigma, division_g), centre)


def single_readings(
    deviations: Sequence[float], *, house_sigma: float, division_g: float, centre: float = 0.0
) -> Chart:
    """Individuals and moving range of single readings in time order: grams (ISO 7870-2).

    A moving range takes in two readings; it teaches only where both were in control.
    """
    learning = Learning(house_sigma, division_g)
    of_two = range_spread(2)
    means: list[Point] = []
    spreads: list[Point | None] = []
    before: Point | None = None
    house_points = 0
    for value in deviations:
        house_points += not learning.own
        sigma = learning.sigma
        point = Point(value, centre, sigma, centre - 3 * sigma, centre + 3 * sigma)
        means.append(point)
        moved = None
        if before is not None:
            moved = _spread(abs(value - before.value), of_two, sigma)
            if within(before) and within(point) and within(moved):
                learning.learn(value, moved.value, of_two)
        spreads.append(moved)
        before = point
    return Chart(tuple(means), tuple(spreads), house_points, learning.baseline())


def within(point: Point) -> bool:
    """Whether a point is within its limits; on a limit is within."""
    return point.low <= point.value <= point.high


def _chart(rows: Iterable[_Row], learning: Learning, centre: float) -> Chart:
    means: list[Point] = []
    spreads: list[Point | None] = []
    house_points = 0
    for n, mean, spread, in_sigma in rows:
        house_points += not learning.own
        sigma = learning.sigma
        error = sigma / math.sqrt(n)
        low, high = centre - 3 * error, centre + 3 * error
        means.append(Point(mean, centre, error, low, high))
        if spread is None or in_sigma is None:
            spreads.append(None)
            continue
        beside = _spread(spread, in_sigma, sigma)
        spreads.append(beside)
        if low <= mean <= high and beside.low <= spread <= beside.high:
            learning.learn(mean, spread, in_sigma)
    return Chart(tuple(means), tuple(spreads), house_points, learning.baseline())


def _spread(value: float, in_sigma: Spread, sigma: float) -> Point:
    mean, deviation, low, high, _ = in_sigma
    return Point(value, mean * sigma, deviation * sigma, low * sigma, high * sigma)
