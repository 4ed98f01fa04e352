"""The benches that stand out, and why: by figures, for the screens to put in words.

A bench stands out by what would befall one in 740 by chance (three standard deviations):
of 300 benches, less than one a day for each reason. Common practice on control charts.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from typing import NamedTuple

from core.day.leaf import Split
from core.day.report import BenchDay, Reason, StandOut, Totals
from core.day.weights import error_alone
from core.day.yields import inspected
from core.house.model import HouseBook
from core.house.numbering import bench_json
from core.recipe.student import t_quantile

SIGMAS = 3.0
BY_CHANCE = 0.5 * math.erfc(SIGMAS / math.sqrt(2))
"""The normal distribution beyond three standard deviations on one side."""


def standouts(
    benches: Sequence[BenchDay], totals: Totals, leaf: Split, house: HouseBook, *, closed: bool
) -> tuple[StandOut, ...]:
    """The benches that stand out, furthest first; unchecked ones last, in the house's order.

    Leaf, and a bench without a check, are told of a day that is closed: until then leaf may
    lie on the bench, and the check may come.
    """
    division_g = house.house.scale_division_g
    found = [*_few_passed(benches, totals), *_off_target(leaf, division_g)]
    if closed:
        found += _unexplained(benches, leaf, division_g)
    found.sort(key=lambda one: one.far, reverse=True)
    says = [one.says for one in found]
    if closed:
        says += _unchecked(benches)
    return tuple(says)


class _Found(NamedTuple):
    """How many times further than chance and the checks' errors may lead, and what to say."""

    far: float
    says: StandOut


def _few_passed(benches: Iterable[BenchDay], totals: Totals) -> Iterator[_Found]:
    """Benches whose first-pass yield is further under the house's than by chance."""
    house = totals.first_pass_yield
    if house is None or not 0 < house < 1:
        return
    for bench in benches:
        rejected = sum(bench.rejected.values())
        first, n = inspected(bench.good, rejected, bench.rework, bench.second)
        if n and first < n * house and as_few(first, n, house) < BY_CHANCE:
            tells = SIGMAS * math.sqrt(house * (1 - house) / n)
            says = StandOut(
                bench=bench.bench,
                reason="first_pass",
                n=n,
                value=first / n,
                against=house,
                tells=tells,
            )
            yield _Found((house - first / n) / tells, says)


def as_few(passed: int, n: int, share: float) -> float:
    """Probability that at most `passed` of `n` pass, each with probability `share` (0 < it < 1).

    The binomial distribution, added up from `passed` down; terms that no longer count are
    left out.
    """
    log_term = (
        math.lgamma(n + 1) - math.lgamma(passed + 1) - math.lgamma(n - passed + 1)
        + passed * math.log(share) + (n - passed) * math.log1p(-share)
    )  # fmt: skip
    term = total = math.exp(log_term)
    odds = (1 - share) / share
    for k in range(passed, 0, -1):
        term *= odds * k / (n - k + 1)
        total += term
        if term < 1e-9 * total:
            break
    return min(1.0, total)


class _Off(NamedTuple):
    deviation_g: float
    tells_g: float
    vitola: str
    of: int


def _off_target(leaf: Split, division_g: float) -> Iterator[_Found]:
    """Benches whose bunches are heavy or light, and no bench packs nearer than half a division."""
    worst: dict[str, _Off] = {}
    for (bench, run), mean in leaf.means.items():
        if mean.error is None or abs(mean.deviation_g) <= SIGMAS * mean.error:
            continue
        tells_g = max(t_quantile(1 - BY_CHANCE, mean.of - 1) * mean.error, division_g / 2)
        off = _Off(mean.deviation_g, tells_g, run.vitola, mean.of)
        if abs(off.deviation_g) > tells_g and (
            bench not in worst or abs(off.deviation_g) > abs(worst[bench].deviation_g)
        ):
            worst[bench] = off
    for bench, off in worst.items():
        reason: Reason = "heavy" if off.deviation_g > 0 else "light"
        says = StandOut(
            bench=bench_json(bench),
            reason=reason,
            n=off.of,
            value=off.deviation_g,
            against=0.0,
            tells=off.tells_g,
            vitola=off.vitola,
        )
        yield _Found(abs(off.deviation_g) / off.tells_g, says)


def _unexplained(benches: Iterable[BenchDay], leaf: Split, division_g: float) -> Iterator[_Found]:
    """Benches whose filler went where neither counts nor checks can tell."""
    told = _told(leaf, division_g)
    for bench in benches:
        number = str(bench.bench)
        grams = math.fsum(one.unexplained_g for one in leaf.filler[number].values())
        tells = told.get(number, 0.0)
        if tells and bench.good and bench.filler_used_kg > 0 and abs(grams) > tells:
            says = StandOut(
                bench=bench.bench,
                reason="leaf_over" if grams > 0 else "leaf_under",
                n=bench.good,
                value=grams / bench.good,
                against=bench.standard_kg_per_1000,
                tells=tells / bench.good,
            )
            yield _Found(abs(grams) / tells, says)


def _told(leaf: Split, division_g: float) -> dict[str, float]:
    """How much unexplained filler the checks' errors and rounding may make up, by bench.

    A bunch's whole filler is rounded by at most half a division.
    """
    parts: dict[str, list[float]] = {}
    untold: set[str] = set()
    for at, over in leaf.room.over.items():
        error = error_alone(over, leaf.means)
        if error is None:
            untold.add(at[0])
            continue
        of = sum(leaf.means[peer].of - 1 for peer, _ in over.terms)
        parts.setdefault(at[0], []).append(
            math.hypot(
                t_quantile(1 - BY_CHANCE, max(1, of)) * error, leaf.pieces[at] * division_g / 2
            )
        )
    return {bench: math.hypot(*each) for bench, each in parts.items() if bench not in untold}


def _unchecked(benches: Iterable[BenchDay]) -> Iterator[StandOut]:
    for bench in benches:
        n = max(bench.made, bench.good + sum(bench.rejected.values()) + bench.second)
        if n and not bench.checks:
            yield StandOut(bench=bench.bench, reason="unchecked", n=n)
