"""Days and weeks side by side and added up, from the days' summaries alone.

Leaf yield and leaf per 1,000 leave out days on which none was issued; there it is not known
what was used.
"""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Iterable, Mapping, Sequence
from typing import Any, Literal, NamedTuple, cast

from core.day.figures import Figures, Sums, figures
from core.day.summary import DayOpened, DaySummary, Leaves
from core.day.yields import COVERS

State = Literal["closed", "open again", "not closed"]


class DayFigures(NamedTuple):
    """A day's figures, or those of all days of a span, and what only the whole house tells.

    `leaves_beyond` counts the leaves of which more was unexplained, either way, than checks
    can tell, once for each day.
    """

    figures: Figures
    leaves_beyond: int
    checks: int
    out: int

    def flat(self) -> dict[str, Any]:
        """All of them under their own names, side by side."""
        whole = self.figures._asdict()
        return whole | {"leaves_beyond": self.leaves_beyond, "checks": self.checks, "out": self.out}


class DayLine(NamedTuple):
    """A day of the trend; only a closed one has figures. `corrected`: times opened again."""

    date: str
    state: State
    corrected: int
    open_since: str | None
    reason: str | None
    figures: DayFigures | None


class WeekLine(NamedTuple):
    """The closed days of an ISO week (ISO 8601) within the span: `days` of them."""

    week: str
    first: str
    last: str
    days: int
    corrected: int
    figures: DayFigures


class Trend(NamedTuple):
    """Every day that there is, oldest first, the closed ones by week, and all together."""

    days: tuple[DayLine, ...]
    closed: int
    totals: DayFigures | None
    weeks: tuple[WeekLine, ...] = ()


def trend(kept: Mapping[str, DaySummary | DayOpened], unclosed: Iterable[str]) -> Trend:
    """The days by their newest summaries, and those that have a book but no summary."""
    lines = [_line(summary) for summary in kept.values()]
    lines += [DayLine(date, "not closed", 0, None, None, None) for date in unclosed]
    days = closed_days(kept)
    return Trend(
        tuple(sorted(lines, key=lambda line: line.date)),
        len(days),
        _figures(days) if days else None,
        tuple(_week(name, of_it) for name, of_it in weeks_of(days).items()),
    )


def weeks_of(days: Iterable[DaySummary]) -> dict[str, list[DaySummary]]:
    """The days by their ISO week, as 2026-W19, in their order."""
    found: dict[str, list[DaySummary]] = {}
    for day in days:
        year, week, _ = dt.date.fromisoformat(day["date"]).isocalendar()
        found.setdefault(f"{year}-W{week:02d}", []).append(day)
    return found


def _week(name: str, days: Sequence[DaySummary]) -> WeekLine:
    corrected = sum(day["corrected"] for day in days)
    return WeekLine(name, days[0]["date"], days[-1]["date"], len(days), corrected, _figures(days))


def closed_days(kept: Mapping[str, DaySummary | DayOpened]) -> list[DaySummary]:
    """The days that are closed and stay so, oldest first."""
    return [day for _, day in sorted(kept.items()) if day["closed"]]


def _line(day: DaySummary | DayOpened) -> DayLine:
    if day["closed"]:
        return DayLine(day["date"], "closed", day["corrected"], None, None, _figures([day]))
    return DayLine(day["date"], "open again", day["corrected"], day["at"], day["reason"], None)


def _figures(days: Sequence[DaySummary]) -> DayFigures:
    totals = [cast("Mapping[str, Any]", day["totals"]) for day in days]

    def counted(key: str) -> int:
        # What an earlier format did not know is not in it.
        return sum(each.get(key, 0) for each in totals)

    used_g, in_good_g, good_of_leaf = _leaf(days)
    sums = Sums(
        made=counted("made"),
        good=counted("good"),
        rejected=counted("rejected"),
        rework=counted("rework"),
        second=counted("second"),
        n_dev=counted("n_dev"),
        sum_dev_g=math.fsum(each["sum_dev_g"] for each in totals),
        sum_sq_dev_g2=math.fsum(each["sum_sq_dev_g2"] for each in totals),
        filler_g=used_g,
        good_of_leaf=good_of_leaf,
        in_good_g=in_good_g,
        unexplained_g=math.fsum(_filler(day["leaf"], "unexplained_g") for day in days),
    )
    beyond = sum(sum(day["leaf"]["beyond"]) for day in days)
    return DayFigures(figures(sums), beyond, counted("checks"), counted("out"))


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
