"""The Day's leaf table: issued, returned, and where the rest went, in grams."""

from __future__ import annotations

from collections.abc import Sequence

from rich.cells import cell_len

from core.day.report import DayReport, LeafDay
from core.desk.figures import thousands
from floor.looks.spans import Line, Span, figure, fit, inked, sizes_of
from floor.looks.words import Words

GO_FIRST = (6, 5, 1, 4, 7, 2)
"""The columns that give way where the width is short: heavy's error, heavy, back, rejects,
cuttings, used. What stays is issued, in good, and what is left to explain.
"""
MOST_GAP = 2
EDGES = 3
"""A blank at each side, and the mark."""


def leaf_lines(report: DayReport, places: int, width: int, words: Words) -> list[Line]:
    """A row a leaf; what is unexplained beyond what the checks can tell is said in words below.

    While the day is open most of it lies on the benches, and the column says so.
    """
    if not report.leaf:
        return [(Span("  "), *row) for row in inked(words.no_leaf, width - 3)]
    # Every figure but the first two comes from a calculation, so a whole gram is what it knows.
    last = words.unexplained if report.closed else words.on_benches
    cells = [(*words.leaf_columns, last), *map(_cells, report.leaf)]
    sizes = sizes_of(cells)
    name = max(cell_len(words.leaf), *(cell_len(leaf.leaf) for leaf in report.leaf))
    kept = _kept(cells, sizes, width - name - EDGES)
    classes = [words.class_of(leaf.leaf_class) for leaf in report.leaf]
    longest = max(map(cell_len, classes))
    gaps = _gaps(cells, kept)
    taken = sum(sizes[i] for i in kept) + name + EDGES
    wide = taken + sum(gaps) + longest + 1 <= width
    taken += longest + 1 if wide else 0
    if taken + MOST_GAP * len(kept) <= width:
        gaps = [MOST_GAP] * len(kept)
    head, *shown = (
        "".join(" " * gap + figure(row[i], sizes[i]) for i, gap in zip(kept, gaps, strict=True))
        for row in cells
    )
    labels = name + (longest + 1 if wide else 0)
    lines: list[Line] = [(Span(f" {fit(words.leaf, labels)}{head}", "faint"),)]
    for leaf, of, row in zip(report.leaf, classes, shown, strict=True):
        label = fit(leaf.leaf, name) + (f" {fit(of, longest)}" if wide else "")
        mark = Span("!" if leaf.beyond else " ", "wrong")
        lines.append((Span(f" {label}", "strong"), Span(row), mark))
    if GO_FIRST[0] in kept:
        lines.append((Span(f" {words.errors}", "faint"),))
    for leaf in report.leaf:
        if leaf.beyond:
            says = words.beyond.format(leaf=leaf.leaf, grams=thousands(leaf.unexplained_g))
            lines += [(Span(" ! "), *row) for row in inked(says, width - 4, "wrong")]
    return lines


def _kept(cells: Sequence[Sequence[str]], sizes: Sequence[int], room: int) -> list[int]:
    """The columns there is room for."""
    kept = list(range(len(sizes)))
    for column in GO_FIRST:
        if sum(sizes[i] for i in kept) + sum(_gaps(cells, kept)) <= room:
            break
        kept.remove(column)
    return kept


def _gaps(cells: Sequence[Sequence[str]], kept: Sequence[int]) -> list[int]:
    """Blanks before each column, at least: two where a figure beside them has one within."""
    grouped = [any(" " in row[i] for row in cells[1:]) for i in kept]
    return [1 + (here or before) for before, here in zip([False, *grouped], grouped, strict=False)]


def _cells(leaf: LeafDay) -> tuple[str, ...]:
    spread = "" if leaf.heavy_se_g is None else thousands(2 * leaf.heavy_se_g)
    amounts = [
        leaf.issued_g,
        leaf.returned_g,
        leaf.used_standard_g,
        leaf.in_good_g,
        leaf.rejects_g,
        leaf.heavy_g,
    ]
    rest = [leaf.cuttings_g, leaf.unexplained_g]
    return (*map(thousands, amounts), spread, *map(thousands, rest))
