"""What of the day's filler is not in good cigars: grams, share of what was used, and a bar."""

from __future__ import annotations

from typing import TYPE_CHECKING

from rich.cells import cell_len

from core.day.report import DayReport
from core.day.yields import COVERS
from core.desk.figures import percent, thousands
from floor.looks.bars import LONGEST_BAR, bar
from floor.looks.spans import Line, Span, fit
from floor.looks.words import Words

if TYPE_CHECKING:
    from core.papers.words import Words as Paper

GRAMS, SHARE = 9, 9


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
    longest = min(LONGEST_BAR, width - name - GRAMS - SHARE - 6)
    in_good_g = sum(row.in_good_g for row in filler)
    lines: list[Line] = [_row(words.of_filler, in_good_g, used_g, name, "")]
    for what, grams in parts:
        lines.append(_row(what, grams, used_g, name, bar(grams, most, longest)))
    return lines


def _row(what: str, grams: float, used_g: float, name: int, drawn: str) -> Line:
    figures = f"{thousands(grams):>{GRAMS}}{percent(grams / used_g):>{SHARE}}  "
    return (Span(f"  {fit(what, name)}{figures}", "strong"), Span(drawn, "heavy"))
