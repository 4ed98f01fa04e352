"""Checks as the charts see them, and σ pooled from them."""

from __future__ import annotations

import random
from statistics import fmean, stdev

import pytest

from core.control.constants import of_deviation
from core.control.subgroups import Subgroup, pooled_sigma, subgroup
from tests.control.streams import checks


def test_mean_and_deviation_of_a_check() -> None:
    assert subgroup([0.1, -0.1, 0.3]) == pytest.approx((3, 0.1, 0.2, 0.4))
    assert subgroup([0.4]) == Subgroup(1, 0.4, None)


def test_numacc3() -> None:
    """NIST StRD, NumAcc3: mean 1000000.2, standard deviation 0.1."""
    check = subgroup([1000000.2] + [1000000.1, 1000000.3] * 500)
    assert (check.mean, check.s) == pytest.approx((1000000.2, 0.1), abs=1e-9)


def test_numacc1() -> None:
    """NIST StRD, NumAcc1: mean 10000002, standard deviation 1."""
    assert subgroup([10000001, 10000003, 10000002]) == Subgroup(3, 10000002, 1, 2)


def test_checks_of_one_size_pool_to_their_mean_s_over_c4() -> None:
    same = checks(random.Random(1), [5] * 9)
    mean_s = fmean([check.s for check in same if check.s is not None])
    assert pooled_sigma(same) == pytest.approx(mean_s / of_deviation(5).c4)


def test_singles_say_nothing_of_a_spread() -> None:
    pair = Subgroup(2, 0.0, 0.3)
    assert pooled_sigma([Subgroup(1, 0.2, None)]) is None
    assert pooled_sigma([Subgroup(1, 9.0, None), pair]) == pooled_sigma([pair])


def test_pooling_is_unbiased_and_closer_than_a_plain_mean() -> None:
    """Sizes 2 to 10 mixed, 4,000 poolings: within four standard errors of σ."""
    rng = random.Random(7)
    sizes = [2, 3, 2, 10, 5, 2, 8, 3]
    pooled, plain = [], []
    for _ in range(4000):
        drawn = checks(rng, sizes, sigma=0.3)
        pooled.append(pooled_sigma(drawn) or 0.0)
        plain.append(fmean([c.s / of_deviation(c.n).c4 for c in drawn if c.s is not None]))
    error = stdev(pooled) / len(pooled) ** 0.5
    assert abs(fmean(pooled) - 0.3) < 4 * error
    assert stdev(pooled) < 0.95 * stdev(plain)
