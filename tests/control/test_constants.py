"""Shewhart's constants against the printed tables and numerical integration."""

from __future__ import annotations

import math

import numpy as np
import pytest
from numpy.polynomial.legendre import leggauss
from scipy import integrate
from scipy.special import ndtr

from core.control.constants import deviation_spread, of_deviation, of_range, range_spread


@pytest.mark.parametrize(
    ("n", "d2", "d3", "c4", "a2", "a3"),
    [
        (2, 1.128379, 0.852502, 0.797885, 1.879971, 2.658681),
        (5, 2.325929, 0.864082, 0.939986, 0.576819, 1.427299),
        (10, 3.077505, 0.797051, 0.972659, 0.308264, 0.975350),
    ],
)
def test_means_as_printed(n: int, d2: float, d3: float, c4: float, a2: float, a3: float) -> None:
    """NIST/SEMATECH e-Handbook 6.3.2; ISO 7870-2."""
    of_s, of_r = of_deviation(n), of_range(n)
    assert (of_r.d2, of_r.d3, of_s.c4) == pytest.approx((d2, d3, c4), abs=6e-7)
    assert pytest.approx((a2, a3), abs=1e-6) == (of_r.A2, of_s.A3)


@pytest.mark.parametrize(
    ("n", "b3", "b4", "d3", "d4"),
    [
        (2, 0, 3.266532, 0, 3.266532),
        (5, 0, 2.088998, 0, 2.114499),
        (10, 0.283706, 1.716294, 0.223023, 1.776977),
    ],
)
def test_limits_as_printed(n: int, b3: float, b4: float, d3: float, d4: float) -> None:
    """NIST/SEMATECH e-Handbook 6.3.2; ISO 7870-2. For two readings s is R/√2: one limit."""
    of_s, of_r = of_deviation(n), of_range(n)
    assert pytest.approx((b3, b4, d3), abs=1e-6) == (of_s.B3, of_s.B4, of_r.D3)
    assert pytest.approx(d4, abs=1e-6) == of_r.D4


def test_ranges_by_integration() -> None:
    """E W = ∫ P(W > r) dr, E W² = ∫ 2r P(W > r) dr; P(W ≤ r) = n ∫ φ(x) (Φ(x+r) − Φ(x))ⁿ⁻¹ dx."""
    x, x_weights = (9 * part for part in leggauss(150))
    r, r_weights = leggauss(100)
    r, r_weights = 8 * (r + 1), 8 * r_weights
    density = np.exp(-x * x / 2) / math.sqrt(2 * math.pi) * x_weights
    between = ndtr(x[None, :] + r[:, None]) - ndtr(x)[None, :]
    for n in range(2, 26):
        over = 1 - n * (between ** (n - 1)) @ density
        mean, square = over @ r_weights, (2 * r * over) @ r_weights
        assert of_range(n).d2 == pytest.approx(mean, abs=2e-9)
        assert of_range(n).d3 == pytest.approx(math.sqrt(square - mean**2), abs=2e-9)


@pytest.mark.parametrize("n", [2, 3, 7, 25, 60])
def test_c4_by_integration(n: int) -> None:
    """The mean of √(χ²/ν), by its density."""
    dof = n - 1

    def part(s: float) -> float:
        log = dof / 2 * math.log(dof / 2) + math.log(2) - math.lgamma(dof / 2)
        return float(s * math.exp(log + (dof - 1) * math.log(s) - dof * s * s / 2)) if s else 0.0

    mean, _ = integrate.quad(part, 0, 12, epsabs=1e-12, limit=400, points=[0.8, 1.0, 1.2])
    assert of_deviation(n).c4 == pytest.approx(mean, abs=1e-9)


@pytest.mark.parametrize("n", [2, 5, 6, 7, 25])
def test_spreads_in_sigma_say_the_same_as_the_constants(n: int) -> None:
    s, r = deviation_spread(n), range_spread(n)
    assert (s.low, s.high) == pytest.approx(
        (max(0.0, s.mean - 3 * s.deviation), s.mean + 3 * s.deviation)
    )
    assert (r.low, r.high) == pytest.approx(
        (max(0.0, r.mean - 3 * r.deviation), r.mean + 3 * r.deviation)
    )


@pytest.mark.parametrize("n", [1, 0])
def test_one_reading_has_no_spread(n: int) -> None:
    with pytest.raises(ValueError, match="no spread"):
        deviation_spread(n)
    with pytest.raises(ValueError, match="no spread"):
        range_spread(n)
