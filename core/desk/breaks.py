"""Broken run rules in words: what happened, on which side, since when."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from typing import NamedTuple

from core.control.chart import Point, within
from core.control.ewma import drifts, ewma
from core.control.rules import RULES, Break, Rule, Side
from core.day.history import Charted
from core.desk.dates import short_date
from core.desk.measured import Measured
from core.say import joined, say

LATELY = 8
"""The last checks whose broken rules are told: what the longest rule looks back on."""

_SAYS: dict[Rule, str] = {
    "beyond": say("a check far {side}, at {at}"),
    "two_of_three": say("2 of 3 checks clearly {side}, since {since}"),
    "four_of_five": say("4 of 5 checks rather {side}, since {since}"),
    "one_side": say("{n} checks in a row {side}, since {since}"),
    "run": say("{n} checks in a row each {way} than the one before, since {since}"),
}
_MORE = {
    "light": say("lighter"),
    "heavy": say("heavier"),
    "thin": say("thinner"),
    "thick": say("thicker"),
    "short": say("shorter"),
    "long": say("longer"),
    "loose": say("looser"),
    "tight": say("tighter"),
}
_DRIFT = say("the running mean has drifted {side}, since {since}")
_APART = say("readings far apart in one check, at {at}")


class _Chain(NamedTuple):
    """Breaks of one rule that run into each other."""

    rule: Rule
    side: Side
    since: int
    at: int


def broken_words(
    what: Measured,
    checks: Sequence[Charted],
    of_means: Sequence[Break],
    of_spreads: Sequence[Break],
    means: Sequence[Point],
) -> tuple[str, ...]:
    """A sentence for each rule broken by the last checks; the latest where one was several times.

    Breaks of a rule that overlap are told as one, from the first check to the last.
    """
    recent = len(checks) - LATELY
    said = [_says(what, checks, chain) for chain in _chains(of_means) if chain.at >= recent]
    drifting = _drift(ewma(means)) if drifts(means) else None
    if drifting:
        since = _when(checks, drifting.since)
        said.append(_DRIFT.format(side=_side(what, drifting.side), since=since))
    apart = [found.at for found in of_spreads if found.side == "high" and found.at >= recent]
    if apart:
        said.append(_APART.format(at=_when(checks, apart[-1])))
    return tuple(said)


def _chains(found: Sequence[Break]) -> list[_Chain]:
    """The latest chain of each rule and side, in the rules' order."""
    latest: dict[tuple[Rule, Side], _Chain] = {}
    for rule, since, at, side in found:
        before = latest.get((rule, side))
        begun = before.since if before is not None and since <= before.at else since
        latest[rule, side] = _Chain(rule, side, begun, at)
    return sorted(latest.values(), key=lambda chain: RULES.index(chain.rule))


def _drift(averages: Sequence[Point]) -> _Chain | None:
    """The running mean's stay beyond its limits, where it is beyond them now."""
    out = 0
    for point in reversed(averages):
        if within(point):
            break
        out += 1
    if not out:
        return None
    last = len(averages) - 1
    side: Side = "high" if averages[-1].value > averages[-1].centre else "low"
    return _Chain("one_side", side, last - out + 1, last)


def _says(what: Measured, checks: Sequence[Charted], chain: _Chain) -> str:
    side = _side(what, chain.side)
    return _SAYS[chain.rule].format(
        side=side,
        way=_MORE[side],
        n=chain.at - chain.since + 1,
        since=_when(checks, chain.since),
        at=_when(checks, chain.at),
    )


def _side(what: Measured, side: Side) -> str:
    return what.side(high=side == "high")


def _when(checks: Sequence[Charted], place: int) -> str:
    """The check's time; with its day where that is not the last check's."""
    check = checks[place]
    if check.day == checks[-1].day:
        return _clock(check.at)
    return joined(" ", (short_date(check.day, checks[-1].day), _clock(check.at)))


def _clock(at: dt.datetime) -> str:
    return f"{at:%H:%M}"
