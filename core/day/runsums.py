"""What each bench made of each vitola by whom, added up over days, column by column.

A year of 300 benches has 75,000 such rows: each day's are added to the last all at once.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from operator import add
from typing import NamedTuple, cast

from core.day.figures import Sums
from core.day.summary import DaySummary, runs_of
from core.day.trend import issued
from core.problems import Problem, StoreUnusable
from core.say import say

Run = tuple[int | str, str, str]
"""A bench, as JSON gives it, a vitola and a buncher."""

Column = Sequence[float]


class RunSums(NamedTuple):
    """A row for each run, in the order first met, and a column for each of the `Sums`.

    `of` is the day or the month; `told`: whether every day tells of leaf by run; those of
    format 1 do not.
    """

    of: str
    runs: tuple[Run, ...]
    columns: tuple[Column, ...]
    told: bool


def of_day(day: DaySummary) -> RunSums:
    """A closed day's rows, as they were kept: a run stands in as many as it has blends.

    StoreUnusable where they are none.
    """
    try:
        return _of_day(day)
    except (ValueError, TypeError, KeyError, AttributeError) as error:
        raise _no_rows(day["date"]) from error


def _of_day(day: DaySummary) -> RunSums:
    runs = runs_of(day)
    found = cast("Mapping[str, Column]", runs)
    nothing = [0] * len(runs["bench"])
    columns = {key: found.get(key, nothing) for key in Sums._fields}
    columns["good_of_leaf"] = runs["good"]
    if not issued(day):  # then it is not known what was used
        columns |= dict.fromkeys(("filler_g", "good_of_leaf", "in_good_g"), nothing)
    if any(len(column) != len(nothing) for column in columns.values()):
        raise ValueError
    return RunSums(
        day["date"],
        tuple(zip(runs["bench"], runs["vitola"], runs["buncher"], strict=True)),
        tuple(columns.values()),
        "in_good_g" in found and "unexplained_g" in found,
    )


def _no_rows(of: str) -> StoreUnusable:
    says = say(
        "the summary of {day} cannot be read: it was written by another program; open the day "
        "again and close it, and it is summed up anew",
        day=of,
    )
    return StoreUnusable(Problem("", says))


def added(of: str, parts: Iterable[RunSums]) -> RunSums:
    """The rows of one run together. StoreUnusable where what is to be added is no number."""
    rows: dict[Run, int] = {}
    sums: tuple[list[float], ...] = tuple([] for _ in Sums._fields)
    told = True
    for part in parts:
        try:
            places = [rows.setdefault(run, len(rows)) for run in part.runs]
            elsewhere = [(n, row) for n, row in enumerate(places) if n != row]
            for column, figures in zip(sums, part.columns, strict=True):
                column.extend([0] * (len(rows) - len(column)))
                _add(column, elsewhere, figures)
        except TypeError as error:
            raise _no_rows(part.of) from error
        told = told and part.told
    return RunSums(of, tuple(rows), sums, told)


def _add(column: list[float], elsewhere: Sequence[tuple[int, int]], figures: Column) -> None:
    """Add each figure to the row of its own number, but for those that belong elsewhere.

    Most benches roll on most days what they did: those rows are added up all at once.
    """
    mine = list(figures)
    for n, row in elsewhere:
        column[row] += mine[n]
        mine[n] = 0
    column[: len(mine)] = map(add, column, mine)
