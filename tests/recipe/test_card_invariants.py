"""What holds of every card, whatever the house rolls."""

from __future__ import annotations

import math
from typing import NamedTuple

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from core.house.model import (
    LAYING_ORDER,
    Approved,
    Blend,
    FillerLeaf,
    HouseBook,
    HouseRules,
    Part,
    Vitola,
)
from core.problems import BadInput
from core.recipe.card import Card, card_json, recipe_card
from tests.recipe.workshop import BINDER, WRAPPER, workshop

shares = st.floats(0.01, 1000)
wet = st.floats(0, 0.6)


class Asked(NamedTuple):
    house: HouseBook
    moistures: dict[str, float]


@st.composite
def fillers(draw: st.DrawFn) -> FillerLeaf:
    return FillerLeaf(
        code=draw(st.text("ABC123", min_size=3, max_size=5)),
        leaf_class=draw(st.sampled_from(LAYING_ORDER)),
        moisture=draw(wet),
        half_leaf_g=draw(st.floats(0.2, 10)),
        piece=draw(st.sampled_from([0.25, 1 / 3, 0.5, 1.0])),
    )


@st.composite
def houses(draw: st.DrawFn) -> Asked:
    leaves = draw(st.lists(fillers(), min_size=1, max_size=6, unique_by=lambda leaf: leaf.code))
    blend = Blend(
        code="B1",
        parts=tuple(Part(leaf=leaf.code, parts=draw(shares)) for leaf in leaves),
        binder="BI-1",
        wrapper="CA-1",
    )
    vitola = Vitola(code="v", ring=draw(st.floats(16, 100)), length_mm=draw(st.floats(40, 300)))
    rules = HouseRules(
        name="Any",
        standard_moisture=draw(wet),
        scale_division_g=draw(st.sampled_from([0.01, 0.05, 0.1, 0.5, 1.0, 5.0])),
        rounding_limit=draw(st.floats(0.001, 0.2)),
    )
    entries = [Approved(vitola="v", filler_g=draw(st.floats(0.5, 60)))]
    moistures = {leaf.code: draw(wet) for leaf in leaves if draw(st.booleans())}
    return Asked(
        workshop(
            vitola,
            approved=entries,
            blend=blend,
            leaves=(*leaves, BINDER, WRAPPER),
            rules=rules,
        ),
        moistures,
    )


def made(asked: Asked) -> Card:
    try:
        return recipe_card(asked.house, blend="B1", vitola="v", moistures=asked.moistures)
    except BadInput:
        assume(False)
        raise


@settings(deadline=None, max_examples=150)
@given(houses())
def test_classes_always_add_up_to_the_bunch(asked: Asked) -> None:
    card, division_g = made(asked), asked.house.house.scale_division_g
    counts = [row.g / division_g for row in card.classes]
    assert counts == pytest.approx([round(count) for count in counts], abs=1e-6)
    assert sum(round(count) for count in counts) == round(card.filler_g / division_g)
    exact_g = sum(row.exact_g for row in card.classes)
    assert abs(card.filler_g - exact_g) <= division_g / 2 * (1 + 1e-6)
    if card.batch:
        total = sum(round(row.g / division_g) for row in card.batch.classes)
        assert total == round(card.batch.total_g / division_g)


@settings(deadline=None, max_examples=100)
@given(houses())
def test_shares_are_the_parts_and_standard_grams_are_the_filler(asked: Asked) -> None:
    card, house = made(asked), asked.house
    assert sum(row.share for row in card.classes) == pytest.approx(1)
    standard = house.house.standard_moisture
    back = [row.exact_g * (1 - row.moisture) / (1 - standard) for row in card.classes]
    assert sum(back) == pytest.approx(card.packing.filler_standard_g)
    for row, standard_g in zip(card.classes, back, strict=True):
        assert standard_g == pytest.approx(row.share * card.packing.filler_standard_g)
        leaf = house.filler[row.leaf]
        assert row.half_leaves / leaf.piece == pytest.approx(round(row.half_leaves / leaf.piece))
        off = abs(row.half_leaves - standard_g / leaf.half_leaf_g)
        assert off <= leaf.piece / 2 * (1 + 1e-6)


@settings(deadline=None, max_examples=100)
@given(houses())
def test_targets_are_in_order_and_laying_order_is_kept(asked: Asked) -> None:
    card = made(asked)
    filler, bunch, cigar = (card.targets[name] for name in ("filler", "bunch", "cigar"))
    assert 0 < filler.target_g < bunch.target_g < cigar.target_g
    assert filler.target_g == card.filler_g
    for target in card.targets.values():
        assert target.low_g < target.target_g < target.high_g
    places = [LAYING_ORDER.index(row.leaf_class) for row in card.classes]
    assert places == sorted(places)


@settings(deadline=None, max_examples=100)
@given(houses())
def test_a_batch_is_given_exactly_where_one_bunch_is_too_rough(asked: Asked) -> None:
    card, limit = made(asked), asked.house.house.rounding_limit
    worst = max(row.rounding_error for row in card.classes)
    advised = any("together" in says for says in card.warnings)
    assert advised == (worst > limit + 1e-9)
    if card.batch:
        assert advised


def numbers(found: object) -> list[float]:
    if isinstance(found, dict):
        return [n for inner in found.values() for n in numbers(inner)]
    if isinstance(found, list):
        return [n for inner in found for n in numbers(inner)]
    return [found] if isinstance(found, float) else []


@settings(deadline=None, max_examples=100)
@given(houses())
def test_every_figure_is_finite(asked: Asked) -> None:
    card = made(asked)
    assert all(math.isfinite(number) for number in numbers(card_json(card, why=True)))
