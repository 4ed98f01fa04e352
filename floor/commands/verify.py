"""`verify`: are the records sound?"""

from __future__ import annotations

import argparse

from core.desk.audit import audit
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
            out.result(f"torn line, passed over: {line}")
        for line in found.problems:
            out.result(f"problem: {line}")
        many = "1 problem" if len(found.problems) == 1 else f"{len(found.problems)} problems"
        state = "sound" if found.sound else many
        out.result(f"{state}: {found.days} days, {found.entries} entries")
    return 0 if found.sound else UNSOUND
