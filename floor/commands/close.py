"""`close` and `reopen`: the end of a working day."""

from __future__ import annotations

import argparse

from core.desk.faces import NotSaved, Recorded
from core.problems import BadInput, StoreUnusable
from floor.commands import out
from floor.commands.setting import day, setting, tell_damage


def run(args: argparse.Namespace) -> int:
    """Close a day, or open it again with a reason."""
    with setting(args) as place:
        desk = place.recording(date=None if args.date is None else day(args.date))
        tell_damage(desk.damaged)
        outcome = desk.close_day() if args.command == "close" else desk.reopen(args.reason)
        if isinstance(outcome, Recorded):
            out.result(f"{desk.day}: {outcome.says}")
            return 0
        out.message(f"{desk.day}: {getattr(outcome, 'says', '')}")
        return StoreUnusable.exit_code if isinstance(outcome, NotSaved) else BadInput.exit_code
