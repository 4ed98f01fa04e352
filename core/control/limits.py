"""What limits are learned from: a bench's own checks while they are in control."""

from __future__ import annotations

import math
from collections import deque
from typing import Literal, NamedTuple

from core.control.constants import Spread

LEAST_CHECKS = 8
"""In-control checks of its own from which a bench has its own limits."""
SETTLED_CHECKS = 20
"""In-control checks from which its limits are settled."""
MOST_CHECKS = 50
"""In-control checks they are learned from, the latest."""

Source = Literal["house", "few", "bench"]
"""Whose spread limits rest on: the house's, 8 to 19 checks of the bench, or 20 to 50."""


class Baseline(NamedTuple):
    """What a check is judged by: σ of one reading (grams), and the in-control checks behind it.

    `mean` is the bench's own mean deviation over those checks; None where there are none.
    """

    sigma: float
    checks: int
    source: Source
    mean: float | None


class Learning:
    """The latest in-control checks of one bench and kind, and σ from them.

    σ is Σ h w/e ÷ Σ h over the spreads w of those checks, e their mean in σ and h their weight:
    the estimator of `pooled_sigma`. It is never less than the rounding of the scale alone
    makes, division ÷ √12. `own` says whether it is the bench's own yet.
    """

    def __init__(self, house_sigma: float, division_g: float) -> None:
        self._least = division_g / math.sqrt(12)
        self.sigma = max(house_sigma, self._least)
        self.own = False
        self._kept: deque[tuple[float, float, float]] = deque()
        self._weight = self._total = 0.0

    def learn(self, mean: float, spread: float, in_sigma: Spread) -> None:
        """Take in a check that was found in control."""
        weight = in_sigma.weight
        part = weight * spread / in_sigma.mean
        kept = self._kept
        kept.append((weight, part, mean))
        self._weight += weight
        self._total += part
        if len(kept) > MOST_CHECKS:
            weight, part, _ = kept.popleft()
            self._weight -= weight
            self._total -= part
        if len(kept) >= LEAST_CHECKS:
            self.own = True
            self.sigma = max(self._total / self._weight, self._least)

    def baseline(self) -> Baseline:
        """What the next check will be judged by."""
        n = len(self._kept)
        source: Source = "bench" if n >= SETTLED_CHECKS else "few" if self.own else "house"
        mean = math.fsum(mean for _, _, mean in self._kept) / n if n else None
        return Baseline(self.sigma, n, source, mean)
