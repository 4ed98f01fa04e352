"""Opens the floor on the data folder."""

from __future__ import annotations

import argparse
import gc
import sys
from typing import TYPE_CHECKING

from core.problems import BadInput
from core.say import say
from floor.commands import out
from floor.commands.setting import Setting, setting

if TYPE_CHECKING:
    from core.desk.desk import Desk


def run(args: argparse.Namespace) -> int:
    """Show the floor until somebody leaves it."""
    if not (sys.stdin.isatty() and sys.stdout.isatty()):
        raise BadInput(say("the floor needs a terminal; for a shell see: bunchbook --help"))
    if args.demo:
        out.message(say("setting up the demo house ..."))
    with setting(args) as place:
        desk = _desk(place, args.only_bench)
        from floor.app import FloorApp

        gc.freeze()
        gc.enable()
        return FloorApp(desk, language=args.lang).run(mouse=False) or 0


def _desk(place: Setting, bench: str | None) -> Desk:
    """The desk of this terminal; BadInput where it is for one bench that the house has not."""
    desk = place.recording()
    if bench is None:
        return desk
    return place.recording(only=desk.bench_number(bench))
