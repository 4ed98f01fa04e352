"""A change of leaf: new parts when leaf runs out, or which limit keeps them from being found."""

from __future__ import annotations

import math
from collections.abc import Collection, Iterable, Iterator, Sequence
from typing import NamedTuple

from core.house.model import Blend, FillerClass, HouseBook
from core.line.binding import Binding, binding
from core.line.change import Change
from core.line.leaf_limits import Asked, Band, aims, ask, stock_name
from core.line.pieces import strength
from core.line.programme import NEAR, Limit, least_change
from core.problems import BadInput
from core.recipe.known import known_blend
from core.say import Said, joined, say

DIGITS = 6
"""Decimals of parts; the solver's own tolerance is wider."""


class NewPart(NamedTuple):
    """A leaf's parts before and after, on the blend's own total.

    Standard grams for the planned filler and on hand; None where nothing is planned, and where
    stock does not limit the leaf.
    """

    leaf: str
    leaf_class: FillerClass
    before: float
    parts: float
    share: float
    needed_g: float | None
    on_hand_g: float | None


class NewParts(NamedTuple):
    """New parts for a blend. `moved` is Σ |parts − before|; `at_limit` the limits just met."""

    blend: str
    without: tuple[str, ...]
    parts: tuple[NewPart, ...]
    moved: float
    strength_before: float | None
    strength: float | None
    at_limit: tuple[str, ...]
    notes: tuple[str, ...]

    def changes(self) -> tuple[Change, ...]:
        """The same as changes to try."""
        return tuple(
            Change("parts", part.leaf, part.parts, f"{part.leaf}={part.parts:.4g}")
            for part in self.parts
            if abs(part.parts - part.before) > NEAR
        )


class NoParts(NamedTuple):
    """There are no such parts; `binds` are the limits that would have to give."""

    blend: str
    without: tuple[str, ...]
    binds: tuple[Binding, ...]
    notes: tuple[str, ...]


def new_parts(
    house: HouseBook, blend: str, without: Collection[str], band: Band | None = None
) -> NewParts | NoParts:
    """Parts without some leaf that keep strength and classes with the least change of parts.

    Any filler leaf of the house may take its place; of changes as small, the one that keeps
    classes and strength nearest. A linear programme, by SciPy's HiGHS.
    Raises BadInput for an unknown blend, for leaf that is not in it, where no other filler
    leaf is left, and for stock without the filler planned.
    """
    band = band or Band()
    recipe = known_blend(house, blend)
    out = _out(recipe, without)
    asked, notes = ask(house, recipe, out, band)
    before = [recipe.shares.get(leaf.code, 0.0) for leaf in asked.leaves]
    found = least_change(before, asked.limits, aims(asked))
    if found is None:
        return NoParts(blend, out, binding(asked), notes)
    return _told(house, asked, out, found, notes)


def _out(blend: Blend, without: Collection[str]) -> tuple[str, ...]:
    strangers = [code for code in without if code not in blend.shares]
    if strangers:
        raise BadInput(not_in(blend, strangers))
    return tuple(dict.fromkeys(without))


def not_in(blend: Blend, strangers: Iterable[str]) -> Said:
    """That leaf is not in a blend, and which is."""
    return say(
        "blend {blend} has no {strangers}; its leaf: {leaf}",
        blend=blend.code,
        strangers=joined(", ", strangers),
        leaf=joined(", ", blend.shares),
    )


def _told(
    house: HouseBook,
    asked: Asked,
    out: tuple[str, ...],
    found: Sequence[float],
    notes: tuple[str, ...],
) -> NewParts:
    total = math.fsum(part.parts for part in asked.blend.parts)
    before = {part.leaf: part.parts for part in asked.blend.parts}
    shares = {
        leaf.code: share if share > NEAR else 0.0
        for leaf, share in zip(asked.leaves, found, strict=True)
    }
    parts = tuple(
        NewPart(
            leaf=code,
            leaf_class=house.filler[code].leaf_class,
            before=before.get(code, 0.0),
            parts=round(shares.get(code, 0.0) * total, DIGITS),
            share=shares.get(code, 0.0),
            needed_g=(
                None if not asked.band.planned_g else shares.get(code, 0.0) * asked.band.planned_g
            ),
            on_hand_g=asked.band.on_hand_g.get(code),
        )
        for code in dict.fromkeys((*before, *(code for code, share in shares.items() if share)))
    )
    idle = {stock_name(leaf.code) for leaf in asked.leaves if not shares[leaf.code]}
    met = [
        limit.name
        for limit in asked.limits
        if limit.name not in idle and _room(limit, found) < NEAR
    ]
    return NewParts(
        blend=asked.blend.code,
        without=out,
        parts=parts,
        moved=math.fsum(abs(part.parts - part.before) for part in parts),
        strength_before=asked.strength,
        strength=strength(
            (part.share, house.filler[part.leaf].strength) for part in parts if part.share
        ),
        at_limit=tuple(dict.fromkeys(met)),
        notes=(*notes, *_all_of_it(asked, met)),
    )


def _all_of_it(asked: Asked, met: Collection[str]) -> Iterator[Said]:
    """Leaf of which all that is on hand goes into the new parts."""
    for leaf in asked.leaves:
        here_g = asked.band.on_hand_g.get(leaf.code)
        if here_g and stock_name(leaf.code) in met:
            here = f"{here_g / 1000:.2f}"
            yield say(
                "{leaf}: {here} kg on hand, all of it goes into the plan",
                leaf=leaf.code,
                here=here,
            )


def _room(limit: Limit, shares: Sequence[float]) -> float:
    return limit.most - math.fsum(w * s for w, s in zip(limit.weights, shares, strict=True))
