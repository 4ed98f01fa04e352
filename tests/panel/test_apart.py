"""Paired differences, their intervals and Holm's correction, held against SciPy."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import stats

from core.panel.apart import differences, holm

CHOSEN = [7.0, 6.5, 8.0, 7.0, 7.5]
OTHERS = [[5.0, 5.5, 6.0, 5.5, 5.0], [7.5, 6.0, 8.0, 7.5, 7.0]]


def test_the_interval_is_that_of_paired_t() -> None:
    for found, other in zip(differences(CHOSEN, OTHERS), OTHERS, strict=True):
        test = stats.ttest_rel(other, CHOSEN)
        interval = test.confidence_interval(0.95)
        assert (found.low, found.high) == pytest.approx((interval.low, interval.high))
        assert found.p == pytest.approx(test.pvalue)


def test_only_the_size_that_is_off_stands_apart() -> None:
    assert [found.apart for found in differences(CHOSEN, OTHERS)] == [True, False]


def test_tasters_who_all_tell_the_same_difference() -> None:
    (found,) = differences([5, 6, 7], [[6, 7, 8]])
    assert (found.mean, found.low, found.high, found.apart) == (1, 1, 1, True)


def test_one_taster_has_no_interval() -> None:
    (found,) = differences([5], [[7]])
    assert (found.mean, found.low, found.p, found.apart) == (2, None, None, False)


def test_holm_by_hand() -> None:
    # 4 x .005, 3 x .01, then no less than the one before: max(.03, 2 x .03), max(.06, .04).
    assert holm([0.01, 0.04, 0.03, 0.005]) == pytest.approx((0.03, 0.06, 0.06, 0.02))


@settings(deadline=None, max_examples=50)
@given(st.lists(st.floats(0, 1), min_size=1, max_size=6))
def test_holm_never_makes_a_p_smaller_nor_changes_their_order(p_values: list[float]) -> None:
    adjusted = holm(p_values)
    assert all(a >= p for a, p in zip(adjusted, p_values, strict=True))
    assert [a for _, a in sorted(zip(p_values, adjusted, strict=True))] == sorted(adjusted)
