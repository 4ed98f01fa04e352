"""What a bench's chart advises, in grams and kilograms."""

from __future__ import annotations

from collections.abc import Sequence

from core.control.advice import LEAST_CHECKS, Advice, Estimate
from core.desk.figures import fixed
from core.desk.measured import Measured
from core.measure import Measure
from core.sketch.chart import signed

_DOES: dict[Measure, str] = {"filler": "packs", "bunch": "packs"}
"""What a bench does with what is weighed, where that is said otherwise than that it runs."""


def advice_words(bench: str, what: Measured, judged: Advice, division: float) -> str:
    """One sentence: how far off for certain and what that costs, or why nothing is said."""
    if judged.per_bunch is None:
        return f"too few checks to tell: {judged.checks} of the {LEAST_CHECKS} it takes"
    if judged.verdict not in ("heavy", "light"):
        return f"bench {bench} is within noise: {_interval(judged.per_bunch, what, division)}"
    off = f"{_off(judged.per_bunch, what, division)} {what.unit}"
    does = _DOES.get(what.measure, "runs")
    says = f"bench {bench} {does} {off} {what.side(high=judged.verdict == 'heavy')}"
    return says + (_weekly(judged.per_week, judged.verdict) if judged.per_week else "")


def _off(off: Estimate, what: Measured, division: float) -> str:
    """The mean as the scale shows it; a place more where that would be nothing."""
    places = what.places(division)
    text = fixed(abs(off.mean_g), places)
    return text if float(text) else fixed(abs(off.mean_g), places + 1)


def _interval(off: Estimate, what: Measured, division: float) -> str:
    places = what.places(division) + 1
    mean, low, high = (signed(grams, places) for grams in off)
    return f"mean {mean} {what.unit}, somewhere from {low} to {high}"


def _weekly(week: Estimate, verdict: str) -> str:
    more = "" if verdict == "heavy" else " less"
    return f": about {kilograms(abs(week.mean_g))} of filler a week{more}"


def cause_words(leaves: Sequence[str]) -> str:
    """Whose portions to look at; empty of none."""
    if not leaves:
        return ""
    several = "s" if len(leaves) > 1 else ""
    return f"; check the {' and the '.join(leaves)} portion{several}"


def kilograms(grams: float) -> str:
    """A week's leaf in two figures: it is not known more exactly."""
    about = float(f"{grams:.2g}")
    return f"{about / 1000:g} kg" if about >= 1000 else f"{about:g} g"
