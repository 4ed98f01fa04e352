"""One bunch before any rounding: size, filler, the grams of each class, and the covers."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from core.house.model import Blend, CoverLeaf, FillerLeaf, HouseBook, Vitola
from core.problems import Problem
from core.recipe.cover import Dress, build_mm, dress
from core.recipe.law import NO_CORE_MM, Law
from core.recipe.moisture import in_force, on_scale
from core.recipe.packing import Packed, pack
from core.recipe.size import Taper, core_of, greatest, outer
from core.recipe.why import Steps, Worked
from core.say import Said, say

HOUSE_BOOK = say("the house book")
RING_GAUGE = say("ring gauge")
LENGTH = say("length")
GREATEST = say("greatest diameter")
GREATEST_FROM = say("ring gauge × 25.4 / 64")
COVERS = say("covers on the radius")
COVERS_FROM = say("binder {binder} {binder_mm:g} + wrapper {wrapper} {wrapper_mm:g}")
CORE = say("greatest core diameter")
CORE_FROM = say("diameter − 2 × covers on the radius")
SHARE = say("{leaf} share")
SHARE_FROM = say("{parts:g} of {all_parts:g} parts")
STANDARD = say("{leaf} standard")
STANDARD_FROM = say("filler × share")
MOISTURE = say("{leaf} moisture")
EXACT = say("{leaf} on the scale, exact")
EXACT_FROM = say("standard grams × (1 − {standard:g}) / (1 − moisture)")


class Portion(NamedTuple):
    """One class of one bunch: grams at standard moisture, and on the scale at its own."""

    leaf: FillerLeaf
    share: float
    moisture: float
    standard_g: float
    exact_g: float


class Body(NamedTuple):
    """A vitola under a blend's covers, and what keeps it from being rolled."""

    vitola: Vitola
    core: tuple[Taper, ...]
    core_mm: float
    dress: Dress
    problems: tuple[Problem, ...]
    steps: Steps


class Bunch(NamedTuple):
    """A bunch that can be rolled. Portions stand in the blend's order."""

    core_mm: float
    packed: Packed
    portions: tuple[Portion, ...]
    dress: Dress
    steps: Steps


def body(house: HouseBook, blend: Blend, vitola: Vitola, moistures: Mapping[str, float]) -> Body:
    """Core and covers of a vitola in a blend, with every problem they have."""
    place = say('[[vitola]] "{vitola}" in blend "{blend}"', vitola=vitola.code, blend=blend.code)
    tapers, build = outer(vitola), build_mm(house, blend)
    core = core_of(tapers, build)
    core_mm = greatest(core)
    covers = dress(house, blend, tapers, moistures, place)
    problems = (*_impossible_moistures(house, blend, moistures), *covers.problems)
    if core_mm < NO_CORE_MM:
        problems = (_no_core(greatest(tapers), build, place), *problems)
    binder, wrapper = house.cover[blend.binder], house.cover[blend.wrapper]
    steps = (
        Worked(RING_GAUGE, vitola.ring, "64ths of an inch", HOUSE_BOOK),
        Worked(LENGTH, vitola.length_mm, "mm", HOUSE_BOOK),
        Worked(GREATEST, greatest(tapers), "mm", GREATEST_FROM),
        Worked(COVERS, build, "mm", COVERS_FROM, _layers(binder, wrapper)),
        Worked(CORE, core_mm, "mm", CORE_FROM),
    )
    return Body(vitola, core, core_mm, covers, problems, steps)


def bunch(
    house: HouseBook, blend: Blend, shape: Body, moistures: Mapping[str, float], law: Law
) -> Bunch:
    """The bunch inside a body without problems."""
    packing = pack(shape.core, shape.vitola, law)
    portions: list[Portion] = []
    steps = [*shape.steps, *packing.steps]
    parts = sum(part.parts for part in blend.parts)
    for part in blend.parts:
        share = blend.shares[part.leaf]
        portion, worked = _portion(house, part.leaf, share, moistures, packing.filler_standard_g)
        portions.append(portion)
        blanks = {"leaf": part.leaf, "parts": part.parts, "all_parts": parts}
        steps += (Worked(SHARE, share, "fraction", SHARE_FROM, blanks), *worked)
    return Bunch(shape.core_mm, packing, tuple(portions), shape.dress, tuple(steps))


def _layers(binder: CoverLeaf, wrapper: CoverLeaf) -> dict[str, object]:
    return {
        "binder": binder.code,
        "binder_mm": binder.build_mm,
        "wrapper": wrapper.code,
        "wrapper_mm": wrapper.build_mm,
    }


def _portion(
    house: HouseBook,
    code: str,
    share: float,
    moistures: Mapping[str, float],
    filler_g: float,
) -> tuple[Portion, Steps]:
    leaf = house.filler[code]
    moisture, whence = in_force(code, moistures, leaf.moisture)
    standard_g = filler_g * share
    standard = house.house.standard_moisture
    exact_g = on_scale(standard_g, standard, moisture)
    blanks = {"leaf": code, "standard": standard}
    return Portion(leaf, share, moisture, standard_g, exact_g), (
        Worked(STANDARD, standard_g, "g", STANDARD_FROM, blanks),
        Worked(MOISTURE, moisture, "fraction", whence, blanks),
        Worked(EXACT, exact_g, "g", EXACT_FROM, blanks),
    )


def _no_core(outside_mm: float, build: float, place: Said) -> Problem:
    return Problem(
        place,
        say(
            "no room for filler: it is {outside_mm:.2f} mm thick and its covers take "
            "{covers_mm:.2f} mm; give a larger ring or thinner covers",
            outside_mm=outside_mm,
            covers_mm=2 * build,
        ),
    )


def _impossible_moistures(
    house: HouseBook, blend: Blend, moistures: Mapping[str, float]
) -> tuple[Problem, ...]:
    leaves = (*blend.shares, blend.binder, blend.wrapper)
    found = {code: moistures.get(code, house.leaf[code].moisture) for code in leaves}
    return tuple(
        Problem(
            f'[[leaf]] "{code}"',
            say(
                "moisture {percent:g} % cannot be: expected 0 to under 100 % of the wet weight; "
                "measure it again",
                percent=moisture * 100,
            ),
        )
        for code, moisture in found.items()
        if not 0 <= moisture < 1
    )
