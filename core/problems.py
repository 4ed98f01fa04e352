"""What a user or a disk can do wrong, as records and as the one family of exceptions."""

from __future__ import annotations

from typing import NamedTuple


class Problem(NamedTuple):
    """One thing wrong: where it stands, and what was expected, found and to be done."""

    place: str
    says: str

    def __str__(self) -> str:
        return f"{self.place}: {self.says}" if self.place else self.says


class UserError(Exception):
    """Anything a user or a disk can cause; `floor.commands` prints it, never a traceback."""

    exit_code = 2

    def __init__(self, *problems: Problem | str) -> None:
        self.problems = tuple(p if isinstance(p, Problem) else Problem("", p) for p in problems)
        super().__init__("\n".join(map(str, self.problems)))


class BadInput(UserError):
    """The input is wrong; nothing was recorded."""

    exit_code = 2


class StoreUnusable(UserError):
    """The data folder cannot be used: locked, full, read-only, damaged, too new."""

    exit_code = 3


def damage_told(lines: int) -> str:
    """That records are damaged, and where to see which: built on, they never pass in silence."""
    damaged = "1 damaged line" if lines == 1 else f"{lines} damaged lines"
    return f"{damaged} in the records; see: bunchbook verify"
