"""Opens the floor on the data folder."""

from __future__ import annotations

import argparse
import gc
import sys

from core.problems import BadInput
from floor.commands.setting import setting


def run(args: argparse.Namespace) -> int:
    """Show the floor until somebody leaves it."""
    if not (sys.stdin.isatty() and sys.stdout.isatty()):
        raise BadInput("the floor needs a terminal; for a shell see: bunchbook --help")
    if args.demo:
        sys.stderr.write("setting up the demo house ...\n")
    with setting(args) as place:
        desk = place.recording()
        from floor.app import FloorApp

        gc.freeze()
        gc.enable()
        return FloorApp(desk).run(mouse=False) or 0
