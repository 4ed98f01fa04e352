"""A month's closed days by run, added up once and kept: a year is then twelve sums, not 250 days.

They are told from the days and nothing else, and hold only for the days that they were told
from: where a day was closed, opened or corrected since, its month is added up from the days.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Any, TypedDict, cast

import orjson

from core.day.figures import Sums
from core.day.runsums import RunSums, added, of_day
from core.day.summary import DayOpened, DaySummary
from core.day.trend import closed_days

MONTH_SUMS = 1
"""The number of this format; sums of another one are passed over."""


class MonthSums(TypedDict):
    """A month, as 2026-04. `days`: where the book of each closed day ended, by date.

    `runs` is JSON text of columns, as in a day's summary; `told` as in `RunSums`.
    """

    month_sums: int
    month: str
    days: dict[str, str]
    told: bool
    runs: str


def sums_of(month: str, days: Sequence[DaySummary]) -> MonthSums:
    """The sums of a month's closed days."""
    sums = added(map(of_day, days))
    benches, vitolas, bunchers = zip(*sums.runs, strict=True) if sums.runs else ((), (), ())
    columns = dict(zip(Sums._fields, sums.columns, strict=True))
    names = {"bench": benches, "vitola": vitolas, "buncher": bunchers}
    return {
        "month_sums": MONTH_SUMS,
        "month": month,
        "days": _ends(days),
        "told": sums.told,
        "runs": orjson.dumps(names | columns).decode(),
    }


def as_month(document: Mapping[str, Any]) -> MonthSums | None:
    """A year book's document as a month's sums; None where it is none of this format."""
    whole = MonthSums.__required_keys__ <= document.keys()
    known = whole and document["month_sums"] == MONTH_SUMS
    return cast("MonthSums", document) if known else None


def run_sums(days: Iterable[DaySummary], months: Mapping[str, MonthSums]) -> RunSums:
    """The closed days by run, from the sums of the months that hold and from the other days."""

    def sources() -> Iterator[RunSums]:
        for month, of_it in by_month(days).items():
            if month in months and holds(months[month], of_it):
                yield _read(months[month])
            else:
                yield from map(of_day, of_it)

    return added(sources())


def by_month(days: Iterable[DaySummary]) -> dict[str, list[DaySummary]]:
    """The days by their months, in their order."""
    found: dict[str, list[DaySummary]] = {}
    for day in days:
        found.setdefault(day["date"][: len("2026-05")], []).append(day)
    return found


def holds(sums: MonthSums, days: Iterable[DaySummary]) -> bool:
    """Whether the sums were told from just these days, as they are now."""
    return sums["days"] == _ends(days)


def lacking(
    kept: Mapping[str, DaySummary | DayOpened], months: Mapping[str, MonthSums]
) -> list[MonthSums]:
    """The sums to keep: of months that are over, where there are none that hold.

    A month is over when a day of a later one was closed.
    """
    closed = by_month(closed_days(kept))
    return [
        sums_of(month, days)
        for month, days in list(closed.items())[:-1]
        if month not in months or not holds(months[month], days)
    ]


def is_told_by(sums: MonthSums, days: Sequence[DaySummary]) -> bool:
    """Whether the sums are what their days add up to, for who doubts them."""
    return sums == sums_of(sums["month"], days)


def _ends(days: Iterable[DaySummary]) -> dict[str, str]:
    return {day["date"]: day["end"] for day in days}


def _read(sums: MonthSums) -> RunSums:
    columns: dict[str, list[Any]] = orjson.loads(sums["runs"])
    runs = zip(columns["bench"], columns["vitola"], columns["buncher"], strict=True)
    return RunSums(tuple(runs), tuple(columns[key] for key in Sums._fields), sums["told"])
