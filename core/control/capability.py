"""Capability: how the tolerance compares with what a bench's readings spread."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Literal, NamedTuple

from core.control.chi_square import chi_square_quantile
from core.control.subgroups import Subgroup, subgroup

LEAST_READINGS = 30
"""Under this the index is too uncertain to act on: at 30 its interval is still ± a quarter."""
_WELL = 4 / 3
_Z = 1.959963984540054
"""Normal quantile, 0.975."""


class Bounded(NamedTuple):
    """A value with its 95 % interval."""

    value: float
    low: float
    high: float


class Capability(NamedTuple):
    """Indices of `readings`: Cp and Cpk from the spread within checks, Ppk from that of all.

    Deviations from target, grams: their `mean`, and both standard deviations.
    """

    readings: int
    mean: float
    within_s: float
    total_s: float
    cp: Bounded
    cpk: Bounded
    ppk: float


class Unjudged(NamedTuple):
    """No index: too few readings, or readings that do not differ at all."""

    readings: int
    why: Literal["too_few", "no_spread"]


Fit = Literal["well", "barely", "off_target", "not"]


def fit(found: Capability) -> Fit:
    """How readings fit the window: 4/3 of the room they take, just it, or less (common practice).

    `off_target` would fit if they were even about its middle.
    """
    if found.cpk.value >= _WELL:
        return "well"
    if found.cpk.value >= 1:
        return "barely"
    return "off_target" if found.cp.value >= 1 else "not"


def capability(checks: Sequence[Sequence[float]], low: float, high: float) -> Capability | Unjudged:
    """Capability of checks' deviations from target against a window `low` to `high`: grams."""
    return capability_of([subgroup(check) for check in checks], low, high)


def capability_of(checks: Sequence[Subgroup], low: float, high: float) -> Capability | Unjudged:
    """The same from each check's readings, mean and spread: grams.

    The window need not be even about the target. The spread within checks is the pooled
    standard deviation s_p of ν = Σ(n − 1) degrees of freedom; where checks are mostly single
    readings it is the total one. Cp = (high − low) ÷ 6 s_p, with limits Cp √(χ²/ν) (NIST/SEMATECH
    e-Handbook 6.1.6); Cpk = the nearer side ÷ 3 s_p, ± 1.96 √(1/9N + Cpk²/2ν) (Bissell, Applied
    Statistics 39 (1990) 331–340; it takes the mean's error from the spread within checks).
    """
    if not low < high:
        raise ValueError(f"a window from {low} to {high} has no width")
    n = sum([check.n for check in checks])
    if n < LEAST_READINGS:
        return Unjudged(n, "too_few")
    mean = math.fsum([n * mean for n, mean, _, _ in checks]) / n
    squares = _squares_within(checks)
    between = math.fsum([n * (of - mean) ** 2 for n, of, _, _ in checks])
    total_s = math.sqrt((squares + between) / (n - 1))
    within_s, dof = _within(checks, n, squares, total_s)
    if not total_s or not within_s:
        return Unjudged(n, "no_spread")
    nearer = min(high - mean, mean - low)
    return Capability(
        readings=n,
        mean=mean,
        within_s=within_s,
        total_s=total_s,
        cp=_cp((high - low) / (6 * within_s), dof),
        cpk=_cpk(nearer / (3 * within_s), n, dof),
        ppk=nearer / (3 * total_s),
    )


def _squares_within(checks: Sequence[Subgroup]) -> float:
    return math.fsum([(n - 1) * s * s for n, _, s, _ in checks if s is not None])


def _within(
    checks: Sequence[Subgroup], readings: int, squares: float, total_s: float
) -> tuple[float, int]:
    dof = readings - len(checks)
    if dof < readings / 2:
        return total_s, readings - 1
    return math.sqrt(squares / dof), dof


def _cp(cp: float, dof: int) -> Bounded:
    low, high = (math.sqrt(chi_square_quantile(p, dof) / dof) for p in (0.025, 0.975))
    return Bounded(cp, cp * low, cp * high)


def _cpk(cpk: float, readings: int, dof: int) -> Bounded:
    reach = _Z * math.sqrt(1 / (9 * readings) + cpk * cpk / (2 * dof))
    return Bounded(cpk, cpk - reach, cpk + reach)
