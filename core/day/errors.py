"""How well the checks tell each leaf of heavy or light bunches, over the whole house."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping

from core.day.bench import RunKey
from core.day.books import Laid, Recipes
from core.day.checked import Mean
from core.day.weights import At, Weighed, error_of


def leaf_errors(
    over: Mapping[At, Weighed], means: Mapping[At, Mean], recipes: Recipes
) -> dict[str, float]:
    """Standard error of each leaf's filler beyond target, grams; a leaf without one is not there.

    Blends are told apart by their own checks, so their errors are independent.
    """
    weighed = _all_with_errors(means)
    blends: dict[str, dict[At, Weighed]] = {}
    for at, one in over.items():
        if one.terms:
            blends.setdefault(at[1].blend, {})[at] = one
    found: dict[str, list[float]] = {}
    for mine in blends.values() if weighed else ():
        whole = error_of(((one, 1.0) for one in mine.values()), weighed)
        for leaf, shares in _shares(dict.fromkeys(at[1] for at in mine), recipes).items():
            if len(set(shares.values())) == 1:
                error = whole * next(iter(shares.values())) if whole is not None else None
            else:  # house books of one day differ in the blend
                error = error_of(((one, shares[at[1]]) for at, one in mine.items()), weighed)
            if error is not None:
                found.setdefault(leaf, []).append(error)
    return {leaf: math.hypot(*errors) for leaf, errors in found.items()}


def _all_with_errors(means: Mapping[At, Mean]) -> dict[At, Mean]:
    """Means without an error of their own are given the largest there is; none where none is."""
    known = [mean.error for mean in means.values() if mean.error is not None]
    if not known:
        return {}
    worst = max(known)
    return {
        at: mean if mean.error is not None else mean._replace(error=worst)
        for at, mean in means.items()
    }


def _shares(runs: Iterable[RunKey], recipes: Recipes) -> dict[str, dict[RunKey, float]]:
    """Each filler's share in each of the runs."""
    runs = list(runs)
    fillers = dict.fromkeys(
        leaf for run in runs for leaf, laid in recipes[run].laid.items() if laid.share
    )
    none = Laid(0.0, 0.0)
    return {
        leaf: {run: recipes[run].laid.get(leaf, none).share for run in runs} for leaf in fillers
    }
