"""What a change of leaf must keep to: strength, classes, the stock on hand."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from functools import lru_cache
from typing import NamedTuple

from core.house.model import LAYING_ORDER, Blend, FillerClass, FillerLeaf, HouseBook
from core.line.pieces import strength
from core.line.programme import Aim, Limit
from core.problems import BadInput
from core.say import Said, joined, say

STRENGTH = say("strength")
POINT = 0.1
"""A point of strength counts as a tenth of the filler where one is set against the other."""


class Band(NamedTuple):
    """What the new parts must keep to.

    Strength within so many points of the blend's, each class within a share of the filler
    (a fraction, 0.05 being 5 of 100 parts). `on_hand_g` limits the leaf it names to that many
    standard grams for `planned_g` of filler; leaf that it does not name is not limited.
    """

    strength_within: float = 0.2
    class_within: float = 0.05
    on_hand_g: Mapping[str, float] = {}
    planned_g: float | None = None


class Asked(NamedTuple):
    """The question with its figures: the leaf that may be used, and the limits on its shares."""

    blend: Blend
    leaves: tuple[FillerLeaf, ...]
    band: Band
    classes: dict[FillerClass, float]
    strength: float | None
    limits: tuple[Limit, ...]


def ask(
    house: HouseBook, blend: Blend, out: tuple[str, ...], band: Band
) -> tuple[Asked, tuple[Said, ...]]:
    """The question of a blend without the leaf that is `out`, and what to know about it.

    Raises BadInput where no other filler leaf is left, and for stock without a plan.
    """
    if band.on_hand_g and not band.planned_g:
        raise BadInput(say("stock limits nothing by itself: say how much filler is planned"))
    notes: list[Said] = []
    kept = strength((share, house.filler[leaf].strength) for leaf, share in blend.shares.items())
    leaves = tuple(leaf for leaf in house.filler.values() if leaf.code not in out)
    if kept is None:
        bare = [code for code in blend.shares if house.filler[code].strength is None]
        notes.append(
            say(
                "strength is not kept: the house book gives none for {leaf}",
                leaf=joined(", ", bare),
            )
        )
    elif unscored := [leaf.code for leaf in leaves if leaf.strength is None]:
        notes.append(say("not used, for want of a strength: {leaf}", leaf=joined(", ", unscored)))
        leaves = tuple(leaf for leaf in leaves if leaf.strength is not None)
    if not leaves:
        raise BadInput(
            say(
                "no other filler leaf is left for blend {blend}; enter one as a [[leaf]]",
                blend=blend.code,
            )
        )
    found: dict[FillerClass, float] = {}
    for name in LAYING_ORDER:
        own = [s for code, s in blend.shares.items() if house.filler[code].leaf_class == name]
        if own or any(leaf.leaf_class == name for leaf in leaves):
            found[name] = math.fsum(own)
    asked = Asked(blend, leaves, band, found, kept, ())
    limits = (*_strength(asked), *_classes(asked), *_stock(asked))
    return asked._replace(limits=limits), tuple(notes)


def aims(asked: Asked) -> tuple[Aim, ...]:
    """What is best kept as it was, within the limits: strength, and each class's share."""
    found = [] if asked.strength is None else [Aim(_strengths(asked), asked.strength, POINT)]
    found += [Aim(_of_class(asked, name), share, 1.0) for name, share in asked.classes.items()]
    return tuple(found)


def _strengths(asked: Asked) -> tuple[float, ...]:
    return tuple(leaf.strength or 0.0 for leaf in asked.leaves)


def _of_class(asked: Asked, name: FillerClass) -> tuple[float, ...]:
    return tuple(1.0 if leaf.leaf_class == name else 0.0 for leaf in asked.leaves)


def _strength(asked: Asked) -> list[Limit]:
    if asked.strength is None:
        return []
    return _both_ways(STRENGTH, _strengths(asked), asked.strength, asked.band.strength_within)


def _classes(asked: Asked) -> list[Limit]:
    within = asked.band.class_within
    return [
        limit
        for name, share in asked.classes.items()
        for limit in _both_ways(name, _of_class(asked, name), share, within)
    ]


def _both_ways(name: str, weights: Sequence[float], middle: float, within: float) -> list[Limit]:
    down = tuple(-weight for weight in weights)
    return [
        Limit(name, tuple(weights), middle + within),
        Limit(name, down, within - middle),
    ]


def _stock(asked: Asked) -> list[Limit]:
    planned_g = asked.band.planned_g
    if not planned_g:
        return []
    return [
        Limit(
            stock_name(leaf.code),
            tuple(1.0 if other is leaf else 0.0 for other in asked.leaves),
            asked.band.on_hand_g[leaf.code] / planned_g,
        )
        for leaf in asked.leaves
        if leaf.code in asked.band.on_hand_g
    ]


@lru_cache(maxsize=256)
def stock_name(leaf: str) -> Said:
    """What the limit of a leaf's stock is called."""
    return say("stock of {leaf}", leaf=leaf)
