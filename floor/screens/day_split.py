"""What of the day's filler is not in good cigars: grams, share of what was used, and a bar."""

from __future__ import annotations

from typing import TYPE_CHECKING

from rich.cells import cell_len

from core.day.report import DayReport
from core.day.yields import COVERS
from core.desk.figures import percent, thousands
from floor.looks.bars import LONGEST_BAR, bar
from floor.looks.spans import Line, Span, figures, fit, sizes_of
from floor.looks.words import Words

if TYPE_CHECKING:
    from core.papers.words import Words as Paper

LEAST = 7
"""Cells of the grams, and of the share."""


def split_lines(report: DayReport, width: int, words: Words, paper: Paper) -> list[Line]:
    """Nothing where no filler was used. What is short of target or over-explained has no bar."""
    filler = [row for row in report.leaf if row.leaf_class not in COVERS]
    used_g = sum(row.used_standard_g for row in filler)
    if used_g <= 0:
        return []
    parts = [
        (name, sum(getattr(row, column) for row in filler))
        for column, name in paper.parts_of(closed=report.closed).items()
    ]
    most = max(grams for _, grams in parts)
    name = max(cell_len(words.of_filler), *(cell_len(name) for name, _ in parts))
    rows = [(words.of_filler, sum(row.in_good_g for row in filler)), *parts]
    cells = [(thousands(grams), percent(grams / used_g)) for _, grams in rows]
    sizes = [max(LEAST, size) for size in sizes_of(cells)]
    longest = min(LONGEST_BAR, width - name - sum(sizes) - 10)
    lines: list[Line] = []
    for i, ((what, grams), texts) in enumerate(zip(rows, cells, strict=True)):
        label = f"  {fit(what, name)}{figures(texts, sizes)}  "
        drawn = bar(grams, most, longest) if i else ""
        lines.append((Span(label, "strong"), Span(drawn, "heavy")))
    return lines
