"""A month's closed days by run, added up once and kept: a year is then twelve sums, not 250 days.

They are told from the days and nothing else, and hold only for the days that they were told
from: where a day was closed, opened or corrected since, its month is added up from the days.
"""

from __future__ import annotations

import contextlib
from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Any, TypedDict, cast

import orjson

from core.day.figures import Sums
from core.day.runsums import RunSums, added, of_day
from core.day.summary import DayOpened, DaySummary, is_numbers
from core.day.trend import closed_days
from core.problems import StoreUnusable

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
    sums = added(month, map(of_day, days))
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
    if not MonthSums.__required_keys__ <= document.keys():
        return None
    known = document["month_sums"] == MONTH_SUMS and type(document["told"]) is bool
    texts = type(document["month"]) is str and type(document["runs"]) is str
    days = document["days"]
    return cast("MonthSums", document) if known and texts and isinstance(days, dict) else None


def run_sums(days: Iterable[DaySummary], months: Mapping[str, MonthSums]) -> RunSums:
    """The closed days by run, from the sums of the months that hold and from the other days.

    StoreUnusable where a day's rows cannot be read.
    """

    def sources() -> Iterator[RunSums]:
        for month, of_it in by_month(days).items():
            kept = months.get(month)
            sums = _read(kept) if kept is not None and holds(kept, of_it) else None
            if sums is not None:
                yield sums
            else:
                yield from map(of_day, of_it)

    return added("", sources())


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

    A month is over when a day of a later one was closed. One with a day that cannot be read
    has none.
    """
    found: list[MonthSums] = []
    for month, days in list(by_month(closed_days(kept)).items())[:-1]:
        if month not in months or not holds(months[month], days):
            with contextlib.suppress(StoreUnusable):
                found.append(sums_of(month, days))
    return found


def is_told_by(sums: MonthSums, days: Sequence[DaySummary]) -> bool:
    """Whether the sums are what their days add up to, for who doubts them.

    StoreUnusable where a day's rows cannot be read.
    """
    anew = sums_of(sums["month"], days)
    return (sums["told"], sums["runs"]) == (anew["told"], anew["runs"])


def _ends(days: Iterable[DaySummary]) -> dict[str, str]:
    return {day["date"]: day["end"] for day in days}


def _read(sums: MonthSums) -> RunSums | None:
    """The sums as rows; None where they are none."""
    try:
        kept: dict[str, list[Any]] = orjson.loads(sums["runs"])
        runs = tuple(zip(kept["bench"], kept["vitola"], kept["buncher"], strict=True))
        columns = tuple(kept[key] for key in Sums._fields)
    except (ValueError, TypeError, KeyError):
        return None
    whole = all(is_numbers(column) and len(column) == len(runs) for column in columns)
    return RunSums(sums["month"], runs, columns, sums["told"]) if whole else None
