"""One bunch before any rounding: size, filler, the grams of each class, and the covers."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from core.house.model import Blend, FillerLeaf, HouseBook, Vitola
from core.problems import Problem
from core.recipe.cover import Dress, build_mm, dress
from core.recipe.law import NO_CORE_MM, Law
from core.recipe.moisture import in_force, on_scale
from core.recipe.packing import Packed, pack
from core.recipe.size import Taper, core_of, greatest, outer
from core.recipe.why import Step, Steps


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
    place = f'[[vitola]] "{vitola.code}" in blend "{blend.code}"'
    tapers, build = outer(vitola), build_mm(house, blend)
    core = core_of(tapers, build)
    core_mm = greatest(core)
    covers = dress(house, blend, tapers, moistures, place)
    problems = (*_impossible_moistures(house, blend, moistures), *covers.problems)
    if core_mm < NO_CORE_MM:
        problems = (_no_core(greatest(tapers), build, place), *problems)
    binder, wrapper = house.cover[blend.binder], house.cover[blend.wrapper]
    steps = (
        Step("ring gauge", vitola.ring, "64ths of an inch", "the house book"),
        Step("length", vitola.length_mm, "mm", "the house book"),
        Step("greatest diameter", greatest(tapers), "mm", "ring gauge × 25.4 / 64"),
        Step(
            "covers on the radius",
            build,
            "mm",
            f"binder {binder.code} {binder.build_mm:g} + "
            f"wrapper {wrapper.code} {wrapper.build_mm:g}",
        ),
        Step("greatest core diameter", core_mm, "mm", "diameter − 2 × covers on the radius"),
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
        source = f"{part.parts:g} of {parts:g} parts"
        steps += (Step(f"{part.leaf} share", share, "fraction", source), *worked)
    return Bunch(shape.core_mm, packing, tuple(portions), shape.dress, tuple(steps))


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
    exact_g = on_scale(standard_g, house.house.standard_moisture, moisture)
    return Portion(leaf, share, moisture, standard_g, exact_g), (
        Step(f"{code} standard", standard_g, "g", "filler × share"),
        Step(f"{code} moisture", moisture, "fraction", whence),
        Step(
            f"{code} on the scale, exact",
            exact_g,
            "g",
            f"standard grams × (1 − {house.house.standard_moisture:g}) / (1 − moisture)",
        ),
    )


def _no_core(outside_mm: float, build: float, place: str) -> Problem:
    return Problem(
        place,
        f"no room for filler: it is {outside_mm:.2f} mm thick and its covers take "
        f"{2 * build:.2f} mm; give a larger ring or thinner covers",
    )


def _impossible_moistures(
    house: HouseBook, blend: Blend, moistures: Mapping[str, float]
) -> tuple[Problem, ...]:
    leaves = (*blend.shares, blend.binder, blend.wrapper)
    found = {code: moistures.get(code, house.leaf[code].moisture) for code in leaves}
    return tuple(
        Problem(
            f'[[leaf]] "{code}"',
            f"moisture {moisture * 100:g} % cannot be: expected 0 to under 100 % of the wet "
            f"weight; measure it again",
        )
        for code, moisture in found.items()
        if not 0 <= moisture < 1
    )
