"""`restore`: a copy of the records put back."""

from __future__ import annotations

import argparse
from pathlib import Path

from core.desk.copies import restore_copy
from core.say import say, say_many
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
        out.message(say("{name} is not in the copy, and stays", name=name))
    for aside in restored.aside:
        out.message(say("what was replaced is kept in {folder}", folder=aside))
    said = say_many(
        len(restored.put),
        "{file}: the copy of {made} is in place: {contents}; 1 book put",
        "{file}: the copy of {made} is in place: {contents}; {n} books put",
        file=args.file,
        made=done.manifest.made,
        contents=contents(done.manifest),
    )
    if restored.left:
        left = len(restored.left)
        said += say_many(left, "; 1 was here already", "; {n} were here already")
    out.result(said)
    return UNSOUND if done.problems else 0
