"""A straight line through weighted points, by least squares."""

from __future__ import annotations

from collections.abc import Sequence
from math import fsum
from typing import NamedTuple


class StraightLine(NamedTuple):
    """y = intercept + slope x, with the weighted sums of squares it came from."""

    intercept: float
    slope: float
    x_mean: float
    x_spread: float
    y_mean: float
    y_spread: float
    residual_ss: float


def straight_line(x: Sequence[float], y: Sequence[float], weights: Sequence[float]) -> StraightLine:
    """Least squares of y on x about the weighted means; level where x does not vary.

    `x_spread` and `y_spread` are weighted sums of squares about the means.
    """
    total = fsum(weights)
    x_mean = fsum(w * xi for w, xi in zip(weights, x, strict=True)) / total
    y_mean = fsum(w * yi for w, yi in zip(weights, y, strict=True)) / total
    dx, dy = [xi - x_mean for xi in x], [yi - y_mean for yi in y]
    x_spread = fsum(w * a * a for w, a in zip(weights, dx, strict=True))
    y_spread = fsum(w * b * b for w, b in zip(weights, dy, strict=True))
    across = fsum(w * a * b for w, a, b in zip(weights, dx, dy, strict=True))
    slope = across / x_spread if x_spread else 0.0
    residual_ss = fsum(
        w * (b - slope * a) * (b - slope * a) for w, a, b in zip(weights, dx, dy, strict=True)
    )
    intercept = y_mean - slope * x_mean
    return StraightLine(intercept, slope, x_mean, x_spread, y_mean, y_spread, residual_ss)
