"""Filler of one vitola: its approved bunches if there are any, else the packing law."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Literal, NamedTuple

from core.house.model import HouseBook, Vitola
from core.recipe.cover import build_mm
from core.recipe.law import ApprovedMean, Law, fit
from core.recipe.size import Taper, core_of, integral, integral_slope, outer
from core.recipe.why import Steps, Worked
from core.say import Said, say, say_many

__all__ = ["Law", "Packed", "fit", "pack", "packed"]

INTEGRAL = say("room in the core, by the law")
INTEGRAL_FROM = say("core diameter to the power p, along the core")
LAW_P = say("packing law, p")
PLAIN = say("plain volume")
LAW_A = say("packing law, a")
BY_LAW = say("filler by the law")
BY_LAW_FROM = say("a × room in the core, at standard moisture")
LOWEST = say("lowest by the law")
HIGHEST = say("highest by the law")
INTERVAL_FROM = say("19 in 20 approved entries lie between; t with {dof} to spare")
FILLER = say("filler, standard")
ASSUMED = say("assumed packing")
LAW = say("the packing law")

WIDEST_LOG = 10.0
"""An interval of more than this, on the log of the filler, tells nothing."""


class Packed(NamedTuple):
    """Filler per bunch, grams at standard moisture, with the law's own figure beside it.

    `low_g` and `high_g` hold one more typical approved entry with 95 % probability, by the
    law. `gap` is how far the approved mean lies from the law, as a fraction of the law.
    """

    source: Literal["approved", "law", "assumed"]
    a: float
    p: float
    filler_standard_g: float
    law_g: float
    low_g: float | None = None
    high_g: float | None = None
    approved_g: float | None = None
    gap: float | None = None
    beyond: bool = False
    steps: Steps = ()


def packed(house: HouseBook, blend_code: str, vitola: Vitola, law: Law) -> Packed:
    """Filler of a vitola in a blend, under the blend's covers and its law."""
    core = core_of(outer(vitola), build_mm(house, house.blend[blend_code]))
    return pack(core, vitola, law)


def pack(core: Sequence[Taper], vitola: Vitola, law: Law) -> Packed:
    """Filler of a vitola whose core is known (and somewhere positive)."""
    whole = integral(core, law.p)
    law_g = law.a * whole
    low_g, high_g = band(core, law)
    approved = law.approved.get(vitola.code)
    filler_g = approved.filler_g if approved else law_g
    beyond = law.ring_low is not None and not _within(vitola.ring, law)
    unit = f"mm^{law.p + 1:.4g}"
    return Packed(
        source="approved" if approved else "assumed" if law.fitted == "assumed" else "law",
        a=law.a,
        p=law.p,
        filler_standard_g=filler_g,
        law_g=law_g,
        low_g=low_g,
        high_g=high_g,
        approved_g=approved.filler_g if approved else None,
        gap=filler_g / law_g - 1 if approved else None,
        beyond=beyond,
        steps=(
            Worked(INTEGRAL, whole, unit, INTEGRAL_FROM),
            Worked(LAW_P, law.p, "", law.source if law.fitted == "a and p" else PLAIN),
            Worked(LAW_A, law.a, f"g/{unit}", law.source),
            Worked(BY_LAW, law_g, "g", BY_LAW_FROM),
            *_interval_steps(low_g, high_g, law),
            Worked(FILLER, filler_g, "g", _whence(approved, law)),
        ),
    )


def _whence(approved: ApprovedMean | None, law: Law) -> Said:
    if approved is None:
        return ASSUMED if law.fitted == "assumed" else LAW
    return say_many(
        approved.bunches,
        "mean of 1 approved bunch of this vitola",
        "mean of {n} approved bunches of this vitola",
    )


def _within(ring: float, law: Law) -> bool:
    return (law.ring_low or 0.0) <= ring <= (law.ring_high or 0.0)


def band(core: Sequence[Taper], law: Law) -> tuple[float, float] | tuple[None, None]:
    """95 % prediction interval of a core's filler, standard grams: one more typical entry.

    Student t on the log of the filler, with leverage (Montgomery, Peck & Vining, Introduction
    to Linear Regression Analysis, 2.4); Nones where the law cannot tell its error.
    """
    if law.t is None or law.residual_sd is None:
        return None, None
    whole = integral(core, law.p)
    half = law.t * law.residual_sd * math.sqrt(1 + leverage(core, law))
    if half > WIDEST_LOG:
        return None, None
    return law.a * whole * math.exp(-half), law.a * whole * math.exp(half)


def leverage(core: Sequence[Taper], law: Law) -> float:
    """How far a core pulls on the law, or is beyond what it was fitted to: 1/n and more.

    The hat value of an entry of that core and weight 1.
    """
    pull = 1 / law.entries
    if law.slope_spread:
        off = integral_slope(core, law.p) / integral(core, law.p) - law.slope_mean
        pull += off * off / law.slope_spread
    return pull


def _interval_steps(low_g: float | None, high_g: float | None, law: Law) -> Steps:
    if low_g is None or high_g is None:
        return ()
    blanks = {"dof": law.dof}
    return (
        Worked(LOWEST, low_g, "g", INTERVAL_FROM, blanks),
        Worked(HIGHEST, high_g, "g", INTERVAL_FROM, blanks),
    )
