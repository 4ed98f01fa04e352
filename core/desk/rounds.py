"""Whom to weigh next: every bench in order, with the reason in words."""

from __future__ import annotations

import datetime as dt

from core import checks
from core.day.bench import CheckMade
from core.desk.faces import BenchLine, RoundLine, RoundReason
from core.desk.figures import places_of, shown, unit_of
from core.desk.verdicts import limits_words
from core.desk.weighed import Weighed
from core.house.numbering import bench_order
from core.say import say

_RANKS: dict[RoundReason, int] = {"first piece": 0, "out": 1, "overdue": 2, "due": 2}


def round_line(line: BenchLine, weighed: Weighed, now: dt.datetime, division_g: float) -> RoundLine:
    """Why a bench stands where it does."""
    reason, says = _reason(line, weighed, now, division_g)
    if line.open:
        there, needs = line.open
        says = say(
            "{says}; a check waits with {there} of {needs} readings",
            says=says,
            there=there,
            needs=needs,
        )
    return RoundLine(line.number, line.buncher, line.vitola, line.blend, reason, line.due, says)


def in_order(lines: list[RoundLine]) -> tuple[RoundLine, ...]:
    """First pieces, then benches that are out, then by how overdue, then by bench number."""

    def place(line: RoundLine) -> tuple[int, float, object]:
        due = line.due.timestamp() if line.due else 0.0
        return _RANKS[line.reason], due, bench_order(line.bench)

    return tuple(sorted(lines, key=place))


def overdue_min(line: RoundLine, now: dt.datetime) -> float | None:
    """Minutes past due, below zero for one that is not due yet; None for a first piece."""
    return None if line.due is None else (now - line.due).total_seconds() / 60


def _reason(
    line: BenchLine, weighed: Weighed, now: dt.datetime, division_g: float
) -> tuple[RoundReason, str]:
    if line.due is None:
        if weighed.change:
            return "first piece", say("first piece: {change}", change=weighed.change)
        return "first piece", say("first piece: not weighed yet today")
    last = weighed.done[-1]
    if last.window and checks.outside(last.readings, last.window):
        return "out", _out(last, last.window, division_g)
    late = round((now - line.due).total_seconds() / 60)
    if late > 0:
        return "overdue", say("overdue by {span}", span=_span(late))
    return "due", say("due in {span}", span=_span(-late)) if late else say("due now")


def _out(check: CheckMade, window: checks.Window, division_g: float) -> str:
    """The reading that is furthest from target, and what it should be."""
    worst = max(check.readings, key=lambda reading: abs(reading - window.target))
    places = places_of(check.measure, division_g)
    return say(
        "last check out: {worst} {unit} of {window}",
        worst=shown(worst, places),
        unit=unit_of(check.measure),
        window=limits_words(window, check.measure, division_g),
    )


def _span(minutes: int) -> str:
    hours, rest = divmod(minutes, 60)
    return f"{hours} h {rest:02d} min" if hours else f"{minutes} min"
