"""What commands print: results to standard output, messages to standard error."""

from __future__ import annotations

import sys
from collections.abc import Iterable, Sequence

import orjson

from core.problems import Problem


def result(text: str) -> None:
    """A line of the result."""
    sys.stdout.write(text + "\n")


def json(value: object) -> None:
    """One JSON value on a line of its own."""
    sys.stdout.write(orjson.dumps(value).decode() + "\n")


def message(text: str) -> None:
    """A line for the person, apart from the result."""
    sys.stderr.write(text + "\n")


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
