"""The Day's leaf table: issued, returned, and where the rest went, in grams."""

from __future__ import annotations

from collections.abc import Sequence

from core.day.report import DayReport, LeafDay
from core.desk.figures import fixed
from floor.looks.spans import Line, Span, figure, fit, inked
from floor.looks.words import Words

COLUMNS = (7, 6, 7, 7, 7, 7, 4, 8, 7)
"""Cells of issued, back, used, in good, rejects, heavy, its error, cuttings, missing."""
LEAF_CELLS = 8
WITH_CLASS = 94
"""Cells from which the leaf's class has a column of its own."""


def leaf_lines(report: DayReport, places: int, width: int, words: Words) -> list[Line]:
    """A row a leaf; what is missing beyond what the checks can tell is said in words below."""
    if not report.leaf:
        return [(Span("  "), *row) for row in inked(words.no_leaf, width - 3)]
    # Every figure but the first two comes from a calculation, so a whole gram is what it knows.
    wide = width >= WITH_CLASS
    head = _row(words.leaf_columns)
    name = LEAF_CELLS + (14 if wide else 0)
    lines: list[Line] = [(Span(f" {fit(words.leaf, name)}{head}", "faint"),)]
    for leaf in report.leaf:
        label = fit(leaf.leaf, LEAF_CELLS) + (f" {fit(leaf.leaf_class, 13)}" if wide else "")
        cells = _row(_cells(leaf))
        mark = Span("!" if leaf.beyond else " ", "wrong")
        lines.append((Span(f" {label}", "strong"), Span(cells), mark))
    for leaf in report.leaf:
        if leaf.beyond:
            says = words.beyond.format(leaf=leaf.leaf, grams=fixed(leaf.unexplained_g, 0))
            lines += [(Span(" ! "), *row) for row in inked(says, width - 4, "wrong")]
    return lines


def _row(cells: Sequence[str]) -> str:
    return "".join(" " + figure(text, n) for text, n in zip(cells, COLUMNS, strict=True))


def _cells(leaf: LeafDay) -> list[str]:
    spread = "" if leaf.heavy_se_g is None else fixed(2 * leaf.heavy_se_g, 0)
    amounts = [
        leaf.issued_g,
        leaf.returned_g,
        leaf.used_standard_g,
        leaf.in_good_g,
        leaf.rejects_g,
        leaf.heavy_g,
    ]
    rest = [leaf.cuttings_g, leaf.unexplained_g]
    return [*(fixed(g, 0) for g in amounts), spread, *(fixed(g, 0) for g in rest)]
