"""Whether a bench is off target for certain, and by which class."""

from __future__ import annotations

import math
import random

import pytest

from core.control.advice import Advice, advice, estimate
from core.control.causes import causes

WEEK = {"bunches_per_week": 1800.0, "standard_fraction": 0.98}


def test_a_heavy_bench_and_its_leaf_a_week() -> None:
    """Means .4 .5 .6 .7 .8: mean .6, s √.025, t .975 of 4 is 2.776; 0.6 g × 1,800 × .98."""
    found = advice([0.4, 0.5, 0.6, 0.7, 0.8], **WEEK)
    reach = 2.776445 * math.sqrt(0.025 / 5)
    assert found.verdict == "heavy"
    assert found.per_bunch == pytest.approx((0.6, 0.6 - reach, 0.6 + reach), rel=1e-6)
    assert found.per_week is not None
    assert found.per_week.mean_g == pytest.approx(1058.4)
    assert found.per_week.at_least_g == pytest.approx((0.6 - reach) * 1764, rel=1e-6)


def test_a_light_bench_is_the_same_upside_down() -> None:
    found = advice([-0.4, -0.5, -0.6, -0.7, -0.8], **WEEK)
    assert found.verdict == "light"
    assert found.per_week is not None
    assert found.per_week.mean_g == pytest.approx(-1058.4)
    assert found.per_week.at_least_g > 0


def test_an_interval_that_holds_zero_is_noise() -> None:
    found = advice([0.6, -0.4, 0.5, -0.3, 0.4], **WEEK)
    assert found.verdict == "noise"
    assert found.per_week is not None
    assert found.per_week.at_least_g == 0


def test_four_checks_are_too_few() -> None:
    assert advice([0.5] * 4, **WEEK) == Advice(4, "too_few", None, None)


def test_one_check_has_no_interval() -> None:
    with pytest.raises(ValueError, match="no interval"):
        estimate([0.5], 0.95)


@pytest.mark.parametrize("made", [5, 20])
def test_a_bench_on_target_is_blamed_one_time_in_twenty(made: int) -> None:
    """Means that vary from check to check by .3 g, beyond the .3 g within: 4,000 benches."""
    rng = random.Random(made)
    blamed = 0
    for _ in range(4000):
        means = [rng.gauss(rng.gauss(0, 0.3), 0.3 / math.sqrt(5)) for _ in range(made)]
        blamed += advice(means, **WEEK).verdict != "noise"
    assert abs(blamed / 4000 - 0.05) < 4 * math.sqrt(0.05 * 0.95 / 4000)


# -- which class ------------------------------------------------------------------------

LEVEL = (0.05, -0.05, 0.0, 0.04, -0.04)


def off(by: float) -> list[float]:
    return [by + away for away in LEVEL]


def test_the_class_that_explains_the_drift() -> None:
    found = causes(0.6, {"seco": off(0.0), "viso": off(0.0), "ligero": off(0.5)})
    assert (found.verdict, [part.leaf for part in found.found]) == ("found", ["ligero"])
    assert found.found[0].share == pytest.approx(0.5 / 0.6)
    assert found.rest_g == pytest.approx(0.1)


def test_two_classes_the_greater_first_and_the_other_side_left_out() -> None:
    found = causes(-0.6, {"seco": off(-0.2), "viso": off(0.3), "ligero": off(-0.4)})
    assert [part.leaf for part in found.found] == ["ligero", "seco"]
    assert found.rest_g == pytest.approx(0)


def test_portions_all_right_point_past_the_portioning() -> None:
    found = causes(0.6, {"seco": off(0.0), "ligero": off(0.01)})
    assert (found.verdict, found.found, found.rest_g) == ("not_in_portions", (), 0.6)


def test_a_class_without_checks_leaves_it_open() -> None:
    found = causes(0.6, {"seco": off(0.0), "ligero": [0.5]})
    assert (found.verdict, found.unchecked) == ("too_few", ("ligero",))
    assert causes(0.6, {"seco": off(0.5), "ligero": []}).verdict == "found"


def test_right_portions_are_blamed_at_most_one_time_in_twenty() -> None:
    """Four classes, 3,000 benches; only the drift's own side is blamed, so half as often."""
    rng = random.Random(9)
    blamed = 0
    for _ in range(3000):
        portions = {leaf: [rng.gauss(0, 0.1) for _ in range(8)] for leaf in "abcd"}
        blamed += causes(0.5, portions).verdict == "found"
    assert abs(blamed / 3000 - 0.025) < 4 * math.sqrt(0.025 * 0.975 / 3000)
