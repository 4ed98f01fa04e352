"""How heavy a run's bunches were against target, and how well that is known."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from statistics import fmean, stdev
from typing import NamedTuple

from core.day.bench import BenchTally, CheckMade, RunKey

At = tuple[str, RunKey]
"""A bench and what it rolled."""


class Mean(NamedTuple):
    """Mean deviation of filler per bunch, standard grams; `error` None where it cannot be told."""

    deviation_g: float
    error: float | None


def standard_deviation_of(check: CheckMade) -> float | None:
    """A filler or bunch check's mean deviation in standard grams of filler; None for others.

    What a bunch weighs beyond its target is taken for filler: the binder is cut to a shape.
    """
    if check.measure not in ("filler", "bunch") or check.deviation is None:
        return None
    return check.deviation * (check.standard or 1.0)


def by_run(tallies: Mapping[str, BenchTally]) -> dict[At, tuple[CheckMade, ...]]:
    """The filler and bunch checks of each bench and what it rolled."""
    found: dict[At, list[CheckMade]] = {}
    for bench, tally in tallies.items():
        for check in tally.checks:
            if standard_deviation_of(check) is not None:
                found.setdefault((bench, check.run), []).append(check)
    return {at: tuple(checks) for at, checks in found.items()}


def mean_of(checks: Iterable[CheckMade]) -> Mean:
    """Mean of the check means; its standard error from their spread.

    A single check gives the error from its own readings, a single reading none.
    """
    seen = [(check, standard_deviation_of(check) or 0.0) for check in checks]
    means = [deviation for _, deviation in seen]
    if len(means) > 1:
        return Mean(fmean(means), stdev(means) / math.sqrt(len(means)))
    check = seen[0][0]
    if len(check.readings) > 1:
        spread = stdev(check.readings) * (check.standard or 1.0)
        return Mean(means[0], spread / math.sqrt(len(check.readings)))
    return Mean(means[0], None)


class Weighed(NamedTuple):
    """A run's share in the leaf of heavy or light bunches: made × deviation, standard grams.

    `terms` says which runs' means it rests on and with what factor: a run without a check
    of its own rests on every checked run of its vitola, so their errors must be added
    before they are squared.
    """

    grams: float
    terms: tuple[tuple[At, float], ...]


def heavy(
    made: Mapping[At, float], means: Mapping[At, Mean]
) -> tuple[dict[At, Weighed], tuple[At, ...], tuple[At, ...]]:
    """Filler beyond target of each run; then the runs that borrow, and those that cannot be told.

    A run without a check uses the mean of its vitola and blend over the benches that have
    one that day.
    """
    found: dict[At, Weighed] = {}
    borrowed: list[At] = []
    unknown: list[At] = []
    for at, pieces in made.items():
        if not pieces:
            continue
        if at in means:
            terms: tuple[tuple[At, float], ...] = ((at, pieces),)
        else:
            peers = [p for p in means if _alike(p[1], at[1])]
            terms = tuple((peer, pieces / len(peers)) for peer in peers)
            (borrowed if peers else unknown).append(at)
        grams = sum(factor * means[peer].deviation_g for peer, factor in terms)
        found[at] = Weighed(grams, terms)
    return found, tuple(borrowed), tuple(unknown)


def _alike(a: RunKey, b: RunKey) -> bool:
    return (a.blend, a.vitola) == (b.blend, b.vitola)


def error_of(weighed: Iterable[tuple[Weighed, float]], means: Mapping[At, Mean]) -> float | None:
    """Standard error of Σ share × grams over runs; None where no mean has an error.

    Runs whose mean has no error of its own are given the largest there is.
    """
    factors: dict[At, float] = {}
    for run, share in weighed:
        for at, factor in run.terms:
            factors[at] = factors.get(at, 0.0) + share * factor
    known = [error for at in factors if (error := means[at].error) is not None]
    if not known:
        return None
    worst = max(known)
    errors = (
        factor * (worst if (error := means[at].error) is None else error)
        for at, factor in factors.items()
    )
    return math.hypot(*errors)
