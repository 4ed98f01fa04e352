"""EWMA against the handbook's example and its own run lengths."""

from __future__ import annotations

import math
import random
from statistics import fmean, stdev

import numpy as np
import pytest
from numpy.polynomial.legendre import leggauss
from numpy.typing import NDArray

from core.control.chart import Point, within
from core.control.ewma import WEIGHT, WIDTH, drifts, ewma
from core.control.rules import Break, breaks
from tests.control.streams import points

NIST = (
    *(52.0, 47.0, 53.0, 49.3, 50.1, 47.0, 51.0, 50.1, 51.2, 50.5),
    *(49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1),
)
NIST_EWMA = (
    *(50.60, 49.52, 50.56, 50.18, 50.16, 49.21, 49.75, 49.85, 50.26, 50.33),
    *(50.11, 49.36, 49.52, 50.05, 49.38, 49.92, 50.73, 51.23, 51.94, 51.99),
)


def test_the_handbooks_example() -> None:
    """NIST/SEMATECH e-Handbook 6.3.2.4: λ .3, s 2.0539; limits 52.5884 and 47.4116; none out."""
    found = ewma(points(NIST, 50, 2.0539), weight=0.3, width=3)
    assert [point.value for point in found] == pytest.approx(NIST_EWMA, abs=0.0051)
    assert (found[-1].high, found[-1].low) == pytest.approx((52.5884, 47.4116), abs=1e-4)
    assert breaks(found, {"beyond"}) == ()


def test_limits_open_with_time_as_their_closed_form_says() -> None:
    """NIST/SEMATECH e-Handbook 6.3.2.4: L s √(λ/(2−λ) (1 − (1−λ)^2i))."""
    for i, point in enumerate(ewma(points([0.0] * 12, 0, 0.3)), start=1):
        reach = 2.7 * 0.3 * math.sqrt(0.2 / 1.8 * (1 - 0.8 ** (2 * i)))
        assert (point.low, point.high) == pytest.approx((-reach, reach))


def test_each_check_counts_by_its_own_error() -> None:
    """Σ λ² (1−λ)^2(i−j) e_j², for errors that differ."""
    errors = [0.1, 0.3, 0.2]
    made = [Point(0.0, 0.0, e, -3 * e, 3 * e) for e in errors]
    variance = sum((0.2 * 0.8 ** (2 - j) * e) ** 2 for j, e in enumerate(errors))
    assert ewma(made)[-1].error == pytest.approx(math.sqrt(variance))


# -- run lengths ------------------------------------------------------------------------


def run_length(weight: float, width: float, shift: float = 0.0, opening: int = 0) -> float:
    """Mean run length from the centre, by the integral equation and Gauss-Legendre quadrature.

    The last `opening` steps back to the start have limits that still open with time.
    """
    nodes, node_weights = leggauss(80)

    def half(i: int | None) -> float:
        settled = width * math.sqrt(weight / (2 - weight))
        return settled if i is None else settled * math.sqrt(1 - (1 - weight) ** (2 * i))

    def steps(from_half: float, to_half: float) -> NDArray[np.float64]:
        there, here = to_half * nodes[None, :], from_half * nodes[:, None]
        z = (there - (1 - weight) * here) / weight - shift
        density = np.exp(-z * z / 2) / math.sqrt(2 * math.pi) / weight
        return np.asarray(density * to_half * node_weights[None, :])

    still = steps(half(None), half(None))
    length = np.linalg.solve(np.eye(len(nodes)) - still, np.ones(len(nodes)))
    after = half(None)
    for i in range(opening, 0, -1):
        length = 1 + steps(half(i), after) @ length
        after = half(i)
    z = (after * nodes) / weight - shift
    density = np.exp(-z * z / 2) / math.sqrt(2 * math.pi) / weight
    return float(1 + (density * after * node_weights) @ length)


@pytest.mark.parametrize(
    ("shift", "printed"), [(0, 500), (0.25, 150), (0.5, 41.8), (1, 10.5), (2, 3.7)]
)
def test_the_integral_equation_is_the_printed_one(shift: float, printed: float) -> None:
    """Lucas & Saccucci, Technometrics 32 (1990), λ .2, L 2.962 (figures from memory)."""
    assert run_length(0.2, 2.962, shift) == pytest.approx(printed, rel=0.012)


@pytest.mark.parametrize(("shift", "runs"), [(0.0, 150), (1.0, 2000)])
def test_run_lengths_of_our_average(shift: float, runs: int) -> None:
    """Seeded runs against the integral equation with opening limits: within four errors."""
    rng = random.Random(21)
    lengths: list[int] = []
    chunk = 400 if shift == 0 else 40
    while len(lengths) < runs:
        broken: tuple[Break, ...] = ()
        made: list[float] = []
        while not broken:
            made += [rng.gauss(shift, 1) for _ in range(chunk)]
            broken = breaks(ewma(points(made)), {"beyond"})
        lengths.append(broken[0].at + 1)
    expected = run_length(WEIGHT, WIDTH, shift, opening=40)
    error = stdev(lengths) / len(lengths) ** 0.5
    assert abs(fmean(lengths) - expected) < 4 * error, (fmean(lengths), expected, error)


@pytest.mark.parametrize("seed", range(20))
def test_whether_it_drifts_is_what_its_last_point_says(seed: int) -> None:
    dice = random.Random(seed)
    made = points([dice.gauss(0.12, 0.3) for _ in range(30)], 0, 0.3)
    for length in range(len(made) + 1):
        last = ewma(made[:length])[-1:]
        assert drifts(made[:length]) == any(not within(point) for point in last)
