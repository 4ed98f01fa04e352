"""`close` and `reopen`: the end of a working day."""

from __future__ import annotations

import argparse

from core.day.room import ALREADY_CLOSED
from core.desk.desk import Desk
from core.desk.faces import AsksPin, Mistake, NotSaved, Outcome, Recorded
from core.problems import BadInput, StoreUnusable
from core.say import joined, say
from floor.commands import out
from floor.commands.ask_pin import pin_for
from floor.commands.setting import day, setting, tell_damage


def run(args: argparse.Namespace) -> int:
    """Close a day, or open it again with a reason."""
    with setting(args) as place:
        desk = place.recording(date=None if args.date is None else day(args.date))
        tell_damage(desk.damaged)
        outcome = _end(desk, args)
        if isinstance(outcome, AsksPin):
            outcome = _end(desk, args, pin_for(outcome.says))
        if isinstance(outcome, Recorded):
            out.result(joined(": ", (str(desk.day), outcome.says)))
            return 0
        if isinstance(outcome, Mistake) and outcome.says == ALREADY_CLOSED:
            outcome = Mistake(_closed_already(desk, args.date))
        why = outcome.wrong if isinstance(outcome, AsksPin) else getattr(outcome, "says", "")
        out.message(joined(": ", (str(desk.day), why)))
        return StoreUnusable.exit_code if isinstance(outcome, NotSaved) else BadInput.exit_code


def _closed_already(desk: Desk, date: str | None) -> str:
    """What to do instead, as a command; it names the day where the closing did."""
    if date is None:
        return say("the day is already closed; to open it again: bunchbook reopen REASON")
    return say(
        "the day is already closed; to open it again: bunchbook reopen REASON {date}", date=desk.day
    )


def _end(desk: Desk, args: argparse.Namespace, pin: str | None = None) -> Outcome:
    return desk.close_day(pin) if args.command == "close" else desk.reopen(args.reason, pin)
