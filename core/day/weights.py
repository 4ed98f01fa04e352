"""How heavy a run's bunches were against target, and how well that is known."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from typing import NamedTuple

from core.checks import mean_and_spread
from core.day.bench import RunKey
from core.day.checked import Mean

At = tuple[str, RunKey]
"""A bench and what it rolled."""


class Weighed(NamedTuple):
    """A run's share in the leaf of heavy or light bunches: made × deviation, standard grams.

    `terms` says which runs' means it rests on and with what factor: a run without a check
    of its own rests on every checked run of its vitola, so their errors must be added
    before they are squared. `between_g` is then how far benches of that vitola lie apart
    (a standard deviation, grams a bunch): the bench that was not checked does so too.
    """

    grams: float
    terms: tuple[tuple[At, float], ...]
    between_g: float = 0.0


class _Alike(NamedTuple):
    """The checked runs of one vitola and blend, and how far apart they lie."""

    peers: tuple[At, ...]
    between_g: float


def heavy(
    made: Mapping[At, float], means: Mapping[At, Mean]
) -> tuple[dict[At, Weighed], tuple[At, ...], tuple[At, ...]]:
    """Filler beyond target of each run; then the runs that borrow, and those that cannot be told.

    A run without a check uses the mean of its vitola and blend over the benches that have
    one that day.
    """
    alike: dict[tuple[str, str], _Alike] | None = None
    found: dict[At, Weighed] = {}
    borrowed: list[At] = []
    unknown: list[At] = []
    for at, pieces in made.items():
        if not pieces:
            continue
        if at in means:
            found[at] = Weighed(pieces * means[at].deviation_g, ((at, pieces),))
            continue
        if alike is None:
            alike = _alike(means)
        peers, between_g = alike.get((at[1].blend, at[1].vitola), _Alike((), 0.0))
        (borrowed if peers else unknown).append(at)
        terms = tuple((peer, pieces / len(peers)) for peer in peers)
        grams = sum(factor * means[peer].deviation_g for peer, factor in terms)
        found[at] = Weighed(grams, terms, between_g)
    return found, tuple(borrowed), tuple(unknown)


def _alike(means: Mapping[At, Mean]) -> dict[tuple[str, str], _Alike]:
    found: dict[tuple[str, str], list[At]] = {}
    for at in means:
        found.setdefault((at[1].blend, at[1].vitola), []).append(at)
    return {
        kind: _Alike(tuple(peers), _between([means[peer] for peer in peers]))
        for kind, peers in found.items()
    }


def _between(means: Sequence[Mean]) -> float:
    """How far benches lie apart, without what the errors of their means add to it."""
    spread = mean_and_spread([mean.deviation_g for mean in means])[1]
    errors = [mean.error for mean in means if mean.error is not None]
    if spread is None or not errors:
        return 0.0
    within = sum(error * error for error in errors) / len(errors)
    return math.sqrt(max(0.0, spread * spread - within))


def error_of(weighed: Iterable[tuple[Weighed, float]], means: Mapping[At, Mean]) -> float | None:
    """Standard error of Σ share × grams over runs; None where no mean has an error.

    Runs whose mean has no error of their own are given the largest there is.
    """
    factors: dict[At, float] = {}
    lent: dict[At, float] = {}
    apart: list[float] = []
    for run, share in weighed:
        for at, factor in run.terms:
            factors[at] = factors.get(at, 0.0) + share * factor
        if run.between_g:
            apart.append(share * run.between_g * sum(factor for _, factor in run.terms))
            for at, factor in run.terms:
                lent[at] = lent.get(at, 0.0) + share * run.between_g * factor
    known = [error for at in factors if (error := means[at].error) is not None]
    if not known:
        return None
    worst = max(known)
    errors = (
        factor * (worst if (error := means[at].error) is None else error)
        for at, factor in factors.items()
    )
    return math.hypot(*errors, *apart, *lent.values())


def error_alone(run: Weighed, means: Mapping[At, Mean]) -> float | None:
    """Standard error of one run's grams; most rest on their own mean alone."""
    if len(run.terms) == 1 and not run.between_g:
        ((at, pieces),) = run.terms
        error = means[at].error
        return None if error is None else pieces * error
    return error_of([(run, 1.0)], means)
