"""Figures as large as there is room for, in rows, each with its words beside or above it."""

from __future__ import annotations

import math
import re
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from floor.looks.figures import CUTS, ROWS, Cut, big, figure_width
from floor.looks.spans import BLANK, Line, Span, fit, shorten, width_of, wrap

UNIT = " g"
AIR, RULE = " " * 5, " │ "
"""Between two figures side by side; where there is no room for air, a rule."""
CORNER = 20
"""Cells of words that stand beside the last figure."""
LEAST_WORDS = 6
"""Cells of the words beside a figure at least."""
LEAST_CODE = 5
"""Cells of a code that is shortened, at least."""


class Portion(NamedTuple):
    """A figure, and what it is of."""

    name: str
    code: str
    figure: str


class Look(NamedTuple):
    """How figures stand: how wide and how high their digits are, so many to a row.

    `beside` are the cells of the words beside each; with none they are above it, on so many
    rows. `code` is how much of a code is shown at least: a name is always whole.
    """

    cut: Cut
    high: int
    in_a_row: int
    beside: int
    above: int
    code: int
    between: str


def largest(portions: Sequence[Portion], width: int, height: int, corner: int = 0) -> Look | None:
    """The look with the largest digits that fits, and so many rows of words beside the last of
    them; None where none does.
    """
    looks = (look for look in _looks(portions, height) if _width(portions, look) <= width)
    return next((look for look in looks if _has_corner(portions, look, width, corner)), None)


def _has_corner(portions: Sequence[Portion], look: Look, width: int, rows: int) -> bool:
    """Whether so many rows of words fit beside the figures of the last row."""
    last = len(portions) % look.in_a_row
    used = 1 + sum(_columns(portions, look)[:last]) + last * len(look.between)
    room = ROWS * look.high + look.above if last and width - used > CORNER else 0
    return rows <= room


def drawn(
    portions: Sequence[Portion], look: Look, width: int, corner: Sequence[Line] = ()
) -> list[Line]:
    """The figures in that look, the words of `corner` beside the last of them."""
    cells = _columns(portions, look)
    more = (width - _width(portions, look)) // look.in_a_row if look.in_a_row > 1 else 0
    cells = [cell + (0 if corner else min(more, len(AIR))) for cell in cells]
    lines: list[Line] = []
    for start in range(0, len(portions), look.in_a_row):
        row = portions[start : start + look.in_a_row]
        blocks = [_block(each, look, cell) for each, cell in zip(row, cells, strict=False)]
        if corner and start + look.in_a_row >= len(portions):
            blocks.append([*corner, *[BLANK] * (len(blocks[0]) - len(corner))])
        lines += [BLANK] if lines and not look.above else []
        lines += [_side_by_side(parts, look.between) for parts in zip(*blocks, strict=True)]
    return lines


def _looks(portions: Sequence[Portion], height: int) -> Iterator[Look]:
    """Every look that is not too high: the largest digits first, whole codes before shortened
    ones, words beside before above.
    """
    whole, shortened = _tellings(portions)
    for cut, high in _sizes(height):
        for tellings in (whole, shortened):
            for in_a_row in range(1, len(portions) + 1):
                for beside, above, code in tellings:
                    for between in (AIR, RULE):
                        look = Look(cut, high, in_a_row, beside, above, code, between)
                        if _height(portions, look) <= height:
                            yield look


_Telling = tuple[int, int, int]
"""A look's `beside`, `above` and `code`."""


def _tellings(portions: Sequence[Portion]) -> tuple[list[_Telling], list[_Telling]]:
    """How the words can stand with their codes whole, and with codes shortened.

    Beside a figure a name of two words may take two rows.
    """
    name = max(len(each.name) for each in portions)
    word = max(len(part) for each in portions for part in each.name.split(" "))
    code = max(len(each.code) for each in portions)
    narrow = max(word, LEAST_WORDS)
    whole = [(beside, 0, code) for beside in sorted({max(name, code), max(word, code)})[::-1]]
    whole += [(0, 1, code), (0, 2, code)]
    return whole, [(narrow, 0, LEAST_CODE), (0, 1, LEAST_CODE)]


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
    return rows * (ROWS * look.high + look.above) + (rows - 1) * (not look.above)


def _width(portions: Sequence[Portion], look: Look) -> int:
    """Cells of the widest row, with a blank at each side."""
    return 2 + sum(_columns(portions, look)) + (look.in_a_row - 1) * len(look.between)


def _columns(portions: Sequence[Portion], look: Look) -> list[int]:
    """Cells of each column: figures, their unit, and the words beside or above them."""
    return [
        max(_cell(each, look) for each in portions[n :: look.in_a_row])
        for n in range(look.in_a_row)
    ]


def _cell(portion: Portion, look: Look) -> int:
    """Cells of one figure with its words."""
    figure = figure_width(portion.figure, look.cut) + len(UNIT)
    if not look.above:
        return look.beside + 1 + figure
    name, code = len(portion.name), min(len(portion.code), look.code)
    return max(figure, name + 1 + code if look.above == 1 else max(name, code))


def _block(portion: Portion, look: Look, cell: int) -> list[Line]:
    """The rows of one figure, each as wide as its cell."""
    rows = [row for row in big(portion.figure, look.cut) for _ in range(look.high)]
    rows[-1] = (*rows[-1], Span(UNIT))
    if not look.above:
        name = wrap(portion.name, look.beside)
        told = [*name, *_code(portion.code, look.beside, len(rows) - len(name)), *[""] * len(rows)]
        rows = [
            (Span(f"{fit(text, look.beside)} ", "strong"), *row)
            for text, row in zip(told, rows, strict=False)
        ]
    else:
        rows[:0] = [(Span(text, "strong"),) for text in _above(portion, look, cell)]
    return [(*row, Span(" " * (cell - width_of(row)))) for row in rows]


def _code(code: str, width: int, most: int) -> list[str]:
    """The code on so many rows, broken behind its hyphens or where it must be; else shortened."""
    rows: list[str] = []
    for part in re.findall(r"[^-]+-?|-", code):
        if rows and len(rows[-1]) + len(part) <= width:
            rows[-1] += part
        else:
            rows += wrap(part, width)
    for told in (rows, wrap(code, width)):
        if len(told) <= most:
            return told
    return [shorten(code, width)]


def _above(portion: Portion, look: Look, cell: int) -> list[str]:
    """Name and code, each on its row or in one; the code gives way."""
    if look.above > 1:
        return [portion.name, portion.code]
    return [f"{portion.name} {shorten(portion.code, cell - len(portion.name) - 1)}"]


def _side_by_side(parts: Sequence[Line], between: str) -> Line:
    spans = [Span(" ")]
    for place, part in enumerate(parts):
        spans += [Span(between, "faint")] if place else []
        spans += part
    return tuple(spans)
