"""Which class of filler a heavy or light bench owes its drift to."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Literal, NamedTuple

from core.control.advice import LEAST_CHECKS, Estimate, estimate


class Portion(NamedTuple):
    """A class whose portions lie on the bench's side for certain, and its share of the drift."""

    leaf: str
    deviation: Estimate
    share: float


class Causes(NamedTuple):
    """What explains a drift of `drift_g` a bunch: classes, the greatest share first.

    `not_in_portions`: every class was checked enough and none is off, so look past the
    portioning (binder, leaf added at the bench). `too_few`: none found, and the `unchecked`
    classes have too few checks. `rest_g` is what the classes found leave unexplained.
    """

    verdict: Literal["found", "not_in_portions", "too_few"]
    found: tuple[Portion, ...]
    unchecked: tuple[str, ...]
    rest_g: float


def causes(drift_g: float, portions: Mapping[str, Sequence[float]]) -> Causes:
    """Explain a bench's mean deviation (grams a bunch, not 0) by its portion checks.

    `portions` has, for every class of the blend, the mean deviation of each check of its
    portions, grams a bunch. A class is found where its interval excludes zero on the drift's
    side; with m classes each is held to 1 − 0.05/m, so that a bench whose portions are all
    right is seldom (1 in 20) blamed on one (Bonferroni).
    """
    enough = {leaf: checks for leaf, checks in portions.items() if len(checks) >= LEAST_CHECKS}
    unchecked = tuple(leaf for leaf in portions if leaf not in enough)
    side = "heavy" if drift_g > 0 else "light"
    found: list[Portion] = []
    for leaf, checks in enough.items():
        deviation = estimate(checks, 1 - 0.05 / len(portions))
        if deviation.apart == side:
            found.append(Portion(leaf, deviation, deviation.mean_g / drift_g))
    found.sort(key=lambda portion: -portion.share)
    return Causes(
        verdict="found" if found else "too_few" if unchecked else "not_in_portions",
        found=tuple(found),
        unchecked=unchecked,
        rest_g=drift_g - sum(portion.deviation.mean_g for portion in found),
    )
