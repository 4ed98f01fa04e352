"""How heavy a run's bunches were against target, and how well that is known."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from typing import NamedTuple

from core.day.bench import RunKey
from core.day.checked import Mean

At = tuple[str, RunKey]
"""A bench and what it rolled."""


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
    alike: dict[tuple[str, str], list[At]] = {}
    for at in means:
        alike.setdefault((at[1].blend, at[1].vitola), []).append(at)
    found: dict[At, Weighed] = {}
    borrowed: list[At] = []
    unknown: list[At] = []
    for at, pieces in made.items():
        if not pieces:
            continue
        if at in means:
            terms: tuple[tuple[At, float], ...] = ((at, pieces),)
        else:
            peers = alike.get((at[1].blend, at[1].vitola), [])
            terms = tuple((peer, pieces / len(peers)) for peer in peers)
            (borrowed if peers else unknown).append(at)
        grams = sum(factor * means[peer].deviation_g for peer, factor in terms)
        found[at] = Weighed(grams, terms)
    return found, tuple(borrowed), tuple(unknown)


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
