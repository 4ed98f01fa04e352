"""The `bunchbook` command: one place that runs a command and prints what went wrong."""

from __future__ import annotations

import argparse
import os
import sys
from collections.abc import Callable, Sequence
from importlib import import_module

from core.problems import UserError
from floor.commands.parser import parser

COMMANDS = {
    "house": "floor.commands.house",
    "card": "floor.commands.card",
    "line": "floor.commands.line",
    "enter": "floor.commands.enter",
    "day": "floor.commands.day",
    "close": "floor.commands.close",
    "reopen": "floor.commands.close",
    "verify": "floor.commands.verify",
    None: "floor.open",
}
"""Each command's room, imported only when its word is typed."""


def main(argv: Sequence[str] | None = None) -> int:
    """Run one command; returns its exit code."""
    args = parser().parse_args(argv)
    run: Callable[[argparse.Namespace], int] = import_module(COMMANDS[args.command]).run
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
    sys.exit(main())


if __name__ == "__main__":
    run()
