"""Friedman's test over tasters, with ties corrected, and Kendall's W."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from functools import lru_cache
from itertools import permutations
from operator import add
from typing import NamedTuple

from core.control.chi_square import chi_square_below

MOST_TASTERS, MOST_SIZES = 8, 4
"""Up to here the p-value is counted out over every way the ranks could have fallen."""


class Friedman(NamedTuple):
    """The test of one trait. `p` is `exact`, or that of χ² with `dof`.

    `w` is Kendall's: 0 where tasters rank the sizes without accord, 1 where all rank alike.
    """

    chi2: float
    dof: int
    p: float
    exact: bool
    w: float


def friedman(scores: Sequence[Sequence[float]]) -> Friedman:
    """Whether sizes are scored alike; a row a taster, a column a size, at least two of each.

    Hollander & Wolfe, Nonparametric Statistical Methods (1973), 7.1, with their correction
    for ties. Scores that never differ within a taster give χ² 0 and p 1.
    """
    n, k = len(scores), len(scores[0])
    ranks = [doubled_ranks(row) for row in scores]
    sums = tuple(map(sum, zip(*ranks, strict=True)))
    squares = _squares(sums)
    # Twice the ranks: their squares are 4 times, and a taster's mean rank is (k + 1) / 2.
    spread = (squares - k * (n * (k + 1)) ** 2) / 4
    ties = sum(row.count(rank) ** 3 - row.count(rank) for row in ranks for rank in set(row))
    scale = n * k * (k + 1) - ties / (k - 1)
    if scale == 0:
        return Friedman(0.0, k - 1, 1.0, exact=True, w=0.0)
    chi2 = 12 * spread / scale
    exact = n <= MOST_TASTERS and k <= MOST_SIZES
    if exact:
        p = _at_least(tuple(sorted(tuple(sorted(row)) for row in ranks)), squares)
    else:
        p = 1 - chi_square_below(chi2, k - 1) if chi2 > 0 else 1.0
    return Friedman(chi2, k - 1, p, exact, chi2 / (n * (k - 1)))


def doubled_ranks(row: Sequence[float]) -> tuple[int, ...]:
    """Twice the rank of each score in its row, the lowest first; ties share their mean."""
    return tuple(sum((x > y) - (x < y) for y in row) + len(row) + 1 for x in row)


@lru_cache(maxsize=64)
def _at_least(rows: tuple[tuple[int, ...], ...], squares: int) -> float:
    """Probability that rank sums lie as far apart, every order of each row being as likely.

    Sums are counted in sorted order only: each row comes in every order, so which size has
    which sum makes no difference to what follows.
    """
    counts = {(0,) * len(rows[0]): 1}
    for row in rows:
        following: defaultdict[tuple[int, ...], int] = defaultdict(int)
        orders = set(permutations(row))
        for sums, ways in counts.items():
            for order in orders:
                following[tuple(sorted(map(add, sums, order)))] += ways
        counts = dict(following)
    far = sum(ways for sums, ways in counts.items() if _squares(sums) >= squares)
    return far / sum(counts.values())


def _squares(sums: Sequence[int]) -> int:
    return sum(each * each for each in sums)
