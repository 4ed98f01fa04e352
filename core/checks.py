"""Weight checks: the window a reading must meet, and the verdict on a check."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Literal, NamedTuple

from core.house.model import HouseBook, Vitola
from core.measure import Measure
from core.recipe.card import Card

Place = Literal["light", "within", "heavy"]
State = Literal["out", "near", "within"]

RING_EACH_SIDE = 1.0
"""Ring gauge: common practice, no source."""
LENGTH_EACH_SIDE_MM = 1.5
"""Common practice, no source."""
SLACK = 1e-9
"""Relative: what binary fractions may move a limit that was written in decimals."""


class Window(NamedTuple):
    """A target and its limits, which are within, in the measure's own unit."""

    target: float
    low: float
    high: float


class Verdict(NamedTuple):
    """A check judged. `spread` is the sample standard deviation; None, as `steady`, under two."""

    places: tuple[Place, ...]
    mean: float
    mean_place: Place
    deviation: float
    spread: float | None
    steady: bool | None
    state: State


def window(
    card: Card, vitola: Vitola, house: HouseBook, measure: Measure, of: int = 1
) -> Window | None:
    """The window of a measure: grams, ring gauge, mm, or mm of water; None where there is none.

    A bundle is `of` cigars on the scale together.
    """
    if measure in card.targets:
        target = card.targets[measure]
        return Window(target.target_g, target.low_g, target.high_g)
    if measure == "bundle":
        bundle_g = of * card.targets["cigar"].target_g
        return _each_side(bundle_g, house.house.bundle_tolerance * bundle_g)
    if measure == "ring":
        return _each_side(vitola.ring, RING_EACH_SIDE)
    if measure == "length":
        return _each_side(vitola.length_mm, LENGTH_EACH_SIDE_MM)
    if vitola.draw is None:
        return None
    low, high = vitola.draw.low_mmh2o, vitola.draw.high_mmh2o
    return Window((low + high) / 2, low, high)


def place(reading: float, window: Window) -> Place:
    """Where a reading lies; on a limit is within."""
    low, high = _limits(window)
    if reading < low:
        return "light"
    return "heavy" if reading > high else "within"


def _limits(window: Window) -> tuple[float, float]:
    """The limits with the slack of binary fractions."""
    _, low, high = window
    return low - SLACK * abs(low), high + SLACK * abs(high)


def outside(readings: Sequence[float], window: Window) -> bool:
    """Whether a check is out: any of its readings, or their mean.

    The mean lies between the readings, so the least and the greatest of them tell.
    """
    least, greatest = min(readings), max(readings)
    if window.low <= least and greatest <= window.high:
        return False
    low, high = _limits(window)
    return least < low or greatest > high


def judge(readings: Sequence[float], window: Window) -> Verdict:
    """The verdict on a check of one reading or more.

    Steady: the sample standard deviation is no more than half the tolerance. Out: a reading
    or the mean is; near: the mean is beyond half the tolerance.
    """
    mean, spread = mean_and_spread(readings)
    deviation = mean - window.target
    half = (window.high - window.low) / 4
    slack = SLACK * abs(window.target)
    places = tuple([place(reading, window) for reading in readings])
    mean_place = place(mean, window)
    out = mean_place != "within" or places.count("within") < len(places)
    near = abs(deviation) > half + slack
    return Verdict(
        places=places,
        mean=mean,
        mean_place=mean_place,
        deviation=deviation,
        spread=spread,
        steady=None if spread is None else spread <= half + slack,
        state="out" if out else "near" if near else "within",
    )


def mean_and_spread(readings: Sequence[float]) -> tuple[float, float | None]:
    """Mean, and sample standard deviation (None under two readings), in two passes."""
    n = len(readings)
    mean = math.fsum(readings) / n
    if n < 2:
        return mean, None
    squares = math.fsum((reading - mean) ** 2 for reading in readings)
    return mean, math.sqrt(squares / (n - 1))


def _each_side(target: float, tolerance: float) -> Window:
    return Window(target, target - tolerance, target + tolerance)
