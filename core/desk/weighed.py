"""A bench's weigh-ins of what it rolls now, by those who roll it now."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Sequence
from typing import NamedTuple

from core import checks
from core.day.bench import CheckMade
from core.day.calendar import local
from core.day.history import buncher_of
from core.day.ledger import Ledger, Seat
from core.day.rounds import LOOK_BACK, interval_min
from core.house.model import HouseBook
from core.measure import WEIGH_IN
from core.say import say

ErrorOf = Callable[[str, CheckMade], float | None]
"""What a bench's check means err by, from its chart; None where there is nothing to tell."""


class Weighed(NamedTuple):
    """Complete weigh-ins since the last change, those that wait for readings, and the change.

    `change` is in words; empty where nothing was weighed before it, today.
    """

    done: tuple[CheckMade, ...]
    waiting: tuple[CheckMade, ...]
    change: str


def weighed(number: str, ledger: Ledger, version: int) -> Weighed:
    """The bench's weigh-ins of today. What counts as another bench's work does not: another
    vitola, blend or buncher, by a roll or by a house book.
    """
    seat = ledger.seat(number, version)
    tally = ledger.bench(number)
    buncher = buncher_of(number, version, ledger.houses)
    weighing = [c for c in tally.checks if c.window is not None and c.measure in WEIGH_IN]
    since = len(weighing)
    while since and weighing[since - 1].id > tally.rolled and (
        weighing[since - 1].run == (version, seat.blend, seat.vitola)
        or not _change(number, weighing[since - 1], seat, buncher, ledger)
    ):  # fmt: skip
        since -= 1
    now = weighing[since:]
    before = weighing[since - 1] if since else None
    change = _change(number, before, seat, buncher, ledger) if before else ""
    if tally.rolled and not change and not now:
        change = _rolls(seat)
    return Weighed(
        tuple([c for c in now if c.closed]), tuple([c for c in now if not c.closed]), change
    )


def _change(number: str, check: CheckMade, seat: Seat, buncher: str, ledger: Ledger) -> str:
    """What has changed at the bench since the check; empty if nothing has."""
    if check.run.blend != seat.blend:
        return say("now rolls {vitola} of {blend}", vitola=seat.vitola, blend=seat.blend)
    if check.run.vitola != seat.vitola:
        return _rolls(seat)
    if buncher_of(number, check.run.house, ledger.houses) != buncher:
        return (
            say("now {buncher} bunches", buncher=buncher) if buncher else say("now another buncher")
        )
    return ""


def _rolls(seat: Seat) -> str:
    return say("now rolls {vitola}", vitola=seat.vitola)


def due(
    number: str, done: Sequence[CheckMade], house: HouseBook, now: dt.datetime, error_of: ErrorOf
) -> dt.datetime | None:
    """When the bench is to be weighed next; None: its first piece is due now."""
    if not done:
        return None
    verdicts = [checks.judge(c.readings, c.window) for c in done[-LOOK_BACK:] if c.window]
    error = error_of(number, done[-1])
    minutes = interval_min(verdicts, house.house.weigh_every_min, error)
    last = local(done[-1].at, done[-1].offset)
    return min(last, now.astimezone(last.tzinfo)) + dt.timedelta(minutes=minutes)
