"""A bench's pieces on the scale and on the draw bench: which, how many, and what is shown."""

from __future__ import annotations

import datetime as dt
import random
from collections.abc import Iterator

from core.entry import requests as ask
from core.house.model import DrawWindow
from core.measure import Measure
from core.recipe.card import Card
from core.recipe.portion import grams
from demo.habits import KEYED, Habits

FIRST_PIECES = 3
BUNDLE = 25
DRAWN = 3


def a_check(
    dice: random.Random, habits: Habits, number: str, readings: tuple[float, ...], measure: Measure
) -> Iterator[tuple[dt.timedelta, ask.Request]]:
    """The lines of one check, with the time since its first: whole, or reading by reading."""
    if measure != "bunch" or len(readings) == FIRST_PIECES or dice.random() >= habits.one_by_one:
        yield dt.timedelta(0), ask.Check(number, measure, readings)
        return
    cut_short = dice.random() < habits.cut_short
    typed = readings[:-1] if cut_short else readings
    for nth, reading in enumerate(typed):
        yield nth * KEYED, ask.Reading(number, reading)
    if cut_short:
        yield len(typed) * KEYED, ask.Done(number)


def a_measure(dice: random.Random, habits: Habits) -> Measure:
    """What a round weighs: bunches but for now and then."""
    drawn = dice.random()
    if drawn < habits.of_filler:
        return "filler"
    return "cigar" if drawn < habits.of_filler + habits.of_cigars else "bunch"


def shown(
    card: Card, measure: Measure, heavier: tuple[float, ...], division_g: float
) -> tuple[float, ...]:
    """What the scale shows of pieces whose filler is `heavier` than the recipe's, as shares.

    Covers are cut to a shape: all of the difference is filler.
    """
    recipe_g = sum(row.exact_g for row in card.classes)
    covers_g = card.targets[measure].target_g - card.filler_g
    exact_g = (recipe_g * (1 + share) + covers_g for share in heavier)
    return tuple(grams(round(g / division_g), division_g) for g in exact_g)


def a_draw(dice: random.Random, number: str, draw: DrawWindow) -> ask.Check:
    """Cigars on the draw bench: most of them well within the house's window."""
    middle, width = (draw.low_mmh2o + draw.high_mmh2o) / 2, draw.high_mmh2o - draw.low_mmh2o
    drawn = tuple(float(round(dice.gauss(middle, width / 7))) for _ in range(DRAWN))
    return ask.Check(number, "draw", drawn)


def a_bundle(number: str, card: Card, heavier: tuple[float, ...], division_g: float) -> ask.Check:
    """Finished cigars on the scale together."""
    each = card.targets["cigar"].target_g + sum(heavier) / len(heavier) * card.filler_g
    together_g = grams(round(len(heavier) * each / division_g), division_g)
    return ask.Check(number, "bundle", (together_g,), len(heavier))
