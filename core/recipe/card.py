"""The recipe card: grams of each filler class for one bunch, today, at one bench."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from core.house.model import HouseBook, Vitola
from core.house.numbering import bench_json
from core.measure import MEASURES, Measure
from core.problems import BadInput, Problem
from core.recipe.bunch import Bunch, body, bunch
from core.recipe.cover import Laid
from core.recipe.known import known_blend, known_vitola
from core.recipe.law import Law, fit
from core.recipe.packing import Packed
from core.recipe.portions import BatchCard, ClassRow, Portioned, portioned
from core.recipe.why import Step, Steps, Worked, step_json
from core.say import Said, say

FILLER_FROM = say("scale divisions × grams each")
BUNCH_FROM = say("filler + binder {leaf} on it today")
CIGAR_FROM = say("bunch + wrapper {leaf} on it today")
TARGET = say("{weighed} target")
LOWEST = say("{weighed} lowest")
LOWEST_FROM = say("target − tolerance")
HIGHEST = say("{weighed} highest")
HIGHEST_FROM = say("target + tolerance")


class Target(NamedTuple):
    """A weight to meet, and its window, in today's grams."""

    target_g: float
    low_g: float
    high_g: float


class Card(NamedTuple):
    """What goes into one bunch of a blend and vitola at today's moistures.

    Classes stand in laying order; `filler_g` is what the scale should show for all of them.
    """

    bench: str | None
    blend: str
    vitola: str
    ring: float
    length_mm: float
    standard_moisture: float
    packing: Packed
    filler_g: float
    classes: tuple[ClassRow, ...]
    batch: BatchCard | None
    binder: Laid
    wrapper: Laid
    targets: dict[str, Target]
    warnings: tuple[Said, ...]
    worked: Steps

    @property
    def why(self) -> tuple[Step, ...]:
        """The steps behind each figure, in words."""
        return tuple(each.step() for each in self.worked)

    @property
    def notes(self) -> tuple[Said, ...]:
        """The warnings without the batch's, which stands last: for who shows the batch itself."""
        return self.warnings[:-1] if self.batch else self.warnings

    @property
    def exact_g(self) -> float:
        """The filler on the scale today before any rounding, grams."""
        return sum(row.exact_g for row in self.classes)

    def at_bench(self, number: str) -> Card:
        """The same card, for the bench of that number."""
        return self._replace(bench=number)


def recipe_card(
    house: HouseBook,
    *,
    blend: str,
    vitola: str,
    moistures: Mapping[str, float],
    bench: str | None = None,
    law: Law | None = None,
) -> Card:
    """The card of a blend and vitola; `moistures` by leaf code are those in force now.

    `law` is the blend's own, fitted here where it is not given. Raises BadInput with
    everything that keeps the vitola from being rolled.
    """
    recipe, size = known_blend(house, blend), known_vitola(house, vitola)
    shape = body(house, recipe, size, moistures)
    problems = list(shape.problems)
    if law is None:
        try:
            law = fit(house, blend)
        except BadInput as missing:
            problems += missing.problems
    if problems or law is None:
        raise BadInput(*problems)
    made = bunch(house, recipe, shape, moistures, law)
    rules = house.house
    table = portioned(made.portions, rules.scale_division_g, rules.rounding_limit)
    if table.filler_g == 0:
        raise BadInput(_unweighable(house, size, made))
    targets, target_steps = _targets(house, size, table.filler_g, made)
    return Card(
        bench=bench,
        blend=blend,
        vitola=vitola,
        ring=size.ring,
        length_mm=size.length_mm,
        standard_moisture=rules.standard_moisture,
        packing=made.packed,
        filler_g=table.filler_g,
        classes=table.classes,
        batch=table.batch,
        binder=made.dress.binder,
        wrapper=made.dress.wrapper,
        targets=targets,
        warnings=_warnings(law, made.packed, size, table),
        worked=(*made.steps, *table.steps, *made.dress.steps, *target_steps),
    )


