"""What a user or a disk can do wrong, as records and as the one family of exceptions."""

from __future__ import annotations

from typing import NamedTuple

from core.say import Said, joined, say_many


class Problem(NamedTuple):
    """One thing wrong: where it stands, and what was expected, found and to be done."""

    place: str
    says: str

    @property
    def said(self) -> Said:
        """Place and message, to be told in any language."""
        return joined(": ", (self.place, self.says) if self.place else (self.says,))

    def __str__(self) -> str:
        return str(self.said)


class UserError(Exception):
    """Anything a user or a disk can cause; `floor.commands` prints it, never a traceback."""

    exit_code = 2

    def __init__(self, *problems: Problem | str) -> None:
        self.problems = tuple(p if isinstance(p, Problem) else Problem("", p) for p in problems)
        super().__init__("\n".join(map(str, self.problems)))

    @property
    def said(self) -> Said:
        """Every problem on a line of its own, to be told in any language."""
        return joined("\n", (problem.said for problem in self.problems))


class BadInput(UserError):
    """The input is wrong; nothing was recorded."""

    exit_code = 2


class StoreUnusable(UserError):
    """The data folder cannot be used: locked, full, read-only, damaged, too new."""

    exit_code = 3


def damage_told(lines: int) -> Said:
    """That records are damaged, and where to see which: built on, they never pass in silence."""
    return say_many(
        lines,
        "1 damaged line in the records; see: bunchbook verify",
        "{n} damaged lines in the records; see: bunchbook verify",
    )
