"""Quantiles of χ², from the regularized incomplete gamma function."""

from __future__ import annotations

import math
from functools import lru_cache

_TERMS = 100_000
_CLOSE = 1e-15


@lru_cache(maxsize=256)
def chi_square_quantile(probability: float, dof: float) -> float:
    """Value that χ² with `dof` (> 0) stays under with `probability` (between 0 and 1).

    Newton's steps on `chi_square_below` from the cube-root approximation of Wilson and Hilferty
    (1931), kept between values known to be too low and too high.
    """
    x = dof * max(0.05, 1 - 2 / (9 * dof) + _normal(probability) * math.sqrt(2 / (9 * dof))) ** 3
    low, high = 0.0, math.inf
    for _ in range(100):
        over = chi_square_below(x, dof) - probability
        low, high = (low, x) if over > 0 else (x, high)
        log_density = (dof / 2 - 1) * math.log(x / 2) - x / 2 - math.lgamma(dof / 2)
        there = x - 2 * over * math.exp(-log_density)
        if not low < there < high:
            there = 2 * x if high == math.inf else (low + high) / 2
        if abs(there - x) <= 1e-13 * x:
            return there
        x = there
    return x


def chi_square_below(x: float, dof: float) -> float:
    """Probability that χ² with `dof` is under `x` (> 0) (Abramowitz & Stegun 26.4.19)."""
    a, half = dof / 2, x / 2
    front = math.exp(a * math.log(half) - half - math.lgamma(a))
    return front * _series(a, half) if half < a + 1 else 1 - front * _fraction(a, half)


def _series(a: float, x: float) -> float:
    """Abramowitz & Stegun 6.5.29."""
    term = total = 1 / a
    for k in range(1, _TERMS):
        term *= x / (a + k)
        total += term
        if term < total * _CLOSE:
            break
    return total


def _fraction(a: float, x: float) -> float:
    """Abramowitz & Stegun 6.5.31, by its convergents (Lentz's way)."""
    b = x + 1 - a
    c, d = math.inf, 1 / b
    value = d
    for k in range(1, _TERMS):
        above = -k * (k - a)
        b += 2
        d = 1 / (above * d + b)
        c = b + above / c
        value *= c * d
        if abs(c * d - 1) < _CLOSE:
            break
    return value


def _normal(probability: float) -> float:
    """Normal quantile within 0.00045, a start for Newton (Abramowitz & Stegun 26.2.23)."""
    tail = min(probability, 1 - probability)
    t = math.sqrt(-2 * math.log(tail))
    above = 2.515517 + t * (0.802853 + t * 0.010328)
    below = 1 + t * (1.432788 + t * (0.189269 + t * 0.001308))
    z = t - above / below
    return z if probability > 0.5 else -z
