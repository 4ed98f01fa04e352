"""The closed days of a span by vitola and by bench.

A year of 300 benches has 75,000 rows: they are added up column by column, a short loop each.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from operator import add
from typing import NamedTuple, cast

from core.day.summary import DaySummary, runs_of
from core.day.trend import issued, mean_and_error
from core.day.yields import first_pass_yield
from core.house.numbering import bench_json, bench_order

_ALWAYS = ("made", "good", "rejected", "rework", "n_dev", "sum_dev_g", "sum_sq_dev_g2")
_FILLER, _GOOD_WITHOUT_LEAF = len(_ALWAYS), len(_ALWAYS) + 1
"""Columns after those: filler used, and good cigars of days on which none was issued."""

_Run = tuple[int | str, str]  # a bench, as JSON gives it, and a vitola


class Part(NamedTuple):
    """What was made of a vitola, or at a bench; None where it cannot be told."""

    made: int
    good: int
    rejected: int
    rework: int
    first_pass_yield: float | None
    filler_used_kg: float
    filler_kg_per_1000_good: float | None
    mean_deviation_g: float | None
    deviation_se_g: float | None


class Parts(NamedTuple):
    """The same days by vitola, in the order first rolled, and by bench, in the house's order."""

    by_vitola: dict[str, Part]
    by_bench: dict[str, Part]

    def json(self) -> dict[str, list[dict[str, object]]]:
        """The parts under the keys of `days --json`."""
        return {
            "by_vitola": [{"vitola": v, **p._asdict()} for v, p in self.by_vitola.items()],
            "by_bench": [{"bench": bench_json(b), **p._asdict()} for b, p in self.by_bench.items()],
        }


def parts(days: Sequence[DaySummary]) -> Parts:
    """Add up every bench's runs of the closed days."""
    runs, columns = _by_run(days)
    rows = list(zip(*columns, strict=True))
    by_bench = _by((str(bench) for bench, _ in runs), rows)
    return Parts(
        by_vitola=_by((vitola for _, vitola in runs), rows),
        by_bench={bench: by_bench[bench] for bench in sorted(by_bench, key=bench_order)},
    )


def _by_run(days: Sequence[DaySummary]) -> tuple[list[_Run], list[list[float]]]:
    """Each bench and vitola that occurs, and a column of its sums for each figure."""
    place: dict[_Run, int] = {}
    sums: list[list[float]] = [[] for _ in range(_GOOD_WITHOUT_LEAF + 1)]
    for day in days:
        runs = runs_of(day)
        figures = cast("Mapping[str, Sequence[float]]", runs)
        names = zip(runs["bench"], runs["vitola"], strict=True)
        at = [place.setdefault(name, len(place)) for name in names]
        elsewhere = [(n, row) for n, row in enumerate(at) if n != row]
        for column in sums:
            column.extend([0] * (len(place) - len(column)))
        for key, column in zip(_ALWAYS, sums, strict=False):
            _add(column, elsewhere, figures[key])
        if issued(day):
            _add(sums[_FILLER], elsewhere, figures["filler_g"])
        else:
            _add(sums[_GOOD_WITHOUT_LEAF], elsewhere, figures["good"])
    return list(place), sums


def _add(
    column: list[float], elsewhere: Sequence[tuple[int, int]], figures: Sequence[float]
) -> None:
    """Add each figure to the row of its own number, but for those that belong elsewhere.

    Most benches roll on most days what they did: those rows are added up all at once.
    """
    mine = list(figures)
    for n, row in elsewhere:
        column[row] += mine[n]
        mine[n] = 0
    column[: len(mine)] = map(add, column, mine)


def _by(names: Iterable[str], rows: Iterable[Sequence[float]]) -> dict[str, Part]:
    """The rows of one name together, in the order the names come."""
    found: dict[str, list[Sequence[float]]] = {}
    for name, row in zip(names, rows, strict=True):
        found.setdefault(name, []).append(row)
    return {name: _part([sum(c) for c in zip(*mine, strict=True)]) for name, mine in found.items()}


def _part(sums: Sequence[float]) -> Part:
    made, good, rejected, rework, n_dev = map(int, sums[:5])
    total, squares, filler_g, good_without_leaf = sums[5:]
    good_of_leaf = good - good_without_leaf
    mean, error = mean_and_error(n_dev, total, squares)
    return Part(
        made=made,
        good=good,
        rejected=rejected,
        rework=rework,
        first_pass_yield=first_pass_yield(good, rejected, rework),
        filler_used_kg=filler_g / 1000,
        filler_kg_per_1000_good=filler_g / good_of_leaf if good_of_leaf else None,
        mean_deviation_g=mean,
        deviation_se_g=error,
    )
