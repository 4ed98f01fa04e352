"""Charts of checks: limits, what they are learned from, and what they say."""

from __future__ import annotations

import random
from statistics import fmean, stdev

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from core.control.chart import Chart, mean_and_deviation, mean_and_range, single_readings
from core.control.constants import of_deviation, of_range
from core.control.rules import breaks
from core.control.subgroups import Subgroup, subgroup
from tests.control.streams import checks

HOUSE = {"house_sigma": 0.3, "division_g": 0.1}


def said(chart: Chart, rule: str) -> list[int]:
    return [found.at for found in breaks(chart.means, {"beyond", "one_side"}) if found.rule == rule]


# -- limits -----------------------------------------------------------------------------


def test_limits_are_those_of_a3_and_b4_for_the_checks_own_size() -> None:
    """Before eight checks: the house's σ, A3 s̄ either side, B3 s̄ to B4 s̄ with s̄ = c4 σ."""
    chart = mean_and_deviation([Subgroup(n, 0.1, 0.2) for n in (2, 5, 10)], **HOUSE)
    for n, mean, spread in zip((2, 5, 10), chart.means, chart.spreads, strict=True):
        of_s = of_deviation(n)
        s_bar = of_s.c4 * 0.3
        assert spread is not None
        assert (mean.low, mean.high) == pytest.approx((-of_s.A3 * s_bar, of_s.A3 * s_bar))
        assert (spread.centre, spread.low, spread.high) == pytest.approx(
            (s_bar, of_s.B3 * s_bar, of_s.B4 * s_bar)
        )


def test_ranges_have_a2_d3_and_d4() -> None:
    chart = mean_and_range([subgroup([0.3, 0.0, -0.3, 0.1, 0.1])], **HOUSE)
    of_r, (mean,), (spread,) = of_range(5), chart.means, chart.spreads
    r_bar = of_r.d2 * 0.3
    assert spread is not None
    assert mean.high == pytest.approx(of_r.A2 * r_bar)
    assert (spread.value, spread.centre, spread.high) == pytest.approx(
        (0.6, r_bar, of_r.D4 * r_bar)
    )


def test_published_limits_of_means_and_ranges() -> None:
    """Flow widths in 25 samples of 5: grand mean 1.5056, mean range 0.32521; limits of the mean
    1.69325 and 1.31795, of the range 0.68749 (Montgomery, Introduction to Statistical Quality
    Control, the hard-bake example; from memory).
    """
    sigma = 0.32521 / of_range(5).d2
    steady = [Subgroup(5, 0.0, None, 0.32521)] * 9
    chart = mean_and_range(steady, house_sigma=sigma, division_g=0.0001, centre=0.0)
    spread = chart.spreads[-1]
    assert spread is not None
    assert 1.5056 + chart.means[-1].high == pytest.approx(1.69325, abs=2e-4)
    assert 1.5056 + chart.means[-1].low == pytest.approx(1.31795, abs=2e-4)
    assert (spread.centre, spread.low) == pytest.approx((0.32521, 0.0))
    assert spread.high == pytest.approx(0.68749, abs=3e-4)
    assert chart.baseline.sigma == pytest.approx(sigma)


def test_single_readings_have_moving_ranges() -> None:
    """Limits of a reading are 2.66 mean moving ranges away (NIST/SEMATECH 6.3.2.2)."""
    chart = single_readings([0.1, -0.2, 0.0], **HOUSE)
    assert chart.spreads[0] is None
    assert [point.value for point in chart.spreads[1:] if point] == pytest.approx([0.3, 0.2])
    mean_range = 0.3 * 1.128379
    assert chart.means[2].high == pytest.approx(2.66 * mean_range, rel=1e-3)


def test_a_reading_alone_among_checks_has_no_spread_and_teaches_nothing() -> None:
    chart = mean_and_deviation([Subgroup(1, 0.0, None)] * 9, **HOUSE)
    assert chart.spreads == (None,) * 9
    assert chart.baseline == (0.3, 0, "house", None)


def test_more_than_25_readings_have_a_deviation_but_no_range() -> None:
    many = [0.1 * (i % 3) for i in range(30)]
    assert mean_and_deviation([subgroup(many)], **HOUSE).spreads[0] is not None
    assert mean_and_range([subgroup(many)], **HOUSE).spreads[0] is None


# -- the baseline -----------------------------------------------------------------------


@pytest.mark.parametrize(
    ("made", "source", "by_house"),
    [(0, "house", 0), (7, "house", 7), (8, "few", 8), (19, "few", 8), (20, "bench", 8)],
)
def test_whose_spread_the_limits_rest_on(made: int, source: str, by_house: int) -> None:
    chart = mean_and_deviation([Subgroup(5, 0.05, 0.2)] * made, **HOUSE)
    assert (chart.baseline.source, chart.baseline.checks) == (source, made)
    assert chart.house_points == by_house


