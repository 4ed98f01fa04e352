"""The linear programme of a change of leaf: shares of the filler, and limits by name."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from typing import NamedTuple

NEAR = 1e-7
"""A limit this close to being broken is met exactly."""
TIE = 1e-9
"""Changes of parts no further apart than this are the same."""


class Limit(NamedTuple):
    """Σ of: `weights` × shares ≤ `most`. `name` is what it belongs to, as one that can give, by
    letting each of its limits go that much over.
    """

    name: str
    weights: tuple[float, ...]
    most: float


class Aim(NamedTuple):
    """Σ of `weights` × shares is best at `at`; `worth` weighs what it is missed by."""

    weights: tuple[float, ...]
    at: float
    worth: float


def least_change(
    before: Sequence[float], limits: Sequence[Limit], aims: Sequence[Aim] = ()
) -> tuple[float, ...] | None:
    """Shares within the limits with the least Σ |share − before|; None where there are none.

    Leaf that is out has to go somewhere, and many a place is as near: of those, the shares
    nearest to the aims. The variables are the shares, how far each moves, how far each aim is
    missed.
    """
    n, m = len(before), len(aims)
    rows = [[*limit.weights, *[0.0] * (n + m)] for limit in limits]
    most = [limit.most for limit in limits]
    units = [tuple(1.0 if place == own else 0.0 for place in range(n)) for own in range(n)]
    ends = [*zip(units, before, strict=True), *((aim.weights, aim.at) for aim in aims)]
    for place, (weights, at) in enumerate(ends):
        off = [-1.0 if place == own else 0.0 for own in range(n + m)]
        for sign in (1.0, -1.0):
            rows.append([*(sign * weight for weight in weights), *off])
            most.append(sign * at)
    moves = [*[0.0] * n, *[1.0] * n, *[0.0] * m]
    found = least(moves, rows, most, n)
    if found is None:
        return None
    moved = math.fsum(found[n : 2 * n])
    missed = [*[0.0] * (2 * n), *(aim.worth for aim in aims)]
    nearest = least(missed, [*rows, moves], [*most, moved + TIE], n) if aims else None
    return tuple((nearest or found)[:n])


def least_given(
    count: int, limits: Sequence[Limit], costs: Mapping[str, float]
) -> dict[str, float] | None:
    """By how much the limits named in `costs` must give, for `count` leaves, as little as can be.

    `costs` weighs each name's giving; limits of other names hold. None where they cannot.
    """
    names = list(costs)
    rows = [
        [*limit.weights, *(-1.0 if limit.name == name else 0.0 for name in names)]
        for limit in limits
    ]
    objective = [0.0] * count + [costs[name] for name in names]
    solved = least(objective, rows, [limit.most for limit in limits], count)
    if solved is None:
        return None
    return {name: by for name, by in zip(names, solved[count:], strict=True) if by > NEAR}


def least(
    objective: Sequence[float], rows: Sequence[Sequence[float]], most: Sequence[float], shares: int
) -> list[float] | None:
    """Variables with the least Σ of `objective`, rows ≤ `most`; None where there are none.

    None is under 0, and the first `shares` of them add up to 1. Solved by SciPy's HiGHS.
    """
    from scipy.optimize import linprog  # noqa: PLC0415 - slow to import; few commands need it

    whole = [[1.0] * shares + [0.0] * (len(objective) - shares)]
    found = linprog(
        objective, A_ub=rows or None, b_ub=most or None, A_eq=whole, b_eq=[1.0], method="highs"
    )
    if found.status != 0 or found.x is None:
        return None
    return [float(value) for value in found.x]
