"""The Day's rejects: a bar a fault, and what usually happens to the piece."""

from __future__ import annotations

from typing import TYPE_CHECKING

from rich.cells import cell_len

from core.day.report import DayReport
from core.desk.figures import thousands
from floor.looks.bars import LONGEST_BAR, bar
from floor.looks.spans import Line, Span, fit
from floor.looks.words import Words

if TYPE_CHECKING:
    from core.papers.words import Words as Paper

LEAST_BAR = 8
COUNT = 6
"""Cells of a count with the blanks before it, at least."""


def fault_lines(report: DayReport, width: int, words: Words, paper: Paper) -> list[Line]:
    """The most frequent first. Where the row is short the bar gives way, then the fate."""
    counts = report.faults()
    if not counts:
        return [(Span(f"  {words.no_rejects}"),)]
    most = max(counts.values())
    named = {fault: (paper.fault(fault), paper.fate(fault)) for fault in counts}
    name = max(cell_len(word) for word, _ in named.values())
    fate = max(cell_len(fate) for _, fate in named.values())
    count = max(COUNT, 2 + max(cell_len(thousands(n)) for n in counts.values()))
    room = width - name - count - 6
    if room - fate < LEAST_BAR:
        fate = 0
    longest = min(LONGEST_BAR, room - fate)
    lines: list[Line] = []
    for fault, n in sorted(counts.items(), key=lambda pair: (-pair[1], pair[0])):
        word, usually = named[fault]
        lines.append(
            (
                Span(f"  {fit(word, name)}{thousands(n):>{count}}  ", "strong"),
                Span(f"{fit(usually, fate)}  " if fate else ""),
                Span(bar(n, most, longest, least=1), "heavy"),
            )
        )
    return lines
