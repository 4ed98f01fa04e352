"""The `bunchbook` command: one place that runs a command and prints what went wrong."""

from __future__ import annotations

import argparse
import gc
import sys
from collections.abc import Callable, Sequence
from importlib import import_module

from core.problems import StoreUnusable, UserError
from core.say import say
from floor.commands import out
from floor.commands.language import spoken
from floor.commands.parser import COMMANDS, parse

FLOOR = "floor.open"


def main(argv: Sequence[str] | None = None) -> int:
    """Run one command; returns its exit code."""
    words = sys.argv[1:] if argv is None else argv
    out.speak(spoken(words))
    args = parse(words)
    room = COMMANDS[args.command].room if args.command else FLOOR
    run: Callable[[argparse.Namespace], int] = import_module(room).run
    try:
        return run(args)
    except UserError as error:
        out.message(error.said)
        return error.exit_code
    except KeyboardInterrupt:
        return 130
    except (OSError, MemoryError) as error:
        out.message(say("the system refused: {why}", why=str(error) or type(error).__name__))
        return StoreUnusable.exit_code
    finally:
        out.finish()


def run() -> None:
    """The console script."""
    # What is imported never becomes garbage, and a short command leaves little behind: looking
    # for garbage meanwhile costs a tenth of its time. What runs long turns it on again.
    gc.disable()
    out.prepare()
    sys.exit(main())


if __name__ == "__main__":
    run()
