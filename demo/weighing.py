"""A bench's pieces on the scale: which measure, how many, and what the scale shows."""

from __future__ import annotations

import datetime as dt
import random
from collections.abc import Iterator

from core.day.entries import Measure
from core.entry import requests as ask
from core.recipe.card import Card
from core.recipe.portion import grams
from demo.habits import KEYED, Habits

FIRST_PIECES = 3


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
