"""The line sheet as it would be with a few things otherwise, beside today's; nothing is kept."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from typing import NamedTuple

from core.house.model import Blend, CoverLeaf, HouseBook, Leaf, Part, Station, Vitola
from core.line.change import Change
from core.line.sheet import LineRow, LineSheet, line_sheet
from core.problems import BadInput
from core.recipe.known import known_blend
from core.recipe.law import Law, fit
from core.say import say

Figure = float | bool | str | None
ROW_FIGURES = (
    *("filler_standard_g", "low_g", "high_g", "finished_g", "filler_lb_per_1000"),
    *("wrapper_share", "cover_share", "air_speed", "holds", "worst", "strength_laid"),
)
COST_FIGURES = ("filler", "loss", "total", "margin", "excise", "after_excise")
PROFILE_PLACES = 3
"""Decimals of a changed profile, as a house book is to read: far finer than any mould."""
CLASS_FIGURES = ("standard_g", "exact_g", "pieces", "piece_error")


class Difference(NamedTuple):
    """A figure that is no longer the same; `vitola` empty for the blend's own."""

    vitola: str
    figure: str
    leaf: str | None
    today: Figure
    changed: Figure


class WhatIf(NamedTuple):
    """The sheet with the changes beside today's, and what to know about it.

    `blend` is the recipe with them.
    """

    blend: Blend
    changes: tuple[Change, ...]
    today: LineSheet
    changed: LineSheet
    notes: tuple[str, ...]

    @property
    def differences(self) -> tuple[Difference, ...]:
        """Every figure that is no longer the same; worked out anew each time."""
        return tuple(_differences(self.today, self.changed))


def what_if(
    house: HouseBook,
    blend: str,
    changes: Sequence[Change],
    moistures: Mapping[str, float],
    *,
    reference: str | None = None,
    law: Law | None = None,
    leaf_yield: float | None = None,
    today: LineSheet | None = None,
) -> WhatIf:
    """Today's line sheet of a blend, and the same with `changes`.

    `today` is that sheet where it is known already, of the same figures.
    The packing law stays today's; a vitola of another ring or length has no approved bunches
    of its own any more, so the law speaks for it. A figurado keeps its shape. Raises BadInput
    where either sheet cannot be made, and for changes that leave no filler.
    """
    law = law or fit(house, blend)
    today = today or line_sheet(
        house, blend, moistures, reference=reference, law=law, leaf_yield=leaf_yield
    )
    other = changed_house(house, blend, changes)
    measured = {c.code: c.value for c in changes if c.field == "moisture"}
    resized = {c.code for c in changes if c.field in {"ring", "length"}}
    kept = {code: mean for code, mean in law.approved.items() if code not in resized}
    changed = line_sheet(
        other,
        blend,
        {**moistures, **measured},
        reference=reference,
        law=law._replace(approved=kept),
        leaf_yield=leaf_yield,
    )
    notes = tuple(
        say(
            "{code}: its approved bunches were of another size, so the packing law speaks for it",
            code=code,
        )
        for code in law.approved
        if code in resized
    )
    return WhatIf(other.blend[blend], tuple(changes), today, changed, notes)


def changed_house(house: HouseBook, blend: str, changes: Sequence[Change]) -> HouseBook:
    """The house book with the changes to a blend's parts, to leaf and to vitolas.

    Moistures are no part of it: they are those in force. Raises BadInput for an unknown blend
    and for parts that leave no filler.
    """
    recipe = _with_parts(known_blend(house, blend), changes)
    return house._replace(
        blends=tuple(recipe if each.code == blend else each for each in house.blends),
        leaves=tuple(_leaf(leaf, changes) for leaf in house.leaves),
        vitolas=tuple(_vitola(vitola, changes) for vitola in house.vitolas),
    )


def _with_parts(blend: Blend, changes: Sequence[Change]) -> Blend:
    """Leaf that was not in the blend comes last; parts of zero take a leaf out."""
    parts = {part.leaf: part.parts for part in blend.parts}
    parts |= {change.code: change.value for change in changes if change.field == "parts"}
    left = tuple(Part(leaf=leaf, parts=amount) for leaf, amount in parts.items() if amount > 0)
    if not left:
        raise BadInput(
            say(
                "the changes leave no filler in blend {blend}; keep one leaf of it",
                blend=blend.code,
            )
        )
    return blend._replace(parts=left)


def _leaf(leaf: Leaf, changes: Sequence[Change]) -> Leaf:
    mine = {change.field: change.value for change in changes if change.code == leaf.code}
    half_leaf_g = mine.get("half_leaf", leaf.half_leaf_g)
    if isinstance(leaf, CoverLeaf):
        return leaf._replace(half_leaf_g=half_leaf_g)
    return leaf._replace(half_leaf_g=half_leaf_g, piece=mine.get("piece", leaf.piece))


def _vitola(vitola: Vitola, changes: Sequence[Change]) -> Vitola:
    mine = {change.field: change.value for change in changes if change.code == vitola.code}
    ring = mine.get("ring", vitola.ring)
    length_mm = mine.get("length", vitola.length_mm)
    if (ring, length_mm) == (vitola.ring, vitola.length_mm):
        return vitola
    wider, longer = ring / vitola.ring, length_mm / vitola.length_mm
    profile = tuple(
        Station(
            # The thickest station and the last one are the vitola's own ring and length, exactly.
            at_mm=length_mm if s is vitola.profile[-1] else round(s.at_mm * longer, PROFILE_PLACES),
            ring=ring if s.ring == vitola.ring else round(s.ring * wider, PROFILE_PLACES),
        )
        for s in vitola.profile
    )
    return vitola._replace(ring=ring, length_mm=length_mm, profile=profile)


def _differences(today: LineSheet, changed: LineSheet) -> Iterator[Difference]:
    yield from _differ(
        "", {("strength", None): today.strength}, {("strength", None): changed.strength}
    )
    before = {row.vitola: _figures(today, row) for row in today.vitolas}
    after = {row.vitola: _figures(changed, row) for row in changed.vitolas}
    for vitola in dict.fromkeys((*before, *after)):
        yield from _differ(vitola, before.get(vitola, {}), after.get(vitola, {}))


_Named = dict[tuple[str, str | None], Figure]


def _figures(sheet: LineSheet, row: LineRow) -> _Named:
    return {
        ("ring", None): row.ring,
        ("length_mm", None): row.length_mm,
        **{(name, None): getattr(row, name) for name in ROW_FIGURES},
        ("smallest_ring", None): sheet.smallest_ring[row.vitola],
        **{(f"cost_{name}", None): getattr(row.cost, name) for name in COST_FIGURES},
        **{
            (name, each.leaf): getattr(each, name) for each in row.classes for name in CLASS_FIGURES
        },
    }


def _differ(vitola: str, before: _Named, after: _Named) -> Iterator[Difference]:
    for figure, leaf in dict.fromkeys((*before, *after)):
        today, changed = before.get((figure, leaf)), after.get((figure, leaf))
        if not _same(today, changed):
            yield Difference(vitola, figure, leaf, today, changed)


def _same(one: Figure, other: Figure) -> bool:
    """Equal, but for what the last digits of the same arithmetic leave."""
    if isinstance(one, float) and isinstance(other, float):
        return math.isclose(one, other, rel_tol=1e-9, abs_tol=1e-12)
    return one == other
