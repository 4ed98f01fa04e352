"""Capability against the handbook, χ² against scipy, intervals against seeded benches."""

from __future__ import annotations

import math
import random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import stats

from core.control.capability import Bounded, Capability, Unjudged, capability, fit
from core.control.chi_square import chi_square_below, chi_square_quantile

Z = stats.norm.ppf(0.975)


def judged(checks: list[list[float]], low: float, high: float) -> Capability:
    found = capability(checks, low, high)
    assert isinstance(found, Capability)
    return found


# -- χ² ---------------------------------------------------------------------------------


@settings(deadline=None, max_examples=200)
@given(st.floats(0.0005, 0.9995), st.integers(1, 20_000))
def test_quantile_is_scipys(probability: float, dof: int) -> None:
    assert chi_square_quantile(probability, dof) == pytest.approx(
        stats.chi2.ppf(probability, dof), rel=1e-9
    )


@settings(deadline=None, max_examples=100)
@given(st.floats(0.01, 3), st.integers(1, 500))
def test_probability_is_scipys(part: float, dof: int) -> None:
    assert chi_square_below(part * dof, dof) == pytest.approx(
        stats.chi2.cdf(part * dof, dof), abs=1e-11
    )


@pytest.mark.parametrize(
    ("probability", "dof", "printed"),
    [(0.95, 1, 3.841), (0.95, 10, 18.307), (0.05, 10, 3.940), (0.975, 100, 129.561)],
)
def test_quantile_is_the_printed_one(probability: float, dof: int, printed: float) -> None:
    """NIST/SEMATECH e-Handbook 1.3.6.7.4."""
    assert chi_square_quantile(probability, dof) == pytest.approx(printed, abs=6e-4)


# -- indices ----------------------------------------------------------------------------


def test_the_handbooks_example() -> None:
    """NIST/SEMATECH e-Handbook 6.1.6: limits 8 and 20, mean 16, s 2; Cp 1, Cpk .6667.

    Single readings 16 ± a: their own s is 2, and so is what stands in for the spread within.
    """
    away = 2 * math.sqrt(39 / 40)
    found = judged([[16 + sign * away] for sign in (1, -1) for _ in range(20)], 8, 20)
    assert (found.mean, found.within_s, found.total_s) == pytest.approx((16, 2, 2))
    assert (found.cp.value, found.cpk.value, found.ppk) == pytest.approx((1, 2 / 3, 2 / 3))


def test_intervals_by_their_formulas() -> None:
    """Cp √(χ²/ν); Bissell (1990) for Cpk."""
    rng = random.Random(1)
    found = judged([[rng.gauss(0.1, 0.2) for _ in range(5)] for _ in range(10)], -0.6, 0.6)
    cp, cpk = found.cp, found.cpk
    assert cp.low == pytest.approx(cp.value * math.sqrt(stats.chi2.ppf(0.025, 40) / 40))
    assert cp.high == pytest.approx(cp.value * math.sqrt(stats.chi2.ppf(0.975, 40) / 40))
    reach = Z * math.sqrt(1 / (9 * 50) + cpk.value**2 / (2 * 40))
    assert (cpk.low, cpk.high) == pytest.approx((cpk.value - reach, cpk.value + reach))


def test_the_nearer_side_of_an_uneven_window_decides() -> None:
    checks = [[0.2, -0.2]] * 20
    even, uneven = judged(checks, -0.6, 0.6), judged(checks, -0.4, 0.8)
    assert even.cp.value == pytest.approx(uneven.cp.value)
    assert uneven.cpk.value == pytest.approx(even.cpk.value * 4 / 6)


def test_checks_that_differ_lower_ppk_and_not_cpk() -> None:
    """Each check is as close as before, but they lie 0.3 g either side of the target."""
    found = judged([[0.2, 0.4], [-0.2, -0.4]] * 10, -0.6, 0.6)
    assert found.within_s == pytest.approx(math.sqrt(0.02))
    assert found.ppk < found.cpk.value / 2


def test_off_target_beyond_the_window_is_below_zero() -> None:
    assert judged([[0.7, 0.9]] * 20, -0.6, 0.6).cpk.value < 0


@pytest.mark.parametrize(
    ("checks", "why"),
    [([[0.1, 0.2]] * 14 + [[0.0]], "too_few"), ([], "too_few"), ([[0.1] * 5] * 8, "no_spread")],
)
def test_what_cannot_be_judged(checks: list[list[float]], why: str) -> None:
    readings = sum(len(check) for check in checks)
    assert capability(checks, -0.6, 0.6) == Unjudged(readings, why)  # type: ignore[arg-type]


def test_thirty_readings_are_enough() -> None:
    assert judged([[0.1, 0.2]] * 15, -0.6, 0.6).readings == 30


def test_a_window_has_two_sides() -> None:
    with pytest.raises(ValueError, match="no width"):
        capability([[0.0]], 0.6, 0.6)


def test_intervals_hold_the_truth_as_often_as_they_say() -> None:
    """2,000 seeded benches of 12 checks of 5: 95 % within four errors (and 1 % for Bissell)."""
    rng = random.Random(5)
    in_cp = in_cpk = 0
    runs = 2000
    for _ in range(runs):
        found = judged([[rng.gauss(0.1, 0.2) for _ in range(5)] for _ in range(12)], -0.6, 0.6)
        in_cp += found.cp.low < 1.0 < found.cp.high
        in_cpk += found.cpk.low < 0.5 / 0.6 < found.cpk.high
    error = math.sqrt(0.95 * 0.05 / runs)
    assert abs(in_cp / runs - 0.95) < 4 * error
    assert abs(in_cpk / runs - 0.95) < 4 * error + 0.01


@pytest.mark.parametrize(
    ("cp", "cpk", "says"),
    [
        (1.6, 1.4, "well"),  # 4/3: common practice, no source
        (1.3, 1.1, "barely"),
        (1.3, 0.8, "off_target"),  # it would fit, were its mean on target
        (0.9, 0.8, "not"),
    ],
)
def test_how_readings_fit_their_window_in_a_word(cp: float, cpk: float, says: str) -> None:
    found = Capability(40, 0.0, 0.1, 0.1, Bounded(cp, 0.0, 9.0), Bounded(cpk, 0.0, 9.0), cpk)
    assert fit(found) == says