def test_a_baseline_is_of_the_latest_fifty() -> None:
    chart = mean_and_deviation([Subgroup(5, 0.2, 0.3)] * 30 + [Subgroup(5, 0.1, 0.2)] * 50, **HOUSE)
    sigma, made, _, mean = chart.baseline
    assert made == 50
    assert (sigma, mean) == pytest.approx((0.2 / of_deviation(5).c4, 0.1))


def test_a_check_out_of_control_teaches_nothing() -> None:
    sound = [Subgroup(5, 0.05, 0.2)] * 20
    wild = [Subgroup(5, 2.0, 0.2), Subgroup(5, 0.0, 3.0)] * 10
    chart = mean_and_deviation(sound + wild, **HOUSE)
    assert chart.baseline == mean_and_deviation(sound, **HOUSE).baseline
    assert said(chart, "beyond") == list(range(20, 40, 2))


def test_a_moving_range_over_a_wild_reading_teaches_nothing() -> None:
    calm = [0.1, -0.1] * 10
    chart = single_readings([*calm, 5.0, *calm], **HOUSE)
    assert chart.baseline.sigma == pytest.approx(0.2 / 1.128379, rel=1e-6)
    assert chart.baseline.checks == 2 * 19


def test_a_reading_just_out_spoils_the_small_moving_range_after_it() -> None:
    """σ .3: .95 g is beyond .9, and .5 g after it is within, as is the step of .45 g."""
    chart = single_readings([0.95, 0.5, 0.4], **HOUSE)
    assert chart.baseline.checks == 1
    assert chart.baseline.mean == pytest.approx(0.4)


def test_no_spread_at_all_is_still_the_rounding_of_the_scale() -> None:
    chart = mean_and_deviation([Subgroup(5, 0.0, 0.0)] * 10, **HOUSE)
    assert chart.baseline.sigma == pytest.approx(0.1 / 12**0.5)


@settings(deadline=None, max_examples=40)
@given(
    st.lists(st.lists(st.floats(-2, 2), min_size=1, max_size=8), max_size=30), st.integers(0, 30)
)
def test_what_a_chart_said_it_says_for_good(series: list[list[float]], cut: int) -> None:
    made = [subgroup(check) for check in series]
    whole, early = mean_and_deviation(made, **HOUSE), mean_and_deviation(made[:cut], **HOUSE)
    assert whole.means[:cut] == early.means
    assert whole.spreads[:cut] == early.spreads


def test_leaving_out_what_is_beyond_hardly_narrows_the_limits() -> None:
    """Benches in control, 400 of 60 checks: σ learned is within 1 % of σ, a little under it."""
    rng = random.Random(3)
    learned = [
        mean_and_deviation(checks(rng, [5] * 60), house_sigma=0.3, division_g=0.001).baseline.sigma
        for _ in range(400)
    ]
    error = stdev(learned) / len(learned) ** 0.5
    assert -0.01 < fmean(learned) / 0.3 - 1 < 3 * error / 0.3


# -- off target, and changed ------------------------------------------------------------


def test_off_target_shows_about_zero_and_changed_about_the_benchs_own_mean() -> None:
    """A bench settled 0.15 g heavy, then lighter by 0.5 g."""
    rng = random.Random(4)
    before = mean_and_deviation(checks(rng, [5] * 50, sigma=0.2, shift=0.15), **HOUSE)
    sigma, _, _, own_mean = before.baseline
    assert own_mean is not None
    assert own_mean == pytest.approx(0.15, abs=0.04)
    later = [*checks(rng, [5] * 20, 0.2, own_mean), *checks(rng, [5] * 3, 0.2, own_mean - 0.5)]
    on_target = mean_and_deviation(later, house_sigma=sigma, division_g=0.1)
    on_own = mean_and_deviation(later, house_sigma=sigma, division_g=0.1, centre=own_mean)
    assert len(said(on_target, "one_side")) >= 5
    assert not said(on_own, "one_side")
    assert said(on_own, "beyond") == [20, 21, 22]


# -- false alarms -----------------------------------------------------------------------


def false_alarms(*, on_deviations: bool) -> tuple[int, int]:
    """A bench on target through 200 changes of moisture (±4 % of weight), and of target by 10 %."""
    rng = random.Random(11)
    made: list[Subgroup] = []
    for _ in range(200):
        target = 15.0 * rng.uniform(0.96, 1.04) * rng.choice([1.0, 1.1])
        for _ in range(100):
            readings = [rng.gauss(target, 0.3) for _ in range(5)]
            zero = target if on_deviations else 15.75
            made.append(subgroup([reading - zero for reading in readings]))
    chart = mean_and_deviation(made, house_sigma=0.3, division_g=0.001)
    return len(said(chart, "beyond")), len(made)


def test_a_change_of_moisture_recipe_or_target_raises_no_alarm() -> None:
    """Nominal .27 %; that σ is known from 50 checks only makes it .31 % or so."""
    alarms, made = false_alarms(on_deviations=True)
    assert abs(alarms / made - 0.0031) < 4 * (0.0031 / made) ** 0.5


def test_weights_themselves_would_have_raised_thousands() -> None:
    alarms, _ = false_alarms(on_deviations=False)
    assert alarms > 5000
