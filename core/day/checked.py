"""What the checks of one run add up to, each judged as it was when it was made."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING, NamedTuple

from core.checks import mean_and_spread, outside

if TYPE_CHECKING:
    from core.day.bench import CheckMade, RunKey

PIECE = frozenset({"filler", "bunch"})
"""The measures that tell how much filler a bunch holds."""


class Mean(NamedTuple):
    """Mean deviation of filler per bunch, standard grams; `error` None where it cannot be told.

    The error rests on `of` figures: check means, or the readings of a single check.
    """

    deviation_g: float
    error: float | None
    of: int = 1


class Checked(NamedTuple):
    """Checks of every measure and how many were out; then the filler and bunch checks alone.

    `n_dev` of those have a window: the sum of their means less target, and of its squares,
    are of grams on the scale. `mean` is None where there is none.
    """

    checks: int = 0
    out: int = 0
    n_dev: int = 0
    sum_dev_g: float = 0.0
    sum_sq_dev_g2: float = 0.0
    mean: Mean | None = None


def add_up(checks: Iterable[CheckMade]) -> dict[RunKey, Checked]:
    """The checks by what was rolled, in the order it was first checked."""
    found: dict[RunKey, list[CheckMade]] = {}
    for check in checks:
        found.setdefault(check.run, []).append(check)
    return {run: _added(mine) for run, mine in found.items()}


def together(runs: Iterable[Checked]) -> Checked:
    """All of them; of several runs there is no one mean."""
    found = list(runs)
    if len(found) == 1:
        return found[0]
    return Checked(
        sum([run.checks for run in found]),
        sum([run.out for run in found]),
        sum([run.n_dev for run in found]),
        sum([run.sum_dev_g for run in found]),
        sum([run.sum_sq_dev_g2 for run in found]),
    )


def _added(checks: Sequence[CheckMade]) -> Checked:
    out = 0
    off_g: list[float] = []
    standard_off_g: list[float] = []
    first = None
    for check in checks:
        readings, window = check.readings, check.window
        if window is None:
            continue
        out += outside(readings, window)
        if check.measure in PIECE:
            off = sum(readings) / len(readings) - window.target
            off_g.append(off)
            # What a bunch weighs beyond target is taken for filler: the binder is cut to a shape.
            standard_off_g.append(off * (check.standard or 1.0))
            first = first or check
    return Checked(
        checks=len(checks),
        out=out,
        n_dev=len(off_g),
        sum_dev_g=math.fsum(off_g),
        sum_sq_dev_g2=math.fsum([off * off for off in off_g]),
        mean=_mean(standard_off_g, first) if first else None,
    )


def _mean(standard_off_g: Sequence[float], first: CheckMade) -> Mean:
    """Mean of the check means; its standard error from their spread.

    A single check gives the error from its own readings, a single reading none.
    """
    mean, spread = mean_and_spread(standard_off_g)
    n = len(standard_off_g)
    if spread is None:
        spread = mean_and_spread(first.readings)[1]
        spread = None if spread is None else spread * (first.standard or 1.0)
        n = len(first.readings)
    return Mean(mean, None if spread is None else spread / math.sqrt(n), n)
