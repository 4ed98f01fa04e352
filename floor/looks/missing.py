"""What a page shows where there is nothing to show yet, and what to do about it."""

from __future__ import annotations

from core.problems import BadInput, UserError
from floor.looks.spans import BLANK, Line, Span, inked


def no_card(missing: BadInput, title: str, width: int) -> list[Line]:
    """Why a bench has no card, as the core says it."""
    return [BLANK, (Span(f" {title}", "wrong"),), *troubled(missing, width)]


def troubled(trouble: UserError, width: int) -> list[Line]:
    """What a user or a disk did, as the core says it."""
    lines: list[Line] = [BLANK]
    for problem in trouble.problems:
        lines += [(Span("  "), *row) for row in inked(str(problem), width - 3)]
    return lines


def no_house(words: tuple[str, ...]) -> list[Line]:
    """What to load, and the command that does it."""
    return [BLANK, *((Span("  " + text),) for text in words)]