def rollable(
    house: HouseBook, blend: str, vitola: str, law: Law | None = None
) -> tuple[Problem, ...]:
    """What keeps a vitola from being rolled in a blend at the house book's own moistures."""
    try:
        recipe_card(house, blend=blend, vitola=vitola, moistures={}, law=law)
    except BadInput as found:
        return found.problems
    return ()


def _targets(
    house: HouseBook, vitola: Vitola, filler_g: float, made: Bunch
) -> tuple[dict[str, Target], Steps]:
    """Filler on the scale, then with the binder on it, then with the wrapper, today."""
    tolerance = vitola.tolerance or house.house.tolerance
    binder, wrapper = made.dress.binder, made.dress.wrapper
    bunch_g = filler_g + binder.today_g
    cigar_g = bunch_g + wrapper.today_g
    sources: tuple[tuple[Measure, float, Said, str], ...] = (
        ("filler", filler_g, FILLER_FROM, ""),
        ("bunch", bunch_g, BUNCH_FROM, binder.leaf),
        ("cigar", cigar_g, CIGAR_FROM, wrapper.leaf),
    )
    targets: dict[str, Target] = {}
    steps: list[Worked] = []
    for name, target_g, source, leaf in sources:
        each_side = tolerance.of(target_g)
        low_g, high_g = target_g - each_side, target_g + each_side
        targets[name] = Target(target_g=target_g, low_g=low_g, high_g=high_g)
        blanks = {"weighed": MEASURES[name], "leaf": leaf}
        steps += (
            Worked(TARGET, target_g, "g", source, blanks),
            Worked(LOWEST, low_g, "g", LOWEST_FROM, blanks),
            Worked(HIGHEST, high_g, "g", HIGHEST_FROM, blanks),
        )
    return targets, tuple(steps)


def _warnings(law: Law, packing: Packed, vitola: Vitola, table: Portioned) -> tuple[Said, ...]:
    """The law's own warnings only where this card's filler is the law's."""
    warnings = list(law.warnings) if packing.source != "approved" else []
    if packing.beyond:
        warnings.append(
            say(
                "{vitola} is beyond the approved sizes: ring {ring:g}, approved {low:g} to "
                "{high:g}; weigh approved bunches of it",
                vitola=vitola.code,
                ring=vitola.ring,
                low=law.ring_low,
                high=law.ring_high,
            )
        )
    return (*warnings, *table.warnings)


def _unweighable(house: HouseBook, vitola: Vitola, made: Bunch) -> Problem:
    return Problem(
        f'[[vitola]] "{vitola.code}"',
        say(
            "its filler, {filler_g:.2g} g a bunch, is less than half a division of the scale "
            "({division_g:g} g); use a finer scale or correct scale_division",
            filler_g=made.packed.filler_standard_g,
            division_g=house.house.scale_division_g,
        ),
    )


def card_json(card: Card, why: bool = False) -> dict[str, object]:
    """The card under the keys of `card --json`; the steps only where asked for."""
    packing = card.packing
    whole: dict[str, object] = {
        "bench": None if card.bench is None else bench_json(card.bench),
        "blend": card.blend,
        "vitola": card.vitola,
        "ring": card.ring,
        "length_mm": card.length_mm,
        "standard_moisture": card.standard_moisture,
        "packing": {
            "source": packing.source,
            "a": packing.a,
            "p": packing.p,
            "filler_standard_g": packing.filler_standard_g,
            "law_g": packing.law_g,
            "low_g": packing.low_g,
            "high_g": packing.high_g,
        },
        "filler_g": card.filler_g,
        "classes": [row.as_json() for row in card.classes],
        "batch": card.batch.as_json() if card.batch else None,
        "binder": _cover_json(card.binder),
        "wrapper": _cover_json(card.wrapper),
        "targets": {name: target._asdict() for name, target in card.targets.items()},
        "warnings": list(card.warnings),
    }
    if why:
        whole["why"] = [step_json(step) for step in card.why]
    return whole


def _cover_json(cover: Laid) -> dict[str, object]:
    return {"leaf": cover.leaf, "on_bunch_g": cover.on_bunch_g, "pieces": cover.pieces}
