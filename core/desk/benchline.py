"""A bench in one line, and a check as it is shown."""

from __future__ import annotations

import datetime as dt

from core import checks
from core.day.bench import CheckMade
from core.day.calendar import local
from core.day.ledger import Ledger
from core.day.rounds import LONGEST
from core.desk.faces import BenchLine, SeenCheck
from core.desk.weighed import Weighed
from core.house.model import HouseBook

TREND = 8
"""How many of the last checks a Board line draws."""


def bench_line(
    number: str,
    ledger: Ledger,
    house: HouseBook,
    version: int,
    weighed: Weighed,
    due: dt.datetime | None,
) -> BenchLine:
    """What the Board says of one bench, from its entries of today."""
    book = house.bench[number]
    seat = ledger.seat(number, version)
    tally = ledger.bench(number)
    done, waiting, _ = weighed
    last = done[-1] if done else None
    unfinished = [c for c in tally.checks if not c.closed]
    out = sum(c.window is not None and checks.outside(c.readings, c.window) for c in unfinished)
    return BenchLine(
        number=number,
        buncher=book.buncher or "",
        roller=book.roller or "",
        vitola=seat.vitola,
        blend=seat.blend,
        due=due,
        open=(len(waiting[-1].readings), waiting[-1].needs) if waiting else None,
        last_mean=sum(last.readings) / len(last.readings) if last else None,
        target=last.window.target if last and last.window else None,
        last_state=_state(last),
        trend=tuple(_in_tolerances(c) for c in done[-TREND:]),
        good=sum(run.good for run in tally.runs.values()),
        quota=seat.quota,
        made=sum(run.made for run in tally.runs.values()),
        checks=len(tally.checks) - len(unfinished),
        out=sum(run.out for run in tally.checked.values()) - out,
    )


def seen(check: CheckMade) -> SeenCheck:
    """A check with its verdict, on the clock of the terminal that made it."""
    verdict = checks.judge(check.readings, check.window) if check.window else None
    at = local(check.at, check.offset)
    return SeenCheck(
        check.id, at, check.measure, check.readings, check.window, verdict, check.leaf, check.draw
    )


def is_off(due: dt.datetime | None, house: HouseBook, now: dt.datetime) -> bool:
    """Whether the clock was set back since: no weigh-in is ever due so late."""
    longest = dt.timedelta(minutes=LONGEST * house.house.weigh_every_min)
    return due is not None and due - now > longest


def _state(last: CheckMade | None) -> str:
    if last is None or last.window is None:
        return ""
    mean = sum(last.readings) / len(last.readings)
    out = checks.outside(last.readings, last.window)
    return checks.called(checks.place(mean, last.window), out=out)


def _in_tolerances(check: CheckMade) -> float:
    """The mean's distance from target, 1.0 on the upper limit and -1.0 on the lower."""
    window = check.window
    if window is None:
        return 0.0
    deviation = sum(check.readings) / len(check.readings) - window.target
    half = window.high - window.target if deviation >= 0 else window.target - window.low
    return deviation / half if half > 0 else 0.0
