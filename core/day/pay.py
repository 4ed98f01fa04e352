"""Piece-rate counts by the pair at the bench: of closed days from their summaries, of one day.

Nothing is decided here: accepted cigars times the house book's rate, and beside it what a
house may take off, as counts. That a pair bears such pieces is common practice, no source.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Any, NamedTuple, cast

from core.day.report import DayReport
from core.day.summary import DaySummary, runs_of
from core.entry.faults import FAULTS
from core.house.model import HouseBook
from core.say import say

CAUTION = say(
    "counts for whoever works out the pay: nothing is decided here, and no deduction is taken off"
)


class Pair(NamedTuple):
    """Who worked together: codes of the house book, empty where it names none."""

    buncher: str
    roller: str


class PayLine(NamedTuple):
    """What a pair made of a vitola at one rate; `amount` None where the house gives no rate.

    `rate_per_1000` and `amount` are in the house's currency. `rejected` less `rework` is
    `not_mended`; with `second` it is what a house may deduct.
    """

    buncher: str
    roller: str
    vitola: str
    rate_per_1000: float | None
    days: int
    accepted: int
    amount: float | None
    rejected: int
    rework: int
    not_mended: int
    second: int


class FaultLine(NamedTuple):
    """Rejects of the whole house by fault, and what usually happens to such a piece."""

    fault: str
    n: int
    fate: str


class Pay(NamedTuple):
    """The days' counts; a day's summary keeps faults for the house, not by bench."""

    lines: tuple[PayLine, ...]
    faults: tuple[FaultLine, ...]
    amount: float

    def json(self) -> dict[str, object]:
        """Under the keys of `pay --json`."""
        return {
            "lines": [line._asdict() for line in self.lines],
            "faults": [line._asdict() for line in self.faults],
            "amount": self.amount,
            "caution": CAUTION,
        }


class _Work(NamedTuple):
    """What was done of one vitola at one bench on one day: good, rejected, rework, second."""

    date: str
    pair: Pair
    vitola: str
    rate: float | None
    counts: tuple[int, ...]


_COUNTS = ("good", "rejected", "rework", "second")


def pay(days: Sequence[DaySummary], houses: Mapping[int, HouseBook]) -> Pay:
    """Count each pair's work; rates and rollers are those of the book a day was closed under.

    A row of a bench without a known roller names its buncher alone.
    """
    faults: dict[str, int] = {}
    for day in days:
        for fault, n in day["faults"].items():
            faults[fault] = faults.get(fault, 0) + n
    return _pay((work for day in days for work in _of_day(day, houses[day["version"]])), faults)


def pay_of_day(report: DayReport, house: HouseBook) -> Pay:
    """Count each pair's work of one day, closed or not, by the rates of the book in force."""
    work = (
        _Work(
            report.date,
            _pair(house, str(bench.bench), bench.buncher or ""),
            run.vitola,
            _rate(house, run.vitola),
            (run.good, sum(run.rejected.values()), run.rework, run.second),
        )
        for bench in report.benches
        for run in bench.runs
    )
    return _pay(work, report.faults())


def _of_day(day: DaySummary, house: HouseBook) -> Iterator[_Work]:
    runs = runs_of(day)
    found = cast("Mapping[str, Sequence[Any]]", runs)
    nothing = [0] * len(runs["bench"])
    columns = [found.get(key, nothing) for key in _COUNTS]
    names = zip(runs["bench"], runs["buncher"], runs["vitola"], strict=True)
    for (bench, buncher, vitola), *counts in zip(names, *columns, strict=True):
        pair = _pair(house, str(bench), buncher)
        yield _Work(day["date"], pair, vitola, _rate(house, vitola), tuple(counts))


def _pay(work: Iterable[_Work], faults: Mapping[str, int]) -> Pay:
    counts: dict[_Key, list[int]] = {}
    worked: dict[_Key, set[str]] = {}
    for one in work:
        if any(one.counts):
            key = (one.pair, one.vitola, one.rate)
            sums = counts.setdefault(key, [0] * len(_COUNTS))
            sums[:] = [have + more for have, more in zip(sums, one.counts, strict=True)]
            worked.setdefault(key, set()).add(one.date)
    lines = tuple(
        _line(key, counts[key], len(worked[key]))
        for key in sorted(counts, key=lambda key: (key[0], key[1], key[2] or 0.0))
    )
    amount = math.fsum(line.amount for line in lines if line.amount is not None)
    return Pay(lines, _faults(faults), amount)


_Key = tuple[Pair, str, float | None]


def _pair(house: HouseBook, bench: str, buncher: str) -> Pair:
    seat = house.bench.get(bench)
    return Pair(buncher, (seat.roller or "") if seat else "")


def _rate(house: HouseBook, vitola: str) -> float | None:
    known = house.vitola.get(vitola)
    return known.piece_rate if known else None


def _line(key: _Key, counts: Sequence[int], days: int) -> PayLine:
    (buncher, roller), vitola, rate = key
    good, rejected, rework, second = counts
    return PayLine(
        buncher=buncher,
        roller=roller,
        vitola=vitola,
        rate_per_1000=rate,
        days=days,
        accepted=good,
        amount=None if rate is None else good * rate / 1000,
        rejected=rejected,
        rework=rework,
        not_mended=max(0, rejected - rework),
        second=second,
    )


def _faults(counts: Mapping[str, int]) -> tuple[FaultLine, ...]:
    fates = {fault.code: fault.fate for fault in FAULTS}
    by_count = sorted(counts.items(), key=lambda item: (-item[1], item[0]))
    return tuple(FaultLine(fault, n, fates.get(fault, "")) for fault, n in by_count)
