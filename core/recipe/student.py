"""Student's t for whole degrees of freedom, in closed form."""

from __future__ import annotations

import math
from functools import lru_cache


def _between(theta: float, dof: int) -> float:
    """Probability that |t| is under √dof tan θ (Abramowitz & Stegun 26.7.3 and 26.7.4)."""
    sine, cosine = math.sin(theta), math.cos(theta)
    odd = dof % 2 == 1
    term = cosine if odd else 1.0
    total = 0.0
    for k in range(3 if odd else 2, dof + 1, 2):
        total += term
        term *= (k - 1) / k * cosine * cosine
    return 2 / math.pi * (theta + sine * total) if odd else sine * total


@lru_cache(maxsize=256)
def t_quantile(probability: float, dof: int) -> float:
    """Value that t with `dof` (whole, from 1) stays under with `probability` (0 to 1)."""
    if probability < 0.5:
        return -t_quantile(1 - probability, dof)
    inside = 2 * probability - 1
    low, high = 0.0, math.pi / 2
    while low < (middle := (low + high) / 2) < high:
        if _between(middle, dof) < inside:
            low = middle
        else:
            high = middle
    return math.sqrt(dof) * math.tan(low)


def t_beyond(t: float, dof: int) -> float:
    """Probability that |t| with `dof` (whole, from 1) is at least the size of `t`."""
    return max(0.0, 1 - _between(math.atan(abs(t) / math.sqrt(dof)), dof))
