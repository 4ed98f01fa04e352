"""A rolling room whose bunchers drift, weighed by one way of going round or another."""

from __future__ import annotations

import math
import random
from collections.abc import Callable, Sequence
from statistics import fmean, variance
from typing import NamedTuple

from core.checks import Verdict, Window, judge
from core.control.chart import Point
from core.control.ewma import ewma
from core.control.rules import Rule, breaks

BENCHES, DAYS, DAY_MIN = 60, 50, 480.0
READINGS, SIGMA_G = 5, 0.18
WINDOW = Window(0.0, -0.6, 0.6)
EVERY_MIN = 60.0
RULES: frozenset[Rule] = frozenset({"beyond", "two_of_three", "four_of_five", "one_side"})
LOOK_BACK = 40
"""Checks after which the EWMA has forgotten: .8 to the 40th is a ten-thousandth."""


class Drift(NamedTuple):
    """How a buncher leaves the target: grams an hour up to `most_g`, which stays."""

    per_hour_g: float
    most_g: float


SLOW = Drift(0.1, 0.5)
"""As hands tire and leaf dries: common practice, no source."""
STEP = Drift(math.inf, 0.25)
"""A buncher who takes another handful from one bunch to the next."""


class Seen(NamedTuple):
    """What a bench's checks have been: verdicts and chart points since it was last set right."""

    verdicts: list[Verdict]
    points: list[Point]


Interval = Callable[[Seen], float]
"""Minutes to the next check."""


class Found(NamedTuple):
    """Weigh-ins made, working minutes from each drift's beginning to its signal, false alarms."""

    weighed: int
    delays_min: list[float]
    false_alarms: int

    def plus(self, other: Found) -> Found:
        """Both together."""
        return Found(
            self.weighed + other.weighed,
            self.delays_min + other.delays_min,
            self.false_alarms + other.false_alarms,
        )

    def against(self, other: Found) -> Ratio:
        """Mean time to detection, ours ÷ the other's."""
        ours, others = (
            (fmean(d), variance(d) / len(d)) for d in (self.delays_min, other.delays_min)
        )
        ratio = ours[0] / others[0]
        relative = ours[1] / ours[0] ** 2 + others[1] / others[0] ** 2
        return Ratio(ratio, ratio * math.sqrt(relative))


class Ratio(NamedTuple):
    """A ratio of means and its standard error."""

    value: float
    error: float


def go_round(interval: Interval, drift: Drift, seed: int) -> Found:
    """Weigh every bench for all the days; a bench that signals is set right at once.

    A quarter of the benches begin to drift every two days in the mean and the rest every ten,
    at times that the rounds do not know.
    """
    weighed, delays, alarms = 0, list[float](), 0
    for bench in range(BENCHES):
        days = 2.0 if bench % 4 == 0 else 10.0
        made, bench_delays, false = _bench(
            interval, drift, days * DAY_MIN, random.Random(f"{seed} {bench}")
        )
        weighed, alarms = weighed + made, alarms + false
        delays += bench_delays
    return Found(weighed, delays, alarms)


def _bench(
    interval: Interval, drift: Drift, mean_time_min: float, rng: random.Random
) -> tuple[int, list[float], int]:
    error = SIGMA_G / math.sqrt(READINGS)
    now, weighed, false_alarms = rng.uniform(0, EVERY_MIN), 0, 0
    onset = rng.expovariate(1 / mean_time_min)
    side = rng.choice((-1, 1))
    delays: list[float] = []
    seen = Seen([], [])
    while now < DAYS * DAY_MIN:
        mean = side * min(drift.most_g, drift.per_hour_g * (now - onset) / 60) if now > onset else 0
        verdict = judge([rng.gauss(mean, SIGMA_G) for _ in range(READINGS)], WINDOW)
        seen.verdicts.append(verdict)
        seen.points.append(Point(verdict.mean, 0.0, error, -3 * error, 3 * error))
        weighed += 1
        if _signals(seen.points):
            if now > onset:
                delays.append(now - onset)
                onset = now + rng.expovariate(1 / mean_time_min)
                side = rng.choice((-1, 1))
            else:
                false_alarms += 1
            seen.points.clear()
        now += interval(seen)
    return weighed, delays, false_alarms


def _signals(points: Sequence[Point]) -> bool:
    """Whether the newest point breaks a run rule (they reach back eight), or the EWMA's limits."""
    last = points[-8:]
    average = ewma(points[-LOOK_BACK:])[-1]
    return (
        not average.low <= average.value <= average.high
        or max((found.at for found in breaks(last, RULES)), default=-1) == len(last) - 1
    )
