"""Whole pieces of leaf: what a hand can lay, and down to which ring a blend still holds."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from typing import NamedTuple

from core.house.model import Blend, FillerClass, HouseBook, Vitola
from core.recipe.cover import build_mm
from core.recipe.law import Law
from core.recipe.size import Taper, core_of, integral, outer

RINGS = (16, 70)
"""The rings a smallest ring is looked for among: common practice, no source."""
SLACK = 1e-9


class Whole(NamedTuple):
    """A class laid in whole pieces: standard grams, and how far off, as a fraction."""

    pieces: int
    laid_g: float
    error: float


class Grain(NamedTuple):
    """A class's share of the filler and the standard grams of its smallest piece."""

    leaf: str
    leaf_class: FillerClass
    share: float
    piece_g: float


class Bound(NamedTuple):
    """The class that keeps a blend from a thinner ring: `ring` is the thickest that fails.

    `pieces` are the whole pieces laid there, `error` how far off they are, as a fraction.
    """

    leaf: str
    leaf_class: FillerClass
    ring: int
    standard_g: float
    pieces: int
    error: float


class SmallestRing(NamedTuple):
    """The smallest whole ring from which every one up to 70 holds, None if 70 fails.

    `bound` is the class that binds; None where the covers leave no core on a thinner one, or
    where the blend holds down to the thinnest ring looked at.
    """

    ring: int | None
    bound: Bound | None


def whole_pieces(standard_g: float, piece_g: float) -> Whole:
    """The nearest whole number of pieces, at least one, for a class of `standard_g`."""
    pieces = max(1, math.floor(standard_g / piece_g + 0.5))
    laid_g = pieces * piece_g
    return Whole(pieces, laid_g, abs(laid_g - standard_g) / standard_g)


def holds(laid: Iterable[Whole], limit: float) -> bool:
    """Whether every class keeps within `limit` when laid in whole pieces."""
    return all(whole.error <= limit + SLACK for whole in laid)


def strength(weights: Iterable[tuple[float, float | None]]) -> float | None:
    """Mean of the classes' strengths by weight; None where the house scores one of them not."""
    total = scored = 0.0
    for weight, score in weights:
        if score is None:
            return None
        total += weight
        scored += weight * score
    return scored / total


def grains(house: HouseBook, blend: Blend) -> tuple[Grain, ...]:
    """The classes of a blend as they are laid, in its order."""
    leaves = (house.filler[code] for code in blend.shares)
    return tuple(
        Grain(leaf.code, leaf.leaf_class, blend.shares[leaf.code], leaf.piece * leaf.half_leaf_g)
        for leaf in leaves
    )


def smallest_rings(
    house: HouseBook, blend: Blend, vitolas: Iterable[Vitola], law: Law
) -> dict[str, SmallestRing]:
    """By vitola, the smallest ring its length and shape holds in, and the class that binds.

    Filler is the law's at every ring, for the vitola's length and shape; a figurado's
    stations scale with the ring.
    """
    build, classes = build_mm(house, blend), grains(house, blend)
    limit = house.house.portion_limit
    known: dict[tuple[Taper, ...], SmallestRing] = {}
    found: dict[str, SmallestRing] = {}
    for vitola in vitolas:
        shape = _per_ring(vitola)
        if shape not in known:
            known[shape] = _smallest(shape, build, law, classes, limit)
        found[vitola.code] = known[shape]
    return found


def _per_ring(vitola: Vitola) -> tuple[Taper, ...]:
    """Outside of the vitola for one ring gauge; alike for vitolas of one length and shape."""
    ring = vitola.ring
    return tuple(
        Taper(h, round(d1 / ring, 12), round(d2 / ring, 12)) for h, d1, d2 in outer(vitola)
    )


def _smallest(
    shape: Sequence[Taper], build: float, law: Law, classes: Sequence[Grain], limit: float
) -> SmallestRing:
    lowest, highest = RINGS
    smallest = None
    for ring in range(highest, lowest - 1, -1):
        core = core_of([Taper(h, d1 * ring, d2 * ring) for h, d1, d2 in shape], build)
        filler_g = law.a * integral(core, law.p)
        if not filler_g:
            break
        laid = [whole_pieces(filler_g * grain.share, grain.piece_g) for grain in classes]
        if not holds(laid, limit):
            return SmallestRing(smallest, _bound(ring, filler_g, classes, laid))
        smallest = ring
    return SmallestRing(smallest, None)


def worst(laid: Sequence[Whole]) -> int:
    """The place of the class that is farthest off, the first of equals."""
    return max(range(len(laid)), key=lambda i: laid[i].error)


def _bound(ring: int, filler_g: float, classes: Sequence[Grain], laid: Sequence[Whole]) -> Bound:
    place = worst(laid)
    grain, whole = classes[place], laid[place]
    standard_g = filler_g * grain.share
    return Bound(grain.leaf, grain.leaf_class, ring, standard_g, whole.pieces, whole.error)
