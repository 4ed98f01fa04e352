"""Which size stands apart: paired differences from the chosen one, over the same tasters."""

from __future__ import annotations

import math
from collections.abc import Sequence
from statistics import fmean, stdev
from typing import NamedTuple

from core.recipe.student import t_beyond, t_quantile

CONFIDENCE = 0.95
LEVEL = 0.05


class Difference(NamedTuple):
    """A size's mean difference from the chosen one, its 95 % interval (Student's t on the
    paired differences), and its p-value before and after Holm's correction.

    All but the mean are None of a single taster.
    """

    mean: float
    low: float | None
    high: float | None
    p: float | None
    p_holm: float | None

    @property
    def apart(self) -> bool:
        """Whether it stands apart, the other sizes being asked about too."""
        return self.p_holm is not None and self.p_holm < LEVEL


def differences(
    chosen: Sequence[float], others: Sequence[Sequence[float]]
) -> tuple[Difference, ...]:
    """Each other size against the chosen one; scores in the order of the same tasters."""
    found = [_difference([y - x for x, y in zip(chosen, o, strict=True)]) for o in others]
    adjusted = iter(holm([each.p for each in found if each.p is not None]))
    return tuple(each if each.p is None else each._replace(p_holm=next(adjusted)) for each in found)


def _difference(apart: Sequence[float]) -> Difference:
    mean, n = fmean(apart), len(apart)
    if n < 2:
        return Difference(mean, None, None, None, None)
    error = stdev(apart) / math.sqrt(n)
    half = t_quantile((1 + CONFIDENCE) / 2, n - 1) * error
    # Without an error every taster told the same difference.
    p = t_beyond(mean / error, n - 1) if error > 0 else float(mean == 0)
    return Difference(mean, mean - half, mean + half, p, None)


def holm(p_values: Sequence[float]) -> tuple[float, ...]:
    """p-values adjusted for being asked together (Holm 1979, step-down), in their own order."""
    m = len(p_values)
    adjusted = [1.0] * m
    least = 0.0
    for place, which in enumerate(sorted(range(m), key=lambda i: p_values[i])):
        least = max(least, min(1.0, (m - place) * p_values[which]))
        adjusted[which] = least
    return tuple(adjusted)
