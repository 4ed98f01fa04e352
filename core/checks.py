"""Checks: the window a reading must meet, and the verdict on a check."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import TYPE_CHECKING, Literal, NamedTuple

from core.house.model import DialWindow, HouseBook, Vitola
from core.measure import PRESSURE_DROP, DrawScale, Measure

if TYPE_CHECKING:
    from core.recipe.card import Card

Place = Literal["light", "within", "heavy"]
State = Literal["out", "near", "within"]

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
    card: Card,
    vitola: Vitola,
    house: HouseBook,
    measure: Measure,
    of: int = 1,
    leaf: str | None = None,
) -> Window | None:
    """The window of a measure: grams, ring gauge, mm, or draw; None where there is none.

    A bundle is `of` cigars on the scale together; a portion is of one `leaf` of the blend.
    """
    if measure in card.targets:
        target = card.targets[measure]
        return Window(target.target_g, target.low_g, target.high_g)
    if measure == "bundle":
        bundle_g = of * card.targets["cigar"].target_g
        return _each_side(bundle_g, house.house.bundle_tolerance * bundle_g)
    if measure == "ring":
        return _each_side(vitola.ring, house.house.ring_tolerance)
    if measure == "length":
        return _each_side(vitola.length_mm, house.house.length_tolerance_mm)
    if measure == "portion":
        return _portion(card, house, leaf)
    return _draw(vitola)


def _portion(card: Card, house: HouseBook, leaf: str | None) -> Window | None:
    """The bunch's tolerance as a share of the class's grams, one scale division at least.

    Common practice, no source. None for a class that weighs nothing on the scale.
    """
    target_g = next((row.g for row in card.classes if row.leaf == leaf), 0.0)
    if target_g == 0:
        return None
    bunch = card.targets["bunch"]
    share = (bunch.high_g - bunch.target_g) / bunch.target_g
    return _each_side(target_g, max(share * target_g, house.house.scale_division_g))


def _draw(vitola: Vitola) -> Window | None:
    draw = vitola.draw
    if draw is None:
        return None
    if isinstance(draw, DialWindow):
        return Window((draw.low + draw.high) / 2, draw.low, draw.high)
    low, high = draw.low_mmh2o, draw.high_mmh2o
    return Window((low + high) / 2, low, high)


def draw_scale(vitola: Vitola, house: HouseBook) -> DrawScale | None:
    """What the vitola's draw is read in; None where the house book gives it no window."""
    if vitola.draw is None:
        return None
    rises = vitola.draw_rises or house.house.draw_rises
    if isinstance(vitola.draw, DialWindow) and rises is not None:
        return DrawScale("dial", rises)
    return PRESSURE_DROP


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


def called(mean_place: Place, *, out: bool) -> str:
    """A check in a word: mixed where readings are out though their mean is not."""
    return "mixed" if mean_place == "within" and out else mean_place


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
