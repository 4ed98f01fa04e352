"""What a bench's chart advises, in grams and kilograms."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from core.control.advice import LEAST_CHECKS, Advice, Estimate
from core.control.capability import Fit
from core.desk.figures import fixed
from core.desk.measured import Measured
from core.say import joined, say
from core.sketch.chart import signed

FITS: Mapping[Fit, str] = {
    "well": say("fits well"),
    "barely": say("barely fits"),
    "off_target": say("fits only if on target"),
    "not": say("too spread to fit"),
}

_PACKS = say("bench {bench} packs {off} {unit} {side}")
_RUNS = say("bench {bench} runs {off} {unit} {side}")
_MORE = say("{says}: about {leaf} of filler a week")
_LESS = say("{says}: about {leaf} of filler a week less")


def advice_words(bench: str, what: Measured, judged: Advice, division: float) -> str:
    """One sentence: how far off for certain and what that costs, or why nothing is said."""
    if judged.per_bunch is None:
        return say(
            "too few checks to tell: {checks} of the {least} it takes",
            checks=judged.checks,
            least=LEAST_CHECKS,
        )
    if judged.verdict not in ("heavy", "light"):
        return say(
            "bench {bench} is within noise: {interval}",
            bench=bench,
            interval=_interval(judged.per_bunch, what, division),
        )
    says = (_PACKS if what.measure in ("filler", "bunch") else _RUNS).format(
        bench=bench,
        off=_off(judged.per_bunch, what, division),
        unit=what.unit,
        side=what.side(high=judged.verdict == "heavy"),
    )
    if not judged.per_week:
        return says
    weekly = _MORE if judged.verdict == "heavy" else _LESS
    return weekly.format(says=says, leaf=kilograms(abs(judged.per_week.mean_g)))


def _off(off: Estimate, what: Measured, division: float) -> str:
    """The mean as the scale shows it; a place more where that would be nothing."""
    places = what.places(division)
    text = fixed(abs(off.mean_g), places)
    return text if float(text) else fixed(abs(off.mean_g), places + 1)


def _interval(off: Estimate, what: Measured, division: float) -> str:
    places = what.places(division) + 1
    mean, low, high = (signed(grams, places) for grams in off)
    return say(
        "mean {mean} {unit}, somewhere from {low} to {high}",
        mean=mean,
        unit=what.unit,
        low=low,
        high=high,
    )


def with_cause(advice: str, leaves: Sequence[str]) -> str:
    """The advice, and whose portions to look at; no more where there is none."""
    if not leaves:
        return advice
    if len(leaves) == 1:
        return say("{advice}; check the {leaf} portion", advice=advice, leaf=leaves[0])
    these = joined(say(" and the "), leaves)
    return say("{advice}; check the {leaves} portions", advice=advice, leaves=these)


def kilograms(grams: float) -> str:
    """A week's leaf in two figures: it is not known more exactly."""
    about = float(f"{grams:.2g}")
    return f"{about / 1000:g} kg" if about >= 1000 else f"{about:g} g"
