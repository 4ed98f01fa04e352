"""The `bunchbook` command: one place that runs a command and prints what went wrong."""

from __future__ import annotations

import argparse
import gc
import os
import sys
from collections.abc import Callable, Sequence
from importlib import import_module

from core.problems import UserError
from floor.commands.parser import COMMANDS, parse

FLOOR = "floor.open"


def main(argv: Sequence[str] | None = None) -> int:
    """Run one command; returns its exit code."""
    args = parse(sys.argv[1:] if argv is None else argv)
    room = COMMANDS[args.command].room if args.command else FLOOR
    run: Callable[[argparse.Namespace], int] = import_module(room).run
    try:
        code = run(args)
        sys.stdout.flush()
    except UserError as error:
        sys.stderr.write(f"{error}\n")
        return error.exit_code
    except BrokenPipeError:
        # Whoever read our output has gone; Python must not try to flush into it at exit.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return 0
    except KeyboardInterrupt:
        return 130
    except OSError as error:
        sys.stderr.write(f"the system refused: {error.strerror or error}: {error.filename or ''}\n")
        return 3
    return code


def run() -> None:
    """The console script."""
    # What is imported never becomes garbage, and a short command leaves little behind: looking
    # for garbage meanwhile costs a tenth of its time. What runs long turns it on again.
    gc.disable()
    sys.exit(main())


if __name__ == "__main__":
    run()
