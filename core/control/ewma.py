"""Small drifts: an exponentially weighted moving average of check means."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from math import sqrt

from core.control.chart import Point

WEIGHT = 0.2
"""λ: what the newest check counts."""
WIDTH = 2.7
"""L: limits, in standard deviations of the average."""


def ewma(means: Iterable[Point], weight: float = WEIGHT, width: float = WIDTH) -> tuple[Point, ...]:
    """EWMA of the points of a mean chart, with limits from their own errors: grams.

    It starts from the centre, so give it the checks since the bench was last set right. The
    variance is carried along, v ← λ² error² + (1 − λ)² v: with checks of one size these are the
    time-varying limits of NIST/SEMATECH e-Handbook 6.3.2.4, and other sizes keep their due.
    """
    points: list[Point] = []
    for centre, away, variance in _running(means, weight):
        deviation = sqrt(variance)
        reach = width * deviation
        points.append(Point(centre + away, centre, deviation, centre - reach, centre + reach))
    return tuple(points)


def drifts(means: Iterable[Point], weight: float = WEIGHT, width: float = WIDTH) -> bool:
    """Whether the last point of that EWMA is beyond its limits: all that is asked of most."""
    away = variance = 0.0
    for _, away, variance in _running(means, weight):  # noqa: B007 - the last one is asked for
        pass
    return away * away > width * width * variance


def _running(means: Iterable[Point], weight: float) -> Iterator[tuple[float, float, float]]:
    """Each point's centre, the average's distance from it, and the variance of that."""
    away, variance, kept = 0.0, 0.0, (1 - weight) ** 2
    for value, centre, error, _, _ in means:
        away += weight * (value - centre - away)
        new = weight * error
        variance = new * new + kept * variance
        yield centre, away, variance
