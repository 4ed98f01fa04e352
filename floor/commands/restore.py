"""`restore`: a copy of the records put back."""

from __future__ import annotations

import argparse
from pathlib import Path

from core.desk.copies import restore_copy
from floor.commands import out
from floor.commands.copied import contents, tell_lines
from floor.commands.setting import setting
from floor.commands.verify import UNSOUND


def run(args: argparse.Namespace) -> int:
    """Check the copy whole, then put it in the data folder's place, or refuse."""
    with setting(args) as place:
        done = restore_copy(place.folder, Path(args.file), place.clock, replace=args.replace)
    tell_lines(done.torn, done.problems)
    restored = done.restored
    if args.json:
        out.json(
            {
                "file": args.file,
                "made": done.manifest.made,
                "put": restored.put,
                "left": restored.left,
                "stay": restored.stay,
                "aside": [str(each) for each in restored.aside],
            }
        )
        return UNSOUND if done.problems else 0
    for name in restored.stay:
        out.message(f"{name} is not in the copy, and stays")
    for aside in restored.aside:
        out.message(f"what was replaced is kept in {aside}")
    put = "1 book" if len(restored.put) == 1 else f"{len(restored.put)} books"
    was = f"; {len(restored.left)} were here already" if restored.left else ""
    out.result(
        f"{args.file}: the copy of {done.manifest.made} is in place: {contents(done.manifest)};"
        f" {put} put{was}"
    )
    return UNSOUND if done.problems else 0
