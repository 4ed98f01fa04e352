"""Days and weeks side by side and added up, from the days' summaries alone.

Leaf yield and leaf per 1,000 leave out days on which none was issued; there it is not known
what was used.
"""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Iterable, Mapping, Sequence
from typing import Any, Literal, NamedTuple

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
    days = closed_days(kept)
    sums = {day["date"]: _sums(day) for day in days}
    lines = [_line(summary, sums) for summary in kept.values()]
    lines += [DayLine(date, "not closed", 0, None, None, None) for date in unclosed]
    return Trend(
        tuple(sorted(lines, key=lambda line: line.date)),
        len(days),
        _figures(list(sums.values())) if days else None,
        tuple(_week(name, of_it, sums) for name, of_it in weeks_of(days).items()),
    )


def weeks_of(days: Iterable[DaySummary]) -> dict[str, list[DaySummary]]:
    """The days by their ISO week, as 2026-W19, in their order."""
    found: dict[str, list[DaySummary]] = {}
    for day in days:
        year, week, _ = dt.date.fromisoformat(day["date"]).isocalendar()
        found.setdefault(f"{year}-W{week:02d}", []).append(day)
    return found


def _week(name: str, days: Sequence[DaySummary], sums: Mapping[str, _DaySums]) -> WeekLine:
    corrected = sum(day["corrected"] for day in days)
    figures = _figures([sums[day["date"]] for day in days])
    return WeekLine(name, days[0]["date"], days[-1]["date"], len(days), corrected, figures)


def closed_days(kept: Mapping[str, DaySummary | DayOpened]) -> list[DaySummary]:
    """The days that are closed and stay so, oldest first."""
    return [day for _, day in sorted(kept.items()) if day["closed"]]


class _DaySums(NamedTuple):
    """What a closed day adds to the figures of a span."""

    sums: Sums
    leaves_beyond: int
    checks: int
    out: int


def _line(day: DaySummary | DayOpened, sums: Mapping[str, _DaySums]) -> DayLine:
    if day["closed"]:
        figures = _figures([sums[day["date"]]])
        return DayLine(day["date"], "closed", day["corrected"], None, None, figures)
    return DayLine(day["date"], "open again", day["corrected"], day["at"], day["reason"], None)


def _sums(day: DaySummary) -> _DaySums:
    totals, leaf = day["totals"], day["leaf"]
    known = issued(day)
    sums = Sums(
        made=totals["made"],
        good=totals["good"],
        rejected=totals["rejected"],
        rework=totals["rework"],
        second=totals["second"],
        n_dev=totals["n_dev"],
        sum_dev_g=totals["sum_dev_g"],
        sum_sq_dev_g2=totals["sum_sq_dev_g2"],
        filler_g=_filler(leaf, "used_g") if known else 0.0,
        good_of_leaf=totals["good"] if known else 0,
        in_good_g=_filler(leaf, "in_good_g") if known else 0.0,
        unexplained_g=_filler(leaf, "unexplained_g"),
    )
    return _DaySums(sums, sum(leaf["beyond"]), totals["checks"], totals["out"])


def _figures(days: Sequence[_DaySums]) -> DayFigures:
    each, *others = zip(*days, strict=True)
    return DayFigures(figures(Sums(*map(_total, zip(*each, strict=True)))), *map(sum, others))


def _total(column: Sequence[Any]) -> Any:
    """Counts stay whole; grams are rounded once."""
    return sum(column) if type(column[0]) is int else math.fsum(column)


def issued(day: DaySummary) -> bool:
    """Whether filler was issued that day, so that it is known what was used."""
    return _filler(day["leaf"], "used_g") > 0


def _filler(leaves: Leaves, key: Literal["used_g", "in_good_g", "unexplained_g"]) -> float:
    """A column's sum over the fillers."""
    columns = zip(leaves[key], leaves["class"], strict=True)
    return sum((grams for grams, leaf_class in columns if leaf_class not in COVERS), 0.0)
