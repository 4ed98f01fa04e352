"""What a page shows where there is nothing to show yet, and what to do about it."""

from __future__ import annotations

from core.problems import BadInput
from floor.looks.spans import BLANK, Line, Span, inked


def no_card(missing: BadInput, title: str, width: int) -> list[Line]:
    """Why a bench has no card, as the core says it."""
    lines: list[Line] = [BLANK, (Span(f" {title}", "wrong"),), BLANK]
    for problem in missing.problems:
        lines += [(Span("  "), *row) for row in inked(str(problem), width - 3)]
    return lines


def no_house(words: tuple[str, ...]) -> list[Line]:
    """What to load, and the command that does it."""
    return [BLANK, *((Span("  " + text),) for text in words)]
