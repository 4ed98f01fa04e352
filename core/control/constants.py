"""Shewhart's constants: what the spread of n readings is, in terms of σ."""

from __future__ import annotations

import math
from functools import lru_cache
from typing import NamedTuple

MOST_FOR_RANGE = 25
"""Readings up to which a range is charted; beyond it wastes most of what was weighed."""

_RANGE = (
    (1.128379167, 0.852502466),
    (1.692568751, 0.888368004),
    (2.058750746, 0.879808203),
    (2.325928947, 0.864081941),
    (2.534412721, 0.848039686),
    (2.704356751, 0.833205336),
    (2.847200612, 0.819831490),
    (2.970026324, 0.807834275),
    (3.077505462, 0.797050674),
    (3.172872704, 0.787314621),
    (3.258455280, 0.778478341),
    (3.335980354, 0.770416202),
    (3.406763108, 0.763023096),
    (3.471826890, 0.756211430),
    (3.531982786, 0.749908089),
    (3.587883962, 0.744051784),
    (3.640063758, 0.738590853),
    (3.688963023, 0.733481496),
    (3.734950120, 0.728686346),
    (3.778335830, 0.724173341),
    (3.819384643, 0.719914808),
    (3.858323423, 0.715886735),
    (3.895348148, 0.712068175),
    (3.930629220, 0.708440766),
)
"""d2 and d3 for n = 2 to 25, by numerical integration; the tests integrate them again."""


class OfDeviation(NamedTuple):
    """For sample standard deviations of n readings: s has mean c4 σ; limits as ISO 7870-2."""

    c4: float
    A3: float
    B3: float
    B4: float


class OfRange(NamedTuple):
    """For ranges of n readings: R has mean d2 σ and deviation d3 σ; limits as ISO 7870-2."""

    d2: float
    d3: float
    A2: float
    D3: float
    D4: float


class Spread(NamedTuple):
    """A spread of n readings in σ: its mean, its own deviation and its 3σ limits.

    `weight` is what its estimate of σ counts when several are pooled: mean² ÷ deviation².
    """

    mean: float
    deviation: float
    low: float
    high: float
    weight: float


@lru_cache(maxsize=256)
def of_deviation(n: int) -> OfDeviation:
    """Constants for standard deviations of `n` readings, from 2 (ISO 7870-2, table 2)."""
    _enough(n)
    c4 = math.sqrt(2 / (n - 1)) * math.exp(math.lgamma(n / 2) - math.lgamma((n - 1) / 2))
    reach = 3 * math.sqrt(1 - c4 * c4) / c4
    return OfDeviation(c4, 3 / (c4 * math.sqrt(n)), max(0.0, 1 - reach), 1 + reach)


@lru_cache(maxsize=64)
def of_range(n: int) -> OfRange:
    """Constants for ranges of `n` readings, 2 to 25 (ISO 7870-2, table 2)."""
    _enough(n)
    d2, d3 = _RANGE[n - 2]
    reach = 3 * d3 / d2
    return OfRange(d2, d3, 3 / (d2 * math.sqrt(n)), max(0.0, 1 - reach), 1 + reach)


@lru_cache(maxsize=256)
def deviation_spread(n: int) -> Spread:
    """The sample standard deviation of `n` readings, in σ."""
    c4, _, low, high = of_deviation(n)
    own = math.sqrt(1 - c4 * c4)
    return Spread(c4, own, low * c4, high * c4, (c4 / own) ** 2)


@lru_cache(maxsize=64)
def range_spread(n: int) -> Spread:
    """The range of `n` readings, in σ."""
    d2, d3, _, low, high = of_range(n)
    return Spread(d2, d3, low * d2, high * d2, (d2 / d3) ** 2)


def _enough(n: int) -> None:
    if n < 2:
        raise ValueError(f"{n} reading has no spread")
