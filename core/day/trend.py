"""Days side by side and added up, from their summaries alone.

Leaf is filler, as in the day's leaf yield: binders and wrappers go by pieces. Leaf yield and
leaf per 1,000 leave out days on which none was issued; there it is not known what was used.
Mean deviations are over checks, and their standard errors take checks for independent.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from typing import Literal, NamedTuple

from core.day.summary import DayOpened, DaySummary, Leaves
from core.day.yields import COVERS, first_pass_yield

State = Literal["closed", "open again", "not closed"]


class Figures(NamedTuple):
    """A day's figures, or those of all days of a span; None where they cannot be told.

    `leaves_beyond` counts the leaves of which more was unexplained, either way, than checks
    can tell, once for each day.
    """

    made: int
    good: int
    rejected: int
    rework: int
    first_pass_yield: float | None
    filler_used_kg: float
    filler_kg_per_1000_good: float | None
    leaf_yield: float | None
    unexplained_g: float
    leaves_beyond: int
    checks: int
    out: int
    mean_deviation_g: float | None
    deviation_se_g: float | None


class DayLine(NamedTuple):
    """A day of the trend; only a closed one has figures. `corrected`: times opened again."""

    date: str
    state: State
    corrected: int
    open_since: str | None
    reason: str | None
    figures: Figures | None


class Trend(NamedTuple):
    """Every day that there is, oldest first, and the closed ones together."""

    days: tuple[DayLine, ...]
    closed: int
    totals: Figures | None


def trend(kept: Mapping[str, DaySummary | DayOpened], unclosed: Iterable[str]) -> Trend:
    """The days by their newest summaries, and those that have a book but no summary."""
    lines = [_line(summary) for summary in kept.values()]
    lines += [DayLine(date, "not closed", 0, None, None, None) for date in unclosed]
    days = closed_days(kept)
    return Trend(
        tuple(sorted(lines, key=lambda line: line.date)),
        len(days),
        _figures(days) if days else None,
    )


def closed_days(kept: Mapping[str, DaySummary | DayOpened]) -> list[DaySummary]:
    """The days that are closed and stay so, oldest first."""
    return [day for _, day in sorted(kept.items()) if day["closed"]]


def _line(day: DaySummary | DayOpened) -> DayLine:
    if day["closed"]:
        return DayLine(day["date"], "closed", day["corrected"], None, None, _figures([day]))
    return DayLine(day["date"], "open again", day["corrected"], day["at"], day["reason"], None)


def _figures(days: Sequence[DaySummary]) -> Figures:
    made, good, rejected, rework, checks, out, n_dev = (
        sum(day["totals"][key] for day in days)
        for key in ("made", "good", "rejected", "rework", "checks", "out", "n_dev")
    )
    mean, error = mean_and_error(
        n_dev,
        math.fsum(day["totals"]["sum_dev_g"] for day in days),
        math.fsum(day["totals"]["sum_sq_dev_g2"] for day in days),
    )
    used_g, in_good_g, good_of_it = _leaf(days)
    return Figures(
        made=made,
        good=good,
        rejected=rejected,
        rework=rework,
        first_pass_yield=first_pass_yield(good, rejected, rework),
        filler_used_kg=used_g / 1000,
        filler_kg_per_1000_good=used_g / good_of_it if good_of_it else None,
        leaf_yield=in_good_g / used_g if used_g > 0 else None,
        unexplained_g=math.fsum(_filler(day["leaf"], "unexplained_g") for day in days),
        leaves_beyond=sum(sum(day["leaf"]["beyond"]) for day in days),
        checks=checks,
        out=out,
        mean_deviation_g=mean,
        deviation_se_g=error,
    )


def _leaf(days: Iterable[DaySummary]) -> tuple[float, float, int]:
    """Filler used and in good cigars (grams), and good cigars, of the days that used any."""
    used_g = in_good_g = 0.0
    good = 0
    for day in days:
        if issued(day):
            used_g += _filler(day["leaf"], "used_g")
            in_good_g += _filler(day["leaf"], "in_good_g")
            good += day["totals"]["good"]
    return used_g, in_good_g, good


def issued(day: DaySummary) -> bool:
    """Whether filler was issued that day, so that it is known what was used."""
    return _filler(day["leaf"], "used_g") > 0


def _filler(leaves: Leaves, key: Literal["used_g", "in_good_g", "unexplained_g"]) -> float:
    """A column's sum over the fillers."""
    return sum(
        grams
        for grams, leaf_class in zip(leaves[key], leaves["class"], strict=True)
        if leaf_class not in COVERS
    )


def mean_and_error(n: int, total: float, squares: float) -> tuple[float | None, float | None]:
    """A mean and its standard error from a sum and a sum of squares; None where not told."""
    if not n:
        return None, None
    mean = total / n
    if n < 2:
        return mean, None
    variance = max(0.0, squares - n * mean * mean) / (n - 1)
    return mean, math.sqrt(variance / n)
