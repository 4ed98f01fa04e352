"""The line sheet: one blend in every vitola of the house, side by side."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from core.house.model import Blend, FillerClass, HouseBook, Vitola
from core.line.cost import Anchor, Cost, cost
from core.line.earning import Earning, earnings
from core.line.excise import excise_due
from core.line.loss import Loss, loss_of
from core.line.pieces import (
    SmallestRing,
    Whole,
    holds,
    smallest_rings,
    strength,
    whole_pieces,
    worst,
)
from core.problems import BadInput, Problem
from core.recipe.bunch import Bunch, body, bunch
from core.recipe.known import known_blend, known_vitola
from core.recipe.law import Law, fit
from core.recipe.portions import laying_order
from core.say import say
from core.units import kg_to_lb


class LineClass(NamedTuple):
    """One filler class in one vitola: standard grams, today's, and as whole pieces."""

    leaf: str
    leaf_class: FillerClass
    standard_g: float
    exact_g: float
    pieces: int
    piece_error: float


class LineRow(NamedTuple):
    """One vitola of the line. Shares are of the finished weight, at standard moisture.

    `air_speed` is that of one puff through the ember, the line's reference vitola being 1.
    `gap` is how far the approved bunches lie from the law, `low_g` and `high_g` what holds one
    more typical approved entry with 95 % probability by it; `beyond` the approved sizes.
    `worst` is the leaf that is farthest off in whole pieces, whether or not the blend holds.
    """

    vitola: str
    ring: float
    length_mm: float
    filler_standard_g: float
    law_g: float
    approved_g: float | None
    gap: float | None
    beyond: bool
    low_g: float | None
    high_g: float | None
    core_mm: float
    finished_g: float
    classes: tuple[LineClass, ...]
    filler_kg_per_1000: float
    filler_lb_per_1000: float
    wrapper_share: float
    cover_share: float
    air_speed: float
    holds: bool
    worst: str
    strength_laid: float | None
    cost: Cost


class LineSheet(NamedTuple):
    """A blend across the house's vitolas; `problems` say which cannot be rolled in it.

    `smallest` has the class that binds beside each ring of `smallest_ring`.
    """

    blend: str
    reference: str
    strength: float | None
    law: Law
    vitolas: tuple[LineRow, ...]
    smallest_ring: dict[str, int | None]
    smallest: dict[str, SmallestRing]
    loss: Loss | None
    earnings: tuple[Earning, ...]
    problems: tuple[Problem, ...]


class _Made(NamedTuple):
    vitola: Vitola
    bunch: Bunch


def line_sheet(
    house: HouseBook,
    blend: str,
    moistures: Mapping[str, float],
    *,
    reference: str | None = None,
    law: Law | None = None,
    leaf_yield: float | None = None,
) -> LineSheet:
    """The sheet of a blend at the moistures in force; its smallest rings with it.

    `reference` is the vitola the others are held against, the first that can be rolled where
    it is not told; `leaf_yield` the measured one, a fraction, behind the loss. Raises BadInput
    for an unknown code, without a packing, for a reference that cannot be rolled, and where no
    vitola can.
    """
    recipe = known_blend(house, blend)
    law = law or fit(house, blend)
    made, problems = _made(house, recipe, moistures, law)
    against = _reference(house, reference, made, problems)
    anchor = Anchor(against.vitola.price, against.bunch.packed.filler_standard_g)
    shares = recipe.shares
    loss = loss_of(house, leaf_yield)
    rows = tuple(_row(house, recipe, each, against.bunch.core_mm, anchor, loss) for each in made)
    smallest = smallest_rings(house, recipe, [each.vitola for each in made], law)
    return LineSheet(
        blend=blend,
        reference=against.vitola.code,
        strength=strength((share, house.filler[code].strength) for code, share in shares.items()),
        law=law,
        vitolas=rows,
        smallest_ring={code: found.ring for code, found in smallest.items()},
        smallest=smallest,
        loss=loss,
        earnings=earnings(house, blend, ((row.vitola, row.cost) for row in rows)),
        problems=problems,
    )


def _made(
    house: HouseBook, blend: Blend, moistures: Mapping[str, float], law: Law
) -> tuple[list[_Made], tuple[Problem, ...]]:
    """Every vitola that can be rolled, and why the others cannot."""
    made: list[_Made] = []
    problems: list[Problem] = []
    for vitola in house.vitolas:
        shape = body(house, blend, vitola, moistures)
        if shape.problems:
            problems += shape.problems
        else:
            made.append(_Made(vitola, bunch(house, blend, shape, moistures, law)))
    return made, tuple(dict.fromkeys(problems))


def _reference(
    house: HouseBook, code: str | None, made: list[_Made], problems: tuple[Problem, ...]
) -> _Made:
    if code is not None:
        known_vitola(house, code)
    for each in made:
        if code in (None, each.vitola.code):
            return each
    raise BadInput(*problems or (say("the house book has no vitola to roll"),))


def _row(
    house: HouseBook,
    blend: Blend,
    each: _Made,
    reference_mm: float,
    anchor: Anchor,
    loss: Loss | None,
) -> LineRow:
    vitola, made = each
    packing, portions = made.packed, made.portions
    filler_g = packing.filler_standard_g
    binder_g, wrapper_g = made.dress.binder.on_bunch_g, made.dress.wrapper.on_bunch_g
    finished_g = filler_g + binder_g + wrapper_g
    laid = [whole_pieces(p.standard_g, p.leaf.piece * p.leaf.half_leaf_g) for p in portions]
    return LineRow(
        vitola=vitola.code,
        ring=vitola.ring,
        length_mm=vitola.length_mm,
        filler_standard_g=filler_g,
        law_g=packing.law_g,
        approved_g=packing.approved_g,
        gap=packing.gap,
        beyond=packing.beyond,
        low_g=packing.low_g,
        high_g=packing.high_g,
        core_mm=made.core_mm,
        finished_g=finished_g,
        classes=_classes(made, laid),
        filler_kg_per_1000=filler_g,
        filler_lb_per_1000=kg_to_lb(filler_g),
        wrapper_share=wrapper_g / finished_g,
        cover_share=(binder_g + wrapper_g) / finished_g,
        air_speed=(reference_mm / made.core_mm) ** 2,
        holds=holds(laid, house.house.portion_limit),
        worst=portions[worst(laid)].leaf.code,
        strength_laid=strength(
            (whole.laid_g, portion.leaf.strength)
            for whole, portion in zip(laid, portions, strict=True)
        ),
        cost=cost(
            ((portion.standard_g, portion.leaf.price_per_kg) for portion in portions),
            house.cover[blend.binder],
            house.cover[blend.wrapper],
            vitola,
            anchor,
            loss=loss,
            excise=excise_due(house.excise, vitola.price, finished_g),
        ),
    )


def _classes(made: Bunch, laid: list[Whole]) -> tuple[LineClass, ...]:
    return tuple(
        LineClass(
            leaf=made.portions[i].leaf.code,
            leaf_class=made.portions[i].leaf.leaf_class,
            standard_g=made.portions[i].standard_g,
            exact_g=made.portions[i].exact_g,
            pieces=laid[i].pieces,
            piece_error=laid[i].error,
        )
        for i in laying_order(made.portions)
    )
