"""The covers: what binder and wrapper add to the radius, and what stays on the cigar."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import NamedTuple

from core.house.model import Blend, CoverLeaf, HouseBook
from core.house.uses import USES
from core.problems import Problem
from core.recipe.moisture import in_force, on_scale
from core.recipe.size import Taper, side_area_mm2
from core.recipe.why import Steps, Worked
from core.say import Said, say

MM2_PER_M2 = 1e6

SIDE_AREA = say("side area")
SIDE_AREA_FROM = say("π × diameter along the length")
ON_CIGAR = say("{use} {leaf} on the cigar, standard")
ON_CIGAR_FROM = say("side area × (1 + overlap {overlap:g}) × {g_per_m2:g} g/m²")
MOISTURE = say("{use} {leaf} moisture")
TODAY = say("{use} {leaf} on the cigar, today")
TODAY_FROM = say("standard grams at its moisture")
ISSUED = say("{use} {leaf} issued, standard")
ISSUED_FROM = say("{pieces:g} × a half-leaf of {half_leaf_g:g} g")


class Laid(NamedTuple):
    """One cover of one cigar. Grams at standard moisture, `today_g` at the leaf's own."""

    leaf: str
    on_bunch_g: float
    pieces: float
    today_g: float
    issued_g: float


class Dress(NamedTuple):
    """Both covers of one cigar, what keeps them from covering it, and how they came about."""

    binder: Laid
    wrapper: Laid
    problems: tuple[Problem, ...]
    steps: Steps


def build_mm(house: HouseBook, blend: Blend) -> float:
    """What all layers of binder and wrapper add to the radius."""
    return house.cover[blend.binder].build_mm + house.cover[blend.wrapper].build_mm


def laid(leaf: CoverLeaf, area_mm2: float, moisture: float, standard: float) -> Laid:
    """A cover on a side area of `area_mm2`, with its overlap."""
    on_bunch_g = area_mm2 / MM2_PER_M2 * (1 + leaf.overlap) * leaf.on_cigar_g_per_m2
    return Laid(
        leaf=leaf.code,
        pieces=leaf.pieces,
        on_bunch_g=on_bunch_g,
        today_g=on_scale(on_bunch_g, standard, moisture),
        issued_g=leaf.pieces * leaf.half_leaf_g,
    )


def dress(
    house: HouseBook,
    blend: Blend,
    tapers: Sequence[Taper],
    moistures: Mapping[str, float],
    place: Said,
) -> Dress:
    """Both covers on a cigar of these outer tapers; `place` names it in a problem."""
    area_mm2 = side_area_mm2(tapers)
    standard = house.house.standard_moisture
    steps = [Worked(SIDE_AREA, area_mm2, "mm²", SIDE_AREA_FROM)]
    problems: list[Problem] = []
    covers: list[Laid] = []
    for code in (blend.binder, blend.wrapper):
        leaf = house.cover[code]
        moisture, whence = in_force(code, moistures, leaf.moisture)
        cover = laid(leaf, area_mm2, moisture, standard)
        covers.append(cover)
        steps += _steps(leaf, cover, moisture, whence)
        if cover.issued_g < cover.on_bunch_g * (1 - 1e-9):
            problems.append(_short(leaf, cover, place))
    return Dress(covers[0], covers[1], tuple(problems), tuple(steps))


def _steps(leaf: CoverLeaf, cover: Laid, moisture: float, whence: Said) -> Steps:
    blanks = {
        "use": USES[leaf.use],
        "leaf": leaf.code,
        "overlap": leaf.overlap,
        "g_per_m2": leaf.on_cigar_g_per_m2,
        "pieces": leaf.pieces,
        "half_leaf_g": leaf.half_leaf_g,
    }
    return (
        Worked(ON_CIGAR, cover.on_bunch_g, "g", ON_CIGAR_FROM, blanks),
        Worked(MOISTURE, moisture, "fraction", whence, blanks),
        Worked(TODAY, cover.today_g, "g", TODAY_FROM, blanks),
        Worked(ISSUED, cover.issued_g, "g", ISSUED_FROM, blanks),
    )


def _short(leaf: CoverLeaf, cover: Laid, place: Said) -> Problem:
    return Problem(
        place,
        say(
            "{use} {leaf} cannot cover it: {laid_g:.2f} g are laid, but only {issued_g:.2f} g "
            "issued ({pieces:g} × {half_leaf_g:g} g); give more pieces, a larger half-leaf, or a "
            "lighter on_cigar or overlap",
            use=USES[leaf.use],
            leaf=leaf.code,
            laid_g=cover.on_bunch_g,
            issued_g=cover.issued_g,
            pieces=leaf.pieces,
            half_leaf_g=leaf.half_leaf_g,
        ),
    )
