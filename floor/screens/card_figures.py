"""Figures as large as there is room for, in rows, each with its words beside or above it."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from floor.looks.figures import CUTS, ROWS, Cut, big, figure_width
from floor.looks.spans import BLANK, Line, Span, fit, shorten, width_of

UNIT = " g"
AIR, RULE = " " * 5, " │ "
"""Between two figures side by side; where there is no room for air, a rule."""
LEAST_WORDS, MOST_WORDS = 6, 16
"""Cells of the words beside a figure: as a rule, and the longest code there may be."""


class Portion(NamedTuple):
    """A figure, and what it is of."""

    name: str
    code: str
    figure: str


class Look(NamedTuple):
    """How figures stand: how wide and how high their digits are, so many to a row.

    `words` are the cells of the words beside each; with none they are above it.
    """

    cut: Cut
    high: int
    in_a_row: int
    words: int
    between: str


def largest(portions: Sequence[Portion], width: int, height: int) -> Look | None:
    """The look with the largest digits that fits; None where none does."""
    looks = _looks(portions, height)
    return next((look for look in looks if _width(portions, look) <= width), None)


def drawn(portions: Sequence[Portion], look: Look, width: int) -> list[Line]:
    """The figures in that look."""
    cells = _columns(portions, look)
    more = (width - _width(portions, look)) // look.in_a_row if look.in_a_row > 1 else 0
    cells = [cell + min(more, len(AIR)) for cell in cells]
    lines: list[Line] = []
    for start in range(0, len(portions), look.in_a_row):
        row = portions[start : start + look.in_a_row]
        blocks = [_block(each, look, cell) for each, cell in zip(row, cells, strict=False)]
        lines += [BLANK] if lines and look.words else []
        lines += [_side_by_side(parts, look.between) for parts in zip(*blocks, strict=True)]
    return lines


def _looks(portions: Sequence[Portion], height: int) -> Iterator[Look]:
    """Every look that is not too high: the largest digits first, words beside before above."""
    longest = max(len(text) for each in portions for text in each[:2])
    beside = sorted({min(longest, MOST_WORDS), min(longest, LEAST_WORDS)}, reverse=True)
    for cut, high in _sizes(height):
        for in_a_row in range(1, len(portions) + 1):
            for words in (*beside, 0):
                for between in (AIR, RULE):
                    look = Look(cut, high, in_a_row, words, between)
                    if _height(portions, look) <= height:
                        yield look


def _sizes(height: int) -> list[tuple[Cut, int]]:
    """How wide and how high digits may be without being distorted much, the largest first.

    A terminal's cell is about twice as high as it is wide.
    """
    sizes = [(cut, 1) for cut in CUTS]
    for high in range(2, height // ROWS + 1):
        for wide in range(high, 2 * high + 1):
            cut = Cut((wide, wide, wide), wide, gap=wide, beside_point=max(1, wide // 2), air=0)
            sizes.append((cut, high))
    return sorted(sizes, key=lambda each: (min(2 * each[1], _mean(each[0])), each[1]), reverse=True)


def _mean(cut: Cut) -> float:
    return sum(cut.columns) / len(cut.columns)


def _height(portions: Sequence[Portion], look: Look) -> int:
    rows = math.ceil(len(portions) / look.in_a_row)
    beside = bool(look.words)
    return rows * (ROWS * look.high + (not beside)) + (rows - 1) * beside


def _width(portions: Sequence[Portion], look: Look) -> int:
    """Cells of the widest row, with a blank at each side."""
    return 2 + sum(_columns(portions, look)) + (look.in_a_row - 1) * len(look.between)


def _columns(portions: Sequence[Portion], look: Look) -> list[int]:
    """Cells of each column: figures, their unit, and the words beside them."""
    words = look.words + 1 if look.words else 0
    return [
        words + len(UNIT) + max(figure_width(each.figure, look.cut) for each in column)
        for column in (portions[n :: look.in_a_row] for n in range(look.in_a_row))
    ]


def _block(portion: Portion, look: Look, cell: int) -> list[Line]:
    """The rows of one figure, each as wide as its cell."""
    rows = [row for row in big(portion.figure, look.cut) for _ in range(look.high)]
    rows[-1] = (*rows[-1], Span(UNIT))
    if look.words:
        told = [portion.name, portion.code, *[""] * len(rows)]
        rows = [
            (Span(f"{fit(text, look.words)} ", "strong"), *row)
            for text, row in zip(told, rows, strict=False)
        ]
    else:
        rows.insert(0, (Span(_above(portion, cell), "strong"),))
    return [(*row, Span(" " * (cell - width_of(row)))) for row in rows]


def _above(portion: Portion, cell: int) -> str:
    """Name and code in one line; the name gives way."""
    room = cell - len(portion.code) - 1
    if room < 1:
        return shorten(portion.code, cell)
    return f"{shorten(portion.name, room)} {portion.code}"


def _side_by_side(parts: Sequence[Line], between: str) -> Line:
    spans = [Span(" ")]
    for place, part in enumerate(parts):
        spans += [Span(between, "faint")] if place else []
        spans += part
    return tuple(spans)
