"""What a bench's readings of today say about its scale, in words."""

from __future__ import annotations

from collections.abc import Iterator

from core.control.scale import (
    DIVISIONS_IN_WINDOW,
    LEAST_TO_COMPARE,
    rounded,
    stuck,
    too_coarse,
    zero_shift,
)
from core.desk.charts import Series
from core.desk.figures import decimals, fixed, shown
from core.measure import WEIGHED, Measure
from core.say import say


def found_words(
    measure: Measure,
    series: Series,
    *,
    sigma: float,
    division: float,
    window_width: float,
) -> tuple[str, ...]:
    """What is odd, a sentence each; nothing for what is not weighed.

    A scale that is stuck is not also told to round.
    """
    if measure not in WEIGHED or not series.today:
        return ()
    return tuple(_found(series, sigma, division, window_width))


def _found(series: Series, sigma: float, division: float, window_width: float) -> Iterator[str]:
    places = decimals(division)
    coarse = too_coarse(window_width, division)
    if coarse is not None:
        yield (
            say(
                "the scale's division of {division} g is coarse for this window: "
                "{across:.1f} across it, {needed} are needed",
                division=shown(division, places),
                across=coarse.divisions_in_window,
                needed=DIVISIONS_IN_WINDOW,
            )
        )
    readings = [reading for check in series.today for reading in check.readings]
    hangs = stuck(readings, sigma_g=sigma, division_g=division)
    if hangs is not None:
        yield (
            say(
                "the scale showed {reading_g} g {times} times in a row: does it hang?",
                reading_g=shown(hangs.reading_g, places),
                times=hangs.times,
            )
        )
    else:
        steps = rounded(readings, sigma_g=sigma, division_g=division)
        if steps is not None:
            step = shown(steps.step_g, places)
            yield say("every reading is on a step of {step} g: are they rounded?", step=step)
    yield from _apart(series, division)


def _apart(series: Series, division: float) -> Iterator[str]:
    """Whether the two terminals that weighed most here have scales set apart."""
    if len({made.terminal for made in series.today}) < 2:
        return
    off: dict[str, list[float]] = {}
    for made, check in zip(series.today, series.checks[-len(series.today) :], strict=True):
        off.setdefault(made.terminal, []).append(check.group.mean)
    most = sorted(off.items(), key=lambda each: (-len(each[1]), each[0]))[:2]
    if len(most) < 2 or len(most[1][1]) < LEAST_TO_COMPARE:
        return
    (first, of_first), (second, of_second) = sorted(most)
    shift = zero_shift(of_first, of_second, division)
    if shift is not None:
        more, less = (first, second) if shift.shift_g > 0 else (second, first)
        grams = fixed(abs(shift.shift_g), decimals(division) + 1)
        yield (
            say(
                "terminal {more} weighs {grams} g more than {less} at this bench: check the zero "
                "of both scales",
                more=more,
                grams=grams,
                less=less,
            )
        )
