"""From exact grams to what a bench scale can show and a hand can lay."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import NamedTuple

BATCHES = (2, 5, 10, 20, 25, 50)
"""Bunches portioned together where one alone cannot be weighed closely enough."""

SLACK = 1e-9
"""What binary fractions may add to or take from a figure that was meant to be whole."""


class Batch(NamedTuple):
    """The fewest bunches whose classes all keep within the limit, in scale divisions."""

    bunches: int
    divisions: tuple[int, ...]


class TooCoarse(NamedTuple):
    """No batch helps: the worst class of the largest one, by its place, and its error."""

    bunches: int
    worst: int
    error: float


def hamilton(weights: Sequence[float], seats: int) -> tuple[int, ...]:
    """Share out whole `seats` by weights (> 0): floors, then the largest remainders.

    Ties go to the larger weight, then to the earlier. Hamilton's method of apportionment.
    """
    scale = seats / math.fsum(weights)
    quotas = [weight * scale for weight in weights]
    floors = [math.floor(quota + SLACK) for quota in quotas]
    remainders = [round(quota - floor, 9) for quota, floor in zip(quotas, floors, strict=True)]
    order = sorted(range(len(weights)), key=lambda i: (-remainders[i], -weights[i], i))
    for i in order[: seats - sum(floors)]:
        floors[i] += 1
    return tuple(floors)


def divisions(exact_g: Sequence[float], division_g: float) -> tuple[int, ...]:
    """Scale divisions of each class; they add up to the bunch's own, a half rounded up."""
    total = math.floor(math.fsum(exact_g) / division_g + 0.5 + SLACK)
    return hamilton(exact_g, total)


def grams(count: int, division_g: float) -> float:
    """Grams of so many scale divisions, without binary dust behind the scale's decimals."""
    return round(count * division_g, 9)


def rounding_errors(
    exact_g: Sequence[float], counts: Sequence[int], division_g: float
) -> tuple[float, ...]:
    """How far each class on the scale lies from its exact grams, as a fraction of them."""
    return tuple(abs(count * division_g - g) / g for g, count in zip(exact_g, counts, strict=True))


def batch(exact_g: Sequence[float], division_g: float, limit: float) -> Batch | TooCoarse | None:
    """How many bunches to portion together; None where one alone keeps within `limit`."""
    if max(rounding_errors(exact_g, divisions(exact_g, division_g), division_g)) <= limit + SLACK:
        return None
    errors: tuple[float, ...] = ()
    for bunches in BATCHES:
        several = [bunches * g for g in exact_g]
        counts = divisions(several, division_g)
        errors = rounding_errors(several, counts, division_g)
        if max(errors) <= limit + SLACK:
            return Batch(bunches, counts)
    worst = max(range(len(errors)), key=errors.__getitem__)
    return TooCoarse(BATCHES[-1], worst, errors[worst])


def half_leaves(standard_g: float, half_leaf_g: float, piece: float) -> float:
    """Half-leaves to lay, to the nearest `piece` of one: a guide, not a weight."""
    return math.floor(standard_g / half_leaf_g / piece + 0.5 + SLACK) * piece
