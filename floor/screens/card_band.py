"""Big figures side by side, each with its words above and below, apart enough to be told apart."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from floor.looks.figures import CUTS, ROWS, Cut, big, figure_width
from floor.looks.spans import Line, Span, fit, shorten, wrap

WORDS_APART = 2
EDGES = 2
"""A blank at each side of the band."""


class Column(NamedTuple):
    """One figure with the words above and below it; the first rows above are its name."""

    figure: str
    above: tuple[str, ...]
    below: tuple[str, ...]
    names: int = 1


def band(columns: Sequence[Column], cut: Cut, width: int, last: Cut | None = None) -> list[Line]:
    """The columns over the width, nothing where they do not fit; `last` cuts the last one."""
    cuts = [cut] * (len(columns) - 1) + [last or cut]
    if cut.rule:
        columns = _narrowed(columns, cut)
    sizes = [_size(column, its_own) for column, its_own in zip(columns, cuts, strict=True)]
    pitches = [
        max(figure_width(column.figure, its_own) + cut.air, _words(column) + WORDS_APART)
        for column, its_own in zip(columns[:-1], cuts, strict=False)
    ]
    spare = width - EDGES - sum(pitches) - sizes[-1]
    if spare < 0:
        return []
    more = min(cut.air, spare // max(1, len(pitches)))
    cells = [*(pitch + more for pitch in pitches), sizes[-1]]
    return _rows(columns, cuts, cells, cut.rule)


def widest_band(columns: Sequence[Column], width: int) -> list[Line]:
    """The columns in the widest digits that fit; the last one's may be narrower than the others'.

    Nothing where none do.
    """
    for cut in CUTS:
        for last in CUTS[CUTS.index(cut) :]:
            lines = band(columns, cut, width, last)
            if lines:
                return lines
    return []


def _rows(
    columns: Sequence[Column], cuts: Sequence[Cut], cells: Sequence[int], rule: str
) -> list[Line]:
    blocks = [_block(column, cut) for column, cut in zip(columns, cuts, strict=True)]
    figures = range(len(columns[0].above), len(columns[0].above) + ROWS)
    lines: list[Line] = []
    for y in range(len(blocks[0])):
        spans = [Span(" ")]
        for place, (block, size) in enumerate(zip(blocks, cells, strict=True)):
            ruled = rule and y in figures and place < len(blocks) - 1
            spans.append(block[y])
            spans.append(Span(_gap(size - len(block[y].text), rule if ruled else ""), "faint"))
        lines.append(tuple(spans))
    return lines


def _block(column: Column, cut: Cut) -> list[Span]:
    """The column's rows: words, the figure, words."""
    return [
        *(Span(text, "strong") for text in column.above[: column.names]),
        *map(Span, column.above[column.names :]),
        *(row[0] for row in big(column.figure, cut)),
        *(Span(text, "faint") for text in column.below),
    ]


def _gap(cells: int, rule: str) -> str:
    return fit("", cells - 2) + rule + " " if rule else " " * cells


def _narrowed(columns: Sequence[Column], cut: Cut) -> list[Column]:
    """Words no wider than the figure and its air; a name of two words on two rows."""
    rooms = [figure_width(each.figure, cut) + cut.air - WORDS_APART for each in columns]
    names = [wrap(each.above[0], room) for each, room in zip(columns, rooms, strict=True)]
    rows = max(map(len, names))
    return [
        Column(
            each.figure,
            (*[""] * (rows - len(name)), *name, *(shorten(text, room) for text in each.above[1:])),
            tuple(shorten(text, room) for text in each.below),
            names=rows,
        )
        for each, name, room in zip(columns, names, rooms, strict=True)
    ]


def _words(column: Column) -> int:
    return max((len(text) for text in (*column.above, *column.below)), default=0)


def _size(column: Column, cut: Cut) -> int:
    return max(figure_width(column.figure, cut), _words(column))
