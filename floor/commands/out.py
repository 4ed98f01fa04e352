"""What commands print: results to standard output, messages to standard error.

A reader that goes away, or a full disk behind a pipe, never stops a command from doing what
it was told: the rest is done unheard.
"""

from __future__ import annotations

import os
import sys
from collections.abc import Iterable, Sequence
from typing import TextIO

import orjson

from core.problems import Problem

_gone: set[str] = set()


def prepare() -> None:
    """Make the standard streams fit to be written to, however this process was started."""
    for name in ("stdin", "stdout", "stderr"):
        stream = getattr(sys, name)
        if stream is None:
            setattr(sys, name, open(os.devnull, "r+", encoding="utf-8"))  # noqa: PTH123, SIM115
        elif name != "stdin" and hasattr(stream, "reconfigure"):
            stream.reconfigure(errors="replace")


def finish() -> None:
    """Leave nothing for the interpreter to fail on when it ends."""
    for name, stream in (("stdout", sys.stdout), ("stderr", sys.stderr)):
        try:
            stream.flush()
        except (OSError, ValueError):
            _lost(name, stream)


def _write(name: str, stream: TextIO, text: str) -> None:
    if name in _gone:
        return
    try:
        stream.write(text)
        stream.flush()
    except (OSError, ValueError):
        _lost(name, stream)


def _lost(name: str, stream: TextIO) -> None:
    """Whoever read this has gone: what is left in the buffer must not be tried again at exit."""
    _gone.add(name)
    try:
        os.dup2(os.open(os.devnull, os.O_WRONLY), stream.fileno())
    except (OSError, ValueError):
        return


def result(text: str) -> None:
    """A line of the result."""
    _write("stdout", sys.stdout, text + "\n")


def json(value: object) -> None:
    """One JSON value on a line of its own."""
    result(orjson.dumps(value).decode())


def message(text: str) -> None:
    """A line for the person, apart from the result."""
    _write("stderr", sys.stderr, text + "\n")


def problems(found: Iterable[Problem | str]) -> None:
    """Problems, one a line."""
    for problem in found:
        message(str(problem))


def table(rows: Sequence[Sequence[str]], right: frozenset[int] = frozenset()) -> str:
    """Rows as columns two blanks apart; the columns named in `right` line up on the right."""
    widths = [max(map(len, column)) for column in zip(*rows, strict=True)]
    lines = (
        "  ".join(
            cell.rjust(width) if n in right else cell.ljust(width)
            for n, (cell, width) in enumerate(zip(row, widths, strict=True))
        ).rstrip()
        for row in rows
    )
    return "\n".join(lines)
