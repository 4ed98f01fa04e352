"""`backup`: all records in one file."""

from __future__ import annotations

import argparse
from pathlib import Path

from core.desk.copies import make_copy
from core.say import say
from floor.commands import out
from floor.commands.copied import contents, tell_lines
from floor.commands.parser import VERSION
from floor.commands.setting import setting
from floor.commands.verify import UNSOUND


def run(args: argparse.Namespace) -> int:
    """Copy the records while terminals go on writing."""
    with setting(args) as place:
        made = make_copy(place.folder, Path(args.file), place.clock, VERSION)
    tell_lines(made.torn, made.problems)
    if args.json:
        out.json(
            {
                "file": args.file,
                "made": made.manifest.made,
                "days": made.manifest.days,
                "lines": made.manifest.lines,
                "bytes": made.manifest.bytes,
                "torn": [str(each) for each in made.torn],
                "problems": [str(each) for each in made.problems],
            }
        )
    else:
        copied = contents(made.manifest)
        out.result(say("{file}: copied {contents}", file=args.file, contents=copied))
    return UNSOUND if made.problems else 0
