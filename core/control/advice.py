"""Whether a bench packs off target, for certain, and what that costs in leaf."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Literal, NamedTuple

from core.checks import mean_and_spread
from core.recipe.student import t_quantile

LEAST_CHECKS = 5
"""Check means from which an interval is worth showing: with fewer, t alone is over 2.8."""

Standing = Literal["heavy", "light", "noise", "too_few"]


class Estimate(NamedTuple):
    """A mean deviation and its interval, in grams."""

    mean_g: float
    low_g: float
    high_g: float

    @property
    def apart(self) -> Literal["heavy", "light", "noise"]:
        """On which side of zero the whole interval lies, if on one."""
        return "heavy" if self.low_g > 0 else "light" if self.high_g < 0 else "noise"

    @property
    def at_least_g(self) -> float:
        """The end nearest zero, without sign; 0 where the interval holds zero."""
        return max(0.0, self.low_g, -self.high_g)

    def times(self, factor: float) -> Estimate:
        """All three, `factor` (≥ 0) times as much."""
        return Estimate(self.mean_g * factor, self.low_g * factor, self.high_g * factor)


class Advice(NamedTuple):
    """What a bench's checks say: per bunch on the scale, and standard grams of filler a week.

    Both None where there are too few checks. `checks` is how many there were.
    """

    checks: int
    verdict: Standing
    per_bunch: Estimate | None
    per_week: Estimate | None


def advice(
    check_means: Sequence[float], *, bunches_per_week: float, standard_fraction: float
) -> Advice:
    """Judge the mean deviations of recent checks (grams on the scale, bunches or filler).

    `standard_fraction` turns a gram of today's filler into standard grams, (1 − M) ÷ (1 − M0);
    what a bunch weighs beyond its target is taken for filler. The verdict is heavy or light
    only where the 95 % interval of the mean excludes zero. Of 300 benches on target some 15
    will seem off by chance: look first at the greatest `per_week.at_least_g`.
    """
    n = len(check_means)
    if n < LEAST_CHECKS:
        return Advice(n, "too_few", None, None)
    per_bunch = estimate(check_means, 0.95)
    per_week = per_bunch.times(bunches_per_week * standard_fraction)
    return Advice(n, per_bunch.apart, per_bunch, per_week)


def estimate(check_means: Sequence[float], confidence: float) -> Estimate:
    """Mean of check means (two or more) and its interval by Student's t: grams.

    The spread is that of the check means, so what varies from check to check is in it, not
    only what varies within one. Each check counts once, however many it weighed: common practice.
    """
    mean, s = mean_and_spread(check_means)
    if s is None:
        raise ValueError("one check has no interval")
    n = len(check_means)
    reach = t_quantile((1 + confidence) / 2, n - 1) * s / math.sqrt(n)
    return Estimate(mean, mean - reach, mean + reach)
