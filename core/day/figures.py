"""The figures of any stretch of the work: a day, a week, a span, a vitola's, a bench's.

Leaf is filler, as in the day's leaf yield: binders and wrappers go by pieces. Mean deviations
are over checks, and their standard errors take checks for independent.
"""

from __future__ import annotations

import math
from typing import NamedTuple

from core.day.yields import first_pass_yield


class Sums(NamedTuple):
    """What figures are told from, added up.

    `good_of_leaf`, `filler_g` and `in_good_g` are of days on which filler was issued: on the
    others it is not known what was used. What no summary tells is None.
    """

    made: int
    good: int
    rejected: int
    rework: int
    second: int
    n_dev: int
    sum_dev_g: float
    sum_sq_dev_g2: float
    filler_g: float
    good_of_leaf: int
    in_good_g: float | None
    unexplained_g: float | None


class Figures(NamedTuple):
    """What was made and how; None where it cannot be told. `second`: sold as seconds."""

    made: int
    good: int
    rejected: int
    rework: int
    first_pass_yield: float | None
    filler_used_kg: float
    filler_kg_per_1000_good: float | None
    leaf_yield: float | None
    unexplained_g: float | None
    mean_deviation_g: float | None
    deviation_se_g: float | None
    second: int


def figures(sums: Sums) -> Figures:
    """Grams a good cigar are kilograms a thousand."""
    mean, error = mean_and_error(sums.n_dev, sums.sum_dev_g, sums.sum_sq_dev_g2)
    used, told = sums.filler_g, sums.in_good_g
    return Figures(
        made=sums.made,
        good=sums.good,
        rejected=sums.rejected,
        rework=sums.rework,
        first_pass_yield=first_pass_yield(sums.good, sums.rejected, sums.rework, sums.second),
        filler_used_kg=used / 1000,
        filler_kg_per_1000_good=used / sums.good_of_leaf if sums.good_of_leaf else None,
        leaf_yield=told / used if told is not None and used > 0 else None,
        unexplained_g=sums.unexplained_g,
        mean_deviation_g=mean,
        deviation_se_g=error,
        second=sums.second,
    )


def mean_and_error(n: int, total: float, squares: float) -> tuple[float | None, float | None]:
    """A mean and its standard error from a sum and a sum of squares; None where not told."""
    if not n:
        return None, None
    mean = total / n
    if n < 2:
        return mean, None
    variance = max(0.0, squares - n * mean * mean) / (n - 1)
    return mean, math.sqrt(variance / n)
