"""Friedman's test: a published example, SciPy, and every order counted out by hand."""

from __future__ import annotations

from itertools import permutations, product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import stats

from core.panel.friedman import friedman

# Hollander & Wolfe, Nonparametric Statistical Methods (1973), p. 140: times of 22 players to
# round first base by three ways; the data as in the help of R's friedman.test.
ROUNDING = """
5.40 5.50 5.55; 5.85 5.70 5.75; 5.20 5.60 5.50; 5.55 5.50 5.40; 5.90 5.85 5.70; 5.45 5.55 5.60;
5.40 5.40 5.35; 5.45 5.50 5.35; 5.25 5.15 5.00; 5.85 5.80 5.70; 5.25 5.20 5.10; 5.65 5.55 5.45;
5.60 5.35 5.45; 5.05 5.00 4.95; 5.50 5.50 5.40; 5.45 5.55 5.50; 5.55 5.55 5.35; 5.45 5.50 5.55;
5.50 5.45 5.25; 5.65 5.60 5.40; 5.70 5.65 5.55; 6.30 6.30 6.25
"""
TIMES = [[float(t) for t in row.split()] for row in ROUNDING.split(";")]

tables = st.integers(2, 4).flatmap(
    lambda k: st.lists(
        st.lists(st.integers(0, 10).map(float), min_size=k, max_size=k), min_size=2, max_size=5
    )
)


def test_the_published_example() -> None:
    found = friedman(TIMES)
    assert found.chi2 == pytest.approx(11.142857, abs=5e-7)
    assert (found.dof, found.exact) == (2, False)
    assert found.p == pytest.approx(0.003805, abs=5e-7)
    assert found.w == pytest.approx(0.253247, abs=5e-7)


def test_the_published_example_by_scipy() -> None:
    chi2, p = stats.friedmanchisquare(*zip(*TIMES, strict=True))
    found = friedman(TIMES)
    assert (found.chi2, found.p) == pytest.approx((chi2, p), rel=1e-9)


@settings(deadline=None, max_examples=60)
@given(tables.filter(lambda rows: len(rows[0]) > 2))
def test_ties_are_corrected_as_scipy_does(rows: list[list[float]]) -> None:
    if all(len(set(row)) == 1 for row in rows):
        assert friedman(rows).p == 1
        return
    chi2, _ = stats.friedmanchisquare(*zip(*rows, strict=True))
    assert friedman(rows).chi2 == pytest.approx(chi2, abs=1e-9)


@settings(deadline=None, max_examples=25)
@given(tables.filter(lambda rows: len(rows[0]) ** len(rows) <= 250))
def test_small_tables_are_counted_out_over_every_order(rows: list[list[float]]) -> None:
    found = friedman(rows)
    assert found.exact
    orders = [list(permutations(row)) for row in rows]
    chis = [friedman(each).chi2 for each in product(*orders)]
    far = sum(chi2 >= found.chi2 - 1e-9 for chi2 in chis)
    assert found.p == pytest.approx(far / len(chis))


def test_three_tasters_who_all_agree() -> None:
    # Of the 6 x 6 x 6 ways only 6 have all alike: 1/36 (counted by hand).
    found = friedman([[1, 2, 3]] * 3)
    assert (found.chi2, found.w) == pytest.approx((6, 1))
    assert found.p == pytest.approx(1 / 36)


def test_many_tasters_come_near_the_exact_figure() -> None:
    exact, nine = friedman(TIMES[:8]), friedman(TIMES[:9])
    assert exact.exact
    assert not nine.exact
    assert exact.p == pytest.approx(float(stats.chi2.sf(exact.chi2, 2)), abs=0.07)
