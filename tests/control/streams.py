"""Points and checks for the charts: seeded, as a bench in control would give them."""

from __future__ import annotations

import random
from collections.abc import Iterable, Sequence

from core.control.chart import Point
from core.control.subgroups import Subgroup, subgroup


def points(values: Iterable[float], centre: float = 0.0, error: float = 1.0) -> list[Point]:
    """Points of a mean chart with 3σ limits."""
    return [Point(value, centre, error, centre - 3 * error, centre + 3 * error) for value in values]


def checks(
    rng: random.Random, sizes: Sequence[int], sigma: float = 0.3, shift: float = 0.0
) -> list[Subgroup]:
    """Checks of so many readings each, all of one normal bench."""
    return [subgroup([rng.gauss(shift, sigma) for _ in range(n)]) for n in sizes]
