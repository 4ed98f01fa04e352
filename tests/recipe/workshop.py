"""An invented house to test with: three filler leaves, one pair of covers, sizes as asked for."""

from __future__ import annotations

from collections.abc import Sequence

from core.house.model import (
    Approved,
    Blend,
    CoverLeaf,
    FillerLeaf,
    HouseBook,
    HouseRules,
    Leaf,
    Part,
    Vitola,
)

VOLADO = FillerLeaf(
    code="VO-1",
    leaf_class="volado",
    moisture=0.13,
    half_leaf_g=1.5,
    price_per_kg=18,
    strength=1,
)
SECO = FillerLeaf(
    code="SE-1", leaf_class="seco", moisture=0.14, half_leaf_g=2.0, price_per_kg=20, strength=3
)
LIGERO = FillerLeaf(
    code="LI-1", leaf_class="ligero", moisture=0.15, half_leaf_g=3.0, price_per_kg=26, strength=8
)
BINDER = CoverLeaf(
    code="BI-1",
    use="binder",
    moisture=0.18,
    half_leaf_g=2.4,
    pieces=2,
    build_mm=0.35,
    on_cigar_g_per_m2=60,
    price_per_kg=24,
)
WRAPPER = CoverLeaf(
    code="CA-1",
    use="wrapper",
    moisture=0.20,
    half_leaf_g=2.0,
    build_mm=0.25,
    on_cigar_g_per_m2=50,
    price_per_kg=70,
)
FILLERS = (VOLADO, SECO, LIGERO)
LEAVES: tuple[Leaf, ...] = (*FILLERS, BINDER, WRAPPER)
BLEND = Blend(
    code="B1",
    parts=(
        Part(leaf="VO-1", parts=3),
        Part(leaf="SE-1", parts=5),
        Part(leaf="LI-1", parts=2),
    ),
    binder="BI-1",
    wrapper="CA-1",
)
RULES = HouseRules(name="Invented workshop", standard_moisture=0.13, scale_division_g=0.1)

FIVE_BY_FIFTY = Vitola(code="5x50", ring=50, length_mm=127)
SIX_BY_SIXTY = Vitola(code="6x60", ring=60, length_mm=152.4)

LB_PER_1000 = 453.59237 / 1000
"""Grams a piece from pounds per thousand; NIST SP 811, appendix B.8."""


def bare(leaf: CoverLeaf) -> CoverLeaf:
    """The same cover, as thin as nothing: core and outside are one."""
    return leaf._replace(build_mm=0.0)


def workshop(
    *vitolas: Vitola,
    approved: Sequence[Approved] = (),
    blend: Blend = BLEND,
    leaves: Sequence[Leaf] = LEAVES,
    rules: HouseRules = RULES,
) -> HouseBook:
    """A house that rolls `vitolas` in one blend."""
    return HouseBook(
        house=rules,
        leaves=tuple(leaves),
        blends=(blend,),
        vitolas=vitolas,
        approved=tuple(approved),
    )
