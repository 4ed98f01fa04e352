"""Grams on the scale: largest remainder, batches, half-leaves."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from core.recipe.portion import (
    BATCHES,
    Batch,
    TooCoarse,
    batch,
    divisions,
    grams,
    half_leaves,
    hamilton,
    rounding_errors,
)

classes = st.lists(st.floats(0.05, 20), min_size=1, max_size=6)
scales = st.sampled_from([0.01, 0.05, 0.1, 0.2, 0.5])

# Apportionment of 1790 by Hamilton's method with 60 seats (electowiki, Hamilton method).
STATES_1790 = {
    "VA": (630560, 11),
    "MA": (475327, 8),
    "PA": (432879, 7),
    "NC": (353523, 6),
    "NY": (331589, 6),
    "MD": (278514, 5),
    "CT": (236841, 4),
    "SC": (206236, 3),
    "NJ": (179570, 3),
    "NH": (141822, 2),
    "VT": (85533, 1),
    "GA": (70835, 1),
    "KY": (68705, 1),
    "RI": (68446, 1),
    "DE": (55540, 1),
}


def test_hamilton_1790() -> None:
    people, seats = zip(*STATES_1790.values(), strict=True)
    assert hamilton(people, 60) == seats


def test_the_paradox() -> None:
    """The Alabama paradox: one more unit to share takes one from the smallest."""
    assert hamilton([6, 6, 2], 10) == (4, 4, 2)
    assert hamilton([6, 6, 2], 11) == (5, 5, 1)


def test_ties_go_to_the_larger_then_to_the_earlier() -> None:
    assert hamilton([1, 3], 2) == (0, 2)
    assert hamilton([3, 1], 2) == (2, 0)
    assert hamilton([5, 5], 3) == (2, 1)


@pytest.mark.parametrize("grams_of", [[2.7, 8.1], [0.63, 1.89], [2.52, 7.56]])
def test_ties_survive_binary_fractions(grams_of: list[float]) -> None:
    """One to three in two units is half to one and a half: a tie, though not quite in binary."""
    scale = 2 / sum(grams_of)
    assert grams_of[0] * scale > grams_of[1] * scale - 1
    assert hamilton(grams_of, 2) == (0, 2)


def test_a_half_division_is_rounded_up() -> None:
    assert sum(divisions([0.15], 0.1)) == 2
    assert sum(divisions([0.1, 0.35], 0.1)) == 5
    assert sum(divisions([0.1499], 0.1)) == 1


def test_grams_show_the_scales_own_decimals() -> None:
    assert grams(3, 0.1) == 0.3
    assert grams(152, 0.1) == 15.2


@settings(deadline=None, max_examples=200)
@given(classes, scales)
def test_classes_add_up_to_the_bunch(exact_g: list[float], division_g: float) -> None:
    counts = divisions(exact_g, division_g)
    total = sum(counts)
    assert abs(total * division_g - sum(exact_g)) <= division_g / 2 * (1 + 1e-6)
    scaled = [g / division_g * total / (sum(exact_g) / division_g) for g in exact_g]
    for count, quota in zip(counts, scaled, strict=True):
        assert abs(count - quota) < 1 + 1e-6


@settings(deadline=None, max_examples=200)
@given(classes, scales, st.floats(0.001, 0.1))
def test_a_batch_is_the_fewest_that_keep_within(
    exact_g: list[float], division_g: float, limit: float
) -> None:
    def worst(bunches: int) -> float:
        several = [bunches * g for g in exact_g]
        return max(rounding_errors(several, divisions(several, division_g), division_g))

    enough = [n for n in (1, *BATCHES) if worst(n) <= limit + 1e-9]
    found = batch(exact_g, division_g, limit)
    if not enough:
        assert isinstance(found, TooCoarse)
        assert found.error == pytest.approx(worst(50))
    elif enough[0] == 1:
        assert found is None
    else:
        several = divisions([enough[0] * g for g in exact_g], division_g)
        assert found == Batch(enough[0], several)


def test_a_batch_worked_by_hand() -> None:
    """0.46 and 1.04 g on 0.1 g: one bunch 0.5 is 8.7 % over; five, 2.3 and 5.2, are exact.

    Two are 0.92 and 2.08: 0.9 is 2.2 % under.
    """
    assert batch([0.46, 1.04], 0.1, 0.02) == Batch(5, (23, 52))
    assert batch([0.46, 1.04], 0.1, 0.022) == Batch(2, (9, 21))
    assert batch([0.46, 1.04], 0.1, 0.09) is None


def test_a_scale_too_coarse_names_the_worst_class() -> None:
    found = batch([30.0, 0.013], 1.0, 0.02)
    assert isinstance(found, TooCoarse)
    assert found.worst == 1
    assert found.error == pytest.approx(abs(1 - 0.65) / 0.65)


@pytest.mark.parametrize(
    ("standard_g", "half_leaf_g", "piece", "lay"),
    [(7.5, 2.0, 0.5, 4.0), (7.4, 2.0, 0.5, 3.5), (3.0, 3.0, 0.5, 1.0), (0.3, 3.5, 0.5, 0.0)],
)
def test_half_leaves_to_the_nearest_piece(
    standard_g: float, half_leaf_g: float, piece: float, lay: float
) -> None:
    assert half_leaves(standard_g, half_leaf_g, piece) == lay
