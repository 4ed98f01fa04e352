"""What a house packs: the law its approved bunches follow, filler = a · ∫ (core diameter)^p."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Literal, NamedTuple

from core.house.model import Approved, Blend, HouseBook
from core.problems import BadInput, Problem
from core.recipe.cover import build_mm
from core.recipe.known import known_blend
from core.recipe.regression import StraightLine, straight_line
from core.recipe.size import Taper, core_of, greatest, integral, integral_slope, outer
from core.recipe.student import t_quantile
from core.say import Said, say, say_many

PLAIN_VOLUME = 2.0
P_SEARCHED = (0.1, 10.0)
STARTS = (PLAIN_VOLUME, 1.0, 3.5, 6.0)
P_USUAL = (1.5, 3.5)
P_CLOSE = 1e-10
SPARE_FOR_INTERVAL = 3
NO_CORE_MM = 1e-6
"""A core thinner than this is what subtraction leaves of none."""

EXACT_FIT = say("exact fit: its error cannot be told")


class ApprovedMean(NamedTuple):
    """Approved bunches of one vitola: their mean filler at standard moisture."""

    filler_g: float
    bunches: int


class Law(NamedTuple):
    """Filler at standard moisture is `a` · core integral of `p`, in grams and millimetres.

    `residual_sd` is that of the log of a typical entry (weights have mean 1); `t` is the
    97.5 % point behind a 95 % interval, None where too few entries are to spare. `slope_mean`
    and `slope_spread` are those of d ln I/dp over the entries, the spread 0 where p is not
    fitted. The ring range is that of the entries.
    """

    a: float
    p: float
    fitted: Literal["a and p", "a", "assumed"]
    source: Said
    entries: int
    dof: int
    approved: dict[str, ApprovedMean]
    residual_sd: float | None = None
    t: float | None = None
    slope_mean: float = 0.0
    slope_spread: float = 0.0
    ring_low: float | None = None
    ring_high: float | None = None
    warnings: tuple[Said, ...] = ()


def entries_used(house: HouseBook, blend_code: str) -> tuple[Approved, ...]:
    """Approved entries that name the blend; if none, those that name no blend."""
    own = tuple(entry for entry in house.approved if entry.blend == blend_code)
    return own or tuple(entry for entry in house.approved if entry.blend is None)


def fit(house: HouseBook, blend_code: str) -> Law:
    """The blend's packing law, by weighted least squares on the log of approved filler.

    Raises BadInput for an unknown blend, for an approved vitola without a core under the
    blend's covers, and where there is neither an approved bunch nor an assumed packing.
    """
    known_blend(house, blend_code)
    used = entries_used(house, blend_code)
    return fit_to(house, blend_code, used) if used else _assumed(house, blend_code)


def fit_to(
    house: HouseBook,
    blend_code: str,
    used: Sequence[Approved],
    starts: Sequence[float] = STARTS,
) -> Law:
    """The law of these approved entries, one at least, under the blend's covers.

    p is searched from the first of `starts`, with shaped sizes from each. Raises BadInput for
    an unknown blend and for a vitola without a core under the covers.
    """
    blend = known_blend(house, blend_code)
    cores = _cores(house, blend, used)
    logs = [math.log(entry.filler_g) for entry in used]
    weights = entry_weights(used)
    widths = {round(greatest(core), 6) for core in cores}
    p, line = PLAIN_VOLUME, _at(PLAIN_VOLUME, cores, logs, weights)
    both = len(widths) > 1 and line.x_spread > 0
    if both:
        # With shaped sizes the sum of squares can have more than one hollow.
        shaped = any(len(core) > 1 for core in cores)
        found = [
            _search(start, cores, logs, weights) for start in (starts if shaped else starts[:1])
        ]
        p, line = min(found, key=lambda each: each[1].y_spread)
    dof = len(used) - (2 if both else 1)
    rings = [house.vitola[entry.vitola].ring for entry in used]
    return Law(
        a=math.exp(line.y_mean),
        p=p,
        fitted="a and p" if both else "a",
        source=_source(used),
        entries=len(used),
        dof=dof,
        residual_sd=math.sqrt(line.y_spread / dof) if dof > 0 else None,
        t=t_quantile(0.975, dof) if dof >= SPARE_FOR_INTERVAL else None,
        slope_mean=line.x_mean if both else 0.0,
        slope_spread=line.x_spread if both else 0.0,
        ring_low=min(rings),
        ring_high=max(rings),
        approved=_means(used),
        warnings=_warnings(p, dof),
    )


def _source(used: Sequence[Approved]) -> Said:
    if used[0].blend is None:
        return say_many(
            len(used),
            "1 approved entry naming no blend",
            "{n} approved entries naming no blend",
        )
    return say_many(
        len(used),
        "1 approved entry naming {blend}",
        "{n} approved entries naming {blend}",
        blend=used[0].blend,
    )


def entry_weights(used: Sequence[Approved]) -> list[float]:
    """What each entry weighs in the fit: as its bunches, with a mean of 1."""
    total = sum(entry.bunches for entry in used)
    return [entry.bunches * len(used) / total for entry in used]


def _cores(house: HouseBook, blend: Blend, used: Sequence[Approved]) -> list[tuple[Taper, ...]]:
    build = build_mm(house, blend)
    by_vitola = {code: core_of(outer(house.vitola[code]), build) for code in _means(used)}
    bare = [code for code, core in by_vitola.items() if greatest(core) < NO_CORE_MM]
    if bare:
        raise BadInput(
            *(
                Problem(
                    f'[[approved]] "{code}"',
                    say(
                        "blend {blend} cannot be fitted to it: the covers add {covers_mm:g} mm "
                        "to the diameter, which leaves no core; correct the ring or the covers' "
                        "build",
                        blend=blend.code,
                        covers_mm=2 * build,
                    ),
                )
                for code in bare
            )
        )
    return [by_vitola[entry.vitola] for entry in used]


def _at(
    p: float,
    cores: Sequence[tuple[Taper, ...]],
    logs: Sequence[float],
    weights: Sequence[float],
) -> StraightLine:
    """Filler less I(p), in logs, on d ln I/dp: `y_mean` is ln a, `slope` the step to a better p."""
    known = {core: (integral(core, p), integral_slope(core, p)) for core in set(cores)}
    both = [known[core] for core in cores]
    slopes = [slope / whole for whole, slope in both]
    rest = [log - math.log(whole) for log, (whole, _) in zip(logs, both, strict=True)]
    return straight_line(slopes, rest, weights)


def _search(
    start: float,
    cores: Sequence[tuple[Taper, ...]],
    logs: Sequence[float],
    weights: Sequence[float],
) -> tuple[float, StraightLine]:
    """Gauss-Newton on p from `start`, halving steps that do not bring the fit closer."""
    p, (low, high) = start, P_SEARCHED
    line = _at(p, cores, logs, weights)
    for _ in range(50):
        there = min(max(p + line.slope, low), high)
        if abs(there - p) <= P_CLOSE:
            break
        closer = _at(there, cores, logs, weights)
        while closer.y_spread > line.y_spread * (1 + 1e-12) and abs(there - p) > P_CLOSE:
            there = (p + there) / 2
            closer = _at(there, cores, logs, weights)
        p, line = there, closer
    return p, line


def _means(used: Sequence[Approved]) -> dict[str, ApprovedMean]:
    """Bunches-weighted mean of each approved vitola."""
    grams: dict[str, float] = {}
    bunches: dict[str, int] = {}
    for entry in used:
        grams[entry.vitola] = grams.get(entry.vitola, 0.0) + entry.bunches * entry.filler_g
        bunches[entry.vitola] = bunches.get(entry.vitola, 0) + entry.bunches
    return {code: ApprovedMean(grams[code] / n, n) for code, n in bunches.items()}


def _warnings(p: float, dof: int) -> tuple[Said, ...]:
    low, high = P_USUAL
    warnings = [EXACT_FIT] if dof == 0 else []
    if not low <= p <= high:
        warnings.append(
            say(
                "the approved bunches disagree about size: p is {p:.2f}, outside {low:g} to "
                "{high:g}; weigh them again or approve more sizes",
                p=p,
                low=low,
                high=high,
            )
        )
    return tuple(warnings)


def _assumed(house: HouseBook, blend_code: str) -> Law:
    packing = house.house.packing_g_per_cm3
    if packing is None:
        raise BadInput(
            Problem(
                f'[[blend]] "{blend_code}"',
                say(
                    "there is nothing to say how full it is packed: weigh approved bunches of it "
                    'and enter them under [[approved]], or give [house] packing = "0.30 g/cm^3" '
                    "to stand in"
                ),
            )
        )
    warning = say(
        "packing is assumed ({packing:g} g/cm³), not weighed: weigh approved bunches of {blend}",
        packing=packing,
        blend=blend_code,
    )
    return Law(
        a=math.pi / 4 * packing / 1000,
        p=PLAIN_VOLUME,
        fitted="assumed",
        source=say("the house's assumed packing, {packing:g} g/cm³", packing=packing),
        entries=0,
        dof=0,
        approved={},
        warnings=(warning,),
    )
