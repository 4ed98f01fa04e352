"""What `backup` and `restore` say alike."""

from __future__ import annotations

from collections.abc import Iterable

from core.problems import Problem
from core.records.copy import Manifest
from core.say import joined, say, say_many
from floor.commands import out


def contents(manifest: Manifest) -> str:
    """How much a copy holds."""
    days = say_many(manifest.days, "1 day", "{n} days")
    lines = say("{n} lines", n=manifest.lines)
    return joined(", ", (days, lines, _size(manifest.bytes)))


def _size(count: int) -> str:
    for unit, size in (("GB", 10**9), ("MB", 10**6), ("kB", 10**3)):
        if count >= size:
            return f"{count / size:.1f} {unit}"
    return say("{n} bytes", n=count)


def tell_lines(torn: Iterable[Problem], problems: Iterable[Problem]) -> None:
    """The damaged lines of a copy, which are in it as they are."""
    for line in torn:
        out.message(say("torn line, copied as it is: {line}", line=line.said))
    for problem in problems:
        out.message(say("problem, copied as it is: {problem}", problem=problem.said))
