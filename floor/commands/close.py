"""`close` and `reopen`: the end of a working day."""

from __future__ import annotations

import argparse

from core.desk.desk import Desk
from core.desk.faces import AsksPin, NotSaved, Outcome, Recorded
from core.problems import BadInput, StoreUnusable
from core.say import joined
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
        why = outcome.wrong if isinstance(outcome, AsksPin) else getattr(outcome, "says", "")
        out.message(joined(": ", (str(desk.day), why)))
        return StoreUnusable.exit_code if isinstance(outcome, NotSaved) else BadInput.exit_code


def _end(desk: Desk, args: argparse.Namespace, pin: str | None = None) -> Outcome:
    return desk.close_day(pin) if args.command == "close" else desk.reopen(args.reason, pin)
