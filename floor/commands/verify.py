"""`verify`: are the records sound?"""

from __future__ import annotations

import argparse

from core.desk.audit import audit
from core.say import say, say_many
from floor.commands import out
from floor.commands.setting import setting

UNSOUND = 1


def run(args: argparse.Namespace) -> int:
    """Read every record and list what is wrong with it; changes nothing."""
    with setting(args) as place:
        found = audit(place.folder)
    if args.json:
        out.json(found.model_dump())
    else:
        for line in found.repaired:
            out.result(say("torn line, passed over: {line}", line=line))
        for line in found.problems:
            out.result(say("problem: {problem}", problem=line))
        many = len(found.problems)
        state = say("sound") if found.sound else say_many(many, "1 problem", "{n} problems")
        read = say("{days} days, {entries} entries", days=found.days, entries=found.entries)
        out.result(say("{state}: {read}", state=state, read=read))
    return 0 if found.sound else UNSOUND
