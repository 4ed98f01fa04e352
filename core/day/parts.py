"""The closed days of a span by vitola, by bench and by buncher.

A year of 300 benches has 75,000 rows: they are added up column by column, a short loop each.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from operator import add
from typing import NamedTuple, cast

from core.day.figures import Figures, Sums, figures
from core.day.summary import DaySummary, Runs, runs_of
from core.day.trend import issued
from core.house.numbering import bench_json, bench_order

_ALWAYS = ("made", "good", "rejected", "rework", "n_dev", "sum_dev_g", "sum_sq_dev_g2")
_LATER = ("second", "unexplained_g")
"""Columns that summaries of the first format have not."""
_OF_LEAF = ("filler_g", "good", "in_good_g")
"""Columns added up over the days on which filler was issued."""
_COLUMNS = len(_ALWAYS) + len(_LATER) + len(_OF_LEAF)

_Run = tuple[int | str, str, str]  # a bench, as JSON gives it, a vitola and a buncher


class Parts(NamedTuple):
    """The same days by vitola and by buncher, in the order first met, and by bench, in the
    house's order.
    """

    by_vitola: dict[str, Figures]
    by_bench: dict[str, Figures]
    by_buncher: dict[str, Figures]

    def json(self) -> dict[str, list[dict[str, object]]]:
        """The parts under the keys of `days --json`."""
        return {
            "by_vitola": [{"vitola": v, **p._asdict()} for v, p in self.by_vitola.items()],
            "by_bench": [{"bench": bench_json(b), **p._asdict()} for b, p in self.by_bench.items()],
            "by_buncher": [{"buncher": b, **p._asdict()} for b, p in self.by_buncher.items()],
        }


def parts(days: Sequence[DaySummary]) -> Parts:
    """Add up every bench's runs of the closed days."""
    runs, columns, told = _by_run(days)
    rows = list(zip(*columns, strict=True))
    by_bench = _by((str(bench) for bench, _, _ in runs), rows, told)
    return Parts(
        by_vitola=_by((vitola for _, vitola, _ in runs), rows, told),
        by_bench={bench: by_bench[bench] for bench in sorted(by_bench, key=bench_order)},
        by_buncher=_by((buncher for _, _, buncher in runs), rows, told),
    )


def _by_run(days: Sequence[DaySummary]) -> tuple[list[_Run], list[list[float]], bool]:
    """Each bench, vitola and buncher that occurs, a column of sums for each figure, and whether
    every day tells of leaf by run.
    """
    places = _Places()
    sums: list[list[float]] = [[] for _ in range(_COLUMNS)]
    told = True
    for day in days:
        runs = runs_of(day)
        found = cast("Mapping[str, Sequence[float]]", runs)
        elsewhere = places.elsewhere(runs)
        for column in sums:
            column.extend([0] * (len(places.runs) - len(column)))
        wanted: tuple[str, ...] = (*_ALWAYS, *_LATER, *(_OF_LEAF if issued(day) else ()))
        for key, column in zip(wanted, sums, strict=False):
            if key in found:
                _add(column, elsewhere, found[key])
        told = told and "in_good_g" in found and "unexplained_g" in found
    return list(places.runs), sums, told


class _Places:
    """The row of each run that occurs: the first day's in its order, others as they come."""

    def __init__(self) -> None:
        self.runs: dict[_Run, int] = {}
        self._first: Runs | None = None
        self._moved: list[tuple[int, int]] = []

    def elsewhere(self, runs: Runs) -> list[tuple[int, int]]:
        """Which of a day's rows are not the row of their own number, and whose they are.

        Most benches do on most days what they did on the first: those are only compared.
        """
        benches, vitolas, bunchers = runs["bench"], runs["vitola"], runs["buncher"]

        def placed(rows: Iterable[int]) -> list[tuple[int, int]]:
            names = ((n, (benches[n], vitolas[n], bunchers[n])) for n in rows)
            at = ((n, self.runs.setdefault(name, len(self.runs))) for n, name in names)
            return [(n, row) for n, row in at if n != row]

        first = self._first
        if first is None:
            self._first, self._moved = runs, placed(range(len(benches)))
            return self._moved
        if benches != first["bench"] or bunchers != first["buncher"]:
            return placed(range(len(benches)))
        usual = zip(vitolas, first["vitola"], strict=True)
        differ = [n for n, (now, then) in enumerate(usual) if now != then]
        return [*(each for each in self._moved if each[0] not in differ), *placed(differ)]


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


def _by(names: Iterable[str], rows: Iterable[Sequence[float]], told: bool) -> dict[str, Figures]:
    """The rows of one name together, in the order the names come."""
    found: dict[str, list[Sequence[float]]] = {}
    for name, row in zip(names, rows, strict=True):
        found.setdefault(name, []).append(row)
    return {
        name: _part([sum(c) for c in zip(*mine, strict=True)], told=told)
        for name, mine in found.items()
    }


def _part(sums: Sequence[float], *, told: bool) -> Figures:
    made, good, rejected, rework, n_dev = map(int, sums[:5])
    total, squares, second, unexplained_g, filler_g, good_of_leaf, in_good_g = sums[5:]
    return figures(
        Sums(
            made=made,
            good=good,
            rejected=rejected,
            rework=rework,
            second=int(second),
            n_dev=n_dev,
            sum_dev_g=total,
            sum_sq_dev_g2=squares,
            filler_g=filler_g,
            good_of_leaf=int(good_of_leaf),
            in_good_g=in_good_g if told else None,
            unexplained_g=unexplained_g if told else None,
        )
    )
