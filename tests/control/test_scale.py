"""Whether a scale can be believed: what is found, and how seldom by chance."""

from __future__ import annotations

import math
import random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from core.control.scale import (
    STUCK_CHANCE,
    CoarseDivision,
    Shift,
    rounded,
    shown_chances,
    stuck,
    too_coarse,
    zero_shift,
)

SCALE = {"sigma_g": 0.3, "division_g": 0.1}


def shown(rng: random.Random, n: int, sigma: float, division: float = 0.1) -> list[float]:
    """Readings of bunches of 15 g, as a scale of that division shows them."""
    mean = 15 + rng.uniform(0, 1)
    return [round(rng.gauss(mean, sigma) / division) * division for _ in range(n)]


# -- division ---------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("window", "division", "found"),
    [
        (0.6, 0.1, None),
        (0.59, 0.1, CoarseDivision(5.9)),
        (1.2, 0.5, CoarseDivision(2.4)),
        (1.2, 0.1, None),
    ],
)
def test_a_division_over_a_sixth_of_the_window(
    window: float, division: float, found: CoarseDivision | None
) -> None:
    assert too_coarse(window, division) == (found and pytest.approx(found))


# -- stuck ------------------------------------------------------------------------------


def test_nine_alike_in_a_row_are_a_stuck_scale() -> None:
    """σ is three divisions: two readings are alike with chance 1 ÷ (2 √π 3), .094."""
    found = stuck([15.0, 15.3, *[15.1] * 9, 14.8], **SCALE)
    assert found is not None
    assert (found.reading_g, found.times) == (15.1, 9)
    assert found.chance < STUCK_CHANCE


@pytest.mark.parametrize("readings", [[], [15.1], [15.0, 15.1, 15.2], [15.1] * 3])
def test_a_few_alike_are_nothing(readings: list[float]) -> None:
    assert stuck(readings, **SCALE) is None


def test_alike_readings_of_a_coarse_scale_are_nothing() -> None:
    """σ a fifth of a division: nearly every reading falls on the same."""
    assert stuck([15.0] * 30, sigma_g=0.1, division_g=0.5) is None


def test_chance_of_two_alike() -> None:
    """Normal readings differ by N(0, 2σ²): alike with chance near d ÷ (2σ √π)."""
    rng = random.Random(2)
    alike = sum(len(set(shown(rng, 2, 0.3))) == 1 for _ in range(20_000)) / 20_000
    assert alike == pytest.approx(0.1 / (0.6 * math.sqrt(math.pi)), abs=0.008)


def test_a_sound_scale_is_hardly_ever_called_stuck() -> None:
    """2,000 benches of 50 readings at 1 in 10,000 each: at most two."""
    rng = random.Random(3)
    found = [
        sigma
        for sigma in (0.05, 0.1, 0.2, 0.3)
        for _ in range(500)
        if stuck(shown(rng, 50, sigma), sigma_g=sigma, division_g=0.1)
    ]
    assert len(found) <= 2


def test_the_bound_of_the_chance_holds() -> None:
    """Runs of four and more, common enough to count: no oftener than the chance worked out."""
    rng = random.Random(4)
    chance = 17 * sum(p**4 for p in shown_chances(1.0))
    seen = 0
    for _ in range(2000):
        readings = shown(rng, 20, 0.1)
        seen += any(len(set(readings[i : i + 4])) == 1 for i in range(17))
    assert seen / 2000 < chance + 3 * math.sqrt(chance / 2000)


# -- rounded ----------------------------------------------------------------------------


@pytest.mark.parametrize("step", [2, 5, 10])
def test_readings_on_a_coarser_step(step: int) -> None:
    rng = random.Random(5)
    coarse = [round(r / (step / 10)) * step / 10 for r in shown(rng, 40, 0.6)]
    found = rounded(coarse, sigma_g=0.6, division_g=0.1)
    assert found is not None
    assert found.step_g == pytest.approx(step / 10)


def test_readings_of_every_division_are_not_rounded() -> None:
    assert rounded([15.0, 15.2, 15.4, 15.1] * 10, **SCALE) is None


@pytest.mark.parametrize("readings", [[], [15.0], [15.0, 15.2], [15.0] * 40, [15.05, 15.1] * 20])
def test_too_few_all_alike_or_from_a_finer_scale(readings: list[float]) -> None:
    assert rounded(readings, **SCALE) is None


def test_where_a_coarse_step_is_likely_it_is_nothing() -> None:
    """σ a third of a division: on ten divisions' step nearly always, if that is where they lie."""
    assert rounded([15.0] * 39 + [16.0], sigma_g=0.03, division_g=0.1) is None


def test_a_sound_scale_is_hardly_ever_called_rounded() -> None:
    rng = random.Random(6)
    found = [
        sigma
        for sigma in (0.05, 0.1, 0.3)
        for n in (10, 20, 40)
        for _ in range(300)
        if rounded(shown(rng, n, sigma), sigma_g=sigma, division_g=0.1)
    ]
    assert len(found) <= 2


# -- two scales -------------------------------------------------------------------------

EVEN = [-0.03, -0.02, -0.01, 0.0, 0.0, 0.01, 0.02, 0.03]


def test_two_scales_set_apart() -> None:
    """Welch by hand: variances .0028/7 ÷ 8 each, 14 degrees, t .9995 is 4.1405."""
    first = [0.5 + away for away in EVEN]
    reach = 4.1405 * math.sqrt(2 * 0.0028 / 7 / 8)
    assert zero_shift(first, EVEN, 0.01) == pytest.approx(
        Shift(0.5, 0.5 - reach, 0.5 + reach), abs=1e-5
    )
    assert zero_shift(EVEN, EVEN, 0.01) is None


def test_readings_all_alike_are_not_taken_for_exact() -> None:
    """A tenth apart, on a scale of half a gram: rounding alone."""
    assert zero_shift([0.1] * 8, [0.0] * 8, 0.5) is None
    assert zero_shift([1.0] * 8, [0.0] * 8, 0.5) is not None


def test_seven_checks_of_a_scale_are_too_few() -> None:
    assert zero_shift([5.0] * 7, EVEN, 0.1) is None


@settings(deadline=None, max_examples=40)
@given(
    st.lists(st.floats(-1, 1), min_size=8, max_size=14),
    st.lists(st.floats(0, 3), min_size=8, max_size=14),
)
def test_a_shift_is_the_same_the_other_way_round(a: list[float], b: list[float]) -> None:
    there, back = zero_shift(a, b, 0.1), zero_shift(b, a, 0.1)
    assert (there is None) == (back is None)
    if there and back:
        assert there.shift_g == pytest.approx(-back.shift_g)


@pytest.mark.parametrize("second", [8, 40])
def test_like_scales_are_seldom_told_apart(second: int) -> None:
    """At most two in a thousand, though one is checked oftener and spreads half as much.

    6,000 pairs: 12 expected at most, four errors above are 26.
    """
    rng = random.Random(second)
    found = 0
    for _ in range(6000):
        a = [rng.gauss(0, 0.3) for _ in range(8)]
        b = [rng.gauss(0, 0.15) for _ in range(second)]
        found += zero_shift(a, b, 0.01) is not None
    assert found <= 26
