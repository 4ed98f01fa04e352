"""`pin`: the house's PIN, set, changed or taken away."""

from __future__ import annotations

import argparse
import sys

from core.desk.permission import CHANGES_HOUSE, NO_PIN
from core.desk.pin_save import set_pin
from core.house.pin import is_pin
from core.problems import BadInput
from core.say import say
from floor.commands import out
from floor.commands.ask_pin import pin_for, typed
from floor.commands.setting import setting, tell_damage


def run(args: argparse.Namespace) -> int:
    """Ask for the present PIN, then for the new one twice, and save the house book."""
    with setting(args) as place:
        if place.asked is not None:
            raise BadInput(say("a house book cannot be saved in the past; leave the time out"))
        today = place.today()
        tell_damage(today.damaged)
        has_one = today.loaded.house.pin is not None
        if args.remove and not has_one:
            raise BadInput(say("the house has no PIN"))
        if not args.remove and not sys.stdin.isatty():
            raise BadInput(say("a new PIN is typed at a terminal; this is none"))
        pin = pin_for(CHANGES_HOUSE) if has_one else None
        new = None if args.remove else _new()
        version = set_pin(today, place.real, new, pin)
        state = (
            say("house book version {version} is in force, without a PIN")
            if args.remove
            else say("house book version {version} is in force, with the new PIN")
        )
        out.result(state.format(version=version))
    return 0


def _new() -> str:
    """The new PIN, typed twice; BadInput where it is none, or the two are not the same."""
    new = typed(say("new PIN, 4 to 8 digits: "))
    if not is_pin(new):
        raise BadInput(NO_PIN)
    if typed(say("the new PIN again: ")) != new:
        raise BadInput(say("the two were not the same; nothing was changed"))
    return new
