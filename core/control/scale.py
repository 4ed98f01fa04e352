"""Whether a bench's scale can be believed, from its own readings."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise
from typing import NamedTuple

from core.checks import mean_and_spread
from core.recipe.student import t_quantile

DIVISIONS_IN_WINDOW = 6
"""Fewer divisions across the window, and a reading cannot tell within from out: common practice."""
STUCK_CHANCE = 1e-4
"""A run of like readings less likely than this, in all the readings given, is a stuck scale."""
ROUNDED_CHANCE = 1e-4
"""Readings all on a coarser step with less than this chance are being rounded."""
STEPS = (10, 5, 2)
"""Coarser steps looked for, in divisions: what people round to, and scales are set to."""
SHIFT_CONFIDENCE = 0.999
"""Two scales differ where this interval of their difference excludes zero."""
LEAST_TO_COMPARE = 8
"""Checks of each scale: with fewer of one than of the other, Welch's t cries out too often."""
_WHOLE = 0.01
"""Divisions: how near a whole number a reading must be to have come from such a scale."""


class CoarseDivision(NamedTuple):
    """The scale's division is over a sixth of the window."""

    divisions_in_window: float


class Stuck(NamedTuple):
    """The same reading (grams) `times` in a row, and the chance of such a run."""

    reading_g: float
    times: int
    chance: float


class Rounded(NamedTuple):
    """All readings are multiples of `step_g`, coarser than the division; the chance of that."""

    step_g: float
    chance: float


class Shift(NamedTuple):
    """The first scale shows `shift_g` more than the second, within `low_g` to `high_g`."""

    shift_g: float
    low_g: float
    high_g: float


def too_coarse(window_g: float, division_g: float) -> CoarseDivision | None:
    """Whether a window of that whole width (grams) has too few divisions of the scale."""
    divisions = window_g / division_g
    return CoarseDivision(divisions) if divisions < DIVISIONS_IN_WINDOW - 1e-9 else None


def stuck(readings_g: Sequence[float], *, sigma_g: float, division_g: float) -> Stuck | None:
    """Whether a scale hangs or is dead: the longest run of one reading is beyond chance.

    `readings_g` as shown, in time order, of one target; `sigma_g` the spread of a reading, from
    the bench's baseline and not from these. L readings in a row are alike with chance Σ p^L
    over the divisions; a bunch whose true mean is on a division makes that greatest, and is
    assumed; N readings have N − L + 1 places for it.
    """
    reading_g, times = _longest_run(readings_g)
    sigma, places = sigma_g / division_g, len(readings_g) - times + 1
    if times < 2 or places * _middle_chance(sigma) ** times >= STUCK_CHANCE:
        return None  # the middle division alone makes it likely enough
    chance = min(1.0, places * math.fsum(p**times for p in shown_chances(sigma)))
    return Stuck(reading_g, times, chance) if chance < STUCK_CHANCE else None


def _longest_run(readings_g: Sequence[float]) -> tuple[float, int]:
    longest, times, run = 0.0, 0, 0
    before: float | None = None
    for reading in readings_g:
        run = run + 1 if reading == before else 1
        if run > times:
            longest, times = reading, run
        before = reading
    return longest, times


def rounded(readings_g: Sequence[float], *, sigma_g: float, division_g: float) -> Rounded | None:
    """Whether readings are rounded to 10, 5 or 2 divisions, by hand or by a scale's setting.

    `readings_g` and `sigma_g` as for `stuck`. A reading falls on a step of k divisions with a
    chance that is greatest where its mean is on one, and that is assumed. Readings that are
    all alike are `stuck`'s, not ours.
    """
    likely = [step for step in STEPS if _all_on(readings_g, step, division_g)]
    if not likely:
        return None
    counts = [reading / division_g for reading in readings_g]
    whole = [round(count) for count in counts]
    if len(set(whole)) < 2 or any(abs(a - b) > _WHOLE for a, b in zip(counts, whole, strict=True)):
        return None
    chances = shown_chances(sigma_g / division_g)
    middle = len(chances) // 2
    for step in likely:
        on_step = math.fsum(chances[middle % step :: step])
        chance = min(1.0, len(STEPS) * on_step ** len(whole))
        if chance < ROUNDED_CHANCE:
            return Rounded(step * division_g, chance)
    return None


def _all_on(readings_g: Sequence[float], step: int, division_g: float) -> bool:
    return all(round(reading / division_g) % step == 0 for reading in readings_g)


def zero_shift(first: Sequence[float], second: Sequence[float], division_g: float) -> Shift | None:
    """Whether two scales at one bench, or two terminals' scales, are set apart: grams.

    Mean deviations of each one's checks, Welch's t with its degrees of freedom rounded down
    (Biometrika 34 (1947) 28–35). A variance is never taken for less than the rounding of one
    reading, division² ÷ 12. None with fewer than eight checks of either.
    """
    if min(len(first), len(second)) < LEAST_TO_COMPARE:
        return None
    mean_1, of_1 = _mean_and_variance(first, division_g)
    mean_2, of_2 = _mean_and_variance(second, division_g)
    variance = of_1 + of_2
    dof = variance**2 / (of_1**2 / (len(first) - 1) + of_2**2 / (len(second) - 1))
    reach = t_quantile((1 + SHIFT_CONFIDENCE) / 2, math.floor(dof + 1e-9)) * math.sqrt(variance)
    shift = mean_1 - mean_2
    return Shift(shift, shift - reach, shift + reach) if abs(shift) > reach else None


def _mean_and_variance(check_means: Sequence[float], division_g: float) -> tuple[float, float]:
    """Mean of check means, and its variance."""
    mean, s = mean_and_spread(check_means)
    return mean, max((s or 0.0) ** 2, division_g**2 / 12) / len(check_means)


def _middle_chance(sigma: float) -> float:
    """The chance of the middle one of `shown_chances`."""
    return math.erf(0.5 / (sigma * math.sqrt(2))) if sigma > 0 else 1.0


def shown_chances(sigma: float) -> list[float]:
    """Chances of each division's being shown, the true mean on the middle one; σ in divisions."""
    if sigma <= 0:
        return [1.0]
    far = math.ceil(9 * sigma) + 1
    edges = [math.erf((k - 0.5) / (sigma * math.sqrt(2))) / 2 for k in range(-far, far + 2)]
    return [b - a for a, b in pairwise(edges)]
