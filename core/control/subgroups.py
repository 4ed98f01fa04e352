"""A check as the charts see it: deviations from target, and what they say of σ."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import NamedTuple

from core.checks import mean_and_spread
from core.control.constants import deviation_spread


class Subgroup(NamedTuple):
    """The readings of one check less their target: grams. `s` is None for a single reading.

    `range` is told where the house charts ranges.
    """

    n: int
    mean: float
    s: float | None
    range: float | None = None


def subgroup(deviations: Sequence[float]) -> Subgroup:
    """One check, from its readings' deviations from target (one or more): grams."""
    mean, s = mean_and_spread(deviations)
    return Subgroup(len(deviations), mean, s, None if s is None else range_of(deviations))


def range_of(readings: Sequence[float]) -> float:
    """The greatest less the least."""
    return max(readings) - min(readings)


class Pooled(NamedTuple):
    """What checks say of σ together: how many have a spread, Σ h and Σ h s/c4 over them.

    h = c4² ÷ (1 − c4²), each c4 for the check's own size: every s/c4 is unbiased for σ, and
    these weights give the least variance (Burr, Technometrics 11 (1969)).
    """

    checks: int = 0
    weight: float = 0.0
    total: float = 0.0

    def plus(self, other: Pooled) -> Pooled:
        """Both together."""
        return Pooled(
            self.checks + other.checks, self.weight + other.weight, self.total + other.total
        )

    @property
    def sigma(self) -> float | None:
        """σ of one reading within a check, in grams: Σ h s/c4 ÷ Σ h; None without a spread."""
        return self.total / self.weight if self.weight else None


def pooled(spreads: Iterable[tuple[int, float | None]]) -> Pooled:
    """Of each check's readings and standard deviation, None for a single reading."""
    checks, weight, total = 0, 0.0, 0.0
    for n, s in spreads:
        if s is not None:
            mean, _, _, _, h = deviation_spread(n)
            checks += 1
            weight += h
            total += h * s / mean
    return Pooled(checks, weight, total)


def pooled_sigma(checks: Iterable[Subgroup]) -> float | None:
    """σ of one reading within a check, from checks of any sizes: grams; None where all are single.

    As `Pooled` has it. Where all sizes are alike it is s̄/c4.
    """
    return pooled((check.n, check.s) for check in checks).sigma
