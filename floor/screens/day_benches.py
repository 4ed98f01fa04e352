"""The benches that stand out and why, those with checks out, those that rolled several vitolas."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from rich.cells import cell_len

from core.day.report import BenchDay, DayReport, RunDay
from core.desk.figures import fixed, thousands
from core.papers.day_standouts import reason
from floor.looks.spans import Line, Span, fit, inked, sizes_of
from floor.looks.words import Words

if TYPE_CHECKING:
    from core.papers.words import Words as Paper

LEAST_NUMBER = 4
"""Cells of a bench's number."""


def standout_lines(report: DayReport, width: int, words: Words, paper: Paper) -> list[Line]:
    """A sentence for each reason, the bench's number before its first."""
    says: dict[str, list[str]] = {}
    for each in report.standouts:
        says.setdefault(str(each.bench), []).append(reason(each, paper))
    room = max(map(len, says), default=0)
    return [line for n, told in says.items() for line in _of_bench(n, told, room, width, words)]


def out_lines(report: DayReport, places: int, width: int, words: Words) -> list[Line]:
    """The benches with checks out of their window, most first."""
    told: list[tuple[tuple[str, str, str], str]] = []
    for bench in sorted((b for b in report.benches if b.out), key=lambda b: -b.out):
        facts = [words.bench_out.format(out=bench.out, checks=bench.checks)]
        if bench.mean_deviation_g is not None:
            off = bench.mean_deviation_g
            sign = "+" if off > 0 else ""
            facts.append(words.mean_off.format(grams=sign + fixed(off, places + 1)))
        names = (str(bench.bench), bench.buncher or "", bench.vitola or "")
        told.append((names, ", ".join(facts)))
    return _in_columns(told, width, words)


def _in_columns(
    told: Sequence[tuple[tuple[str, str, str], str]], width: int, words: Words
) -> list[Line]:
    """Bench, buncher and vitola in columns, then the facts: below them where a row is short."""
    if not told:
        return []
    number, *who = sizes_of([names for names, _ in told])
    number, name = max(number, LEAST_NUMBER), len(words.bench) + 4 + max(number, LEAST_NUMBER)
    cells = [cell for cell in who if cell]
    beside = name + sum(cell + 2 for cell in cells)
    whole = beside + max(cell_len(facts) for _, facts in told) < width
    # What is left of a row, by halves, where codes are longer than any house book has them.
    who = [min(cell, (width - name - 3) // 2) for cell in who]
    lines: list[Line] = []
    for (bench, *names), facts in told:
        label = f"  {words.bench} {fit(bench, number)} "
        texts = [fit(text, cell) for text, cell in zip(names, who, strict=True) if cell]
        row = "  ".join(texts)
        if whole:
            lines.append((Span(label, "strong"), Span("  ".join([row, facts] if row else [facts]))))
            continue
        lines.append((Span(label, "strong"), Span(row)))
        lines += [(Span(" " * len(label)), *each) for each in inked(facts, width - len(label) - 1)]
    return lines


def several_runs(report: DayReport, width: int, words: Words) -> list[Line]:
    """What each bench did of each vitola, where it rolled more than one: pay goes by these."""
    benches = [bench for bench in report.benches if _several(bench)]
    room = max((len(str(bench.bench)) for bench in benches), default=0)
    return [
        line
        for bench in benches
        for line in _of_bench(
            str(bench.bench), [_run(run, words) for run in bench.runs], room, width, words
        )
    ]


def _several(bench: BenchDay) -> bool:
    rolled = {bench.vitola, *(run.vitola for run in bench.runs)}
    return len(rolled) > 1 or len(bench.runs) > 1


def _run(run: RunDay, words: Words) -> str:
    return words.run.format(
        vitola=run.vitola,
        blend=run.blend,
        made=thousands(run.made),
        good=thousands(run.good),
        rejected=thousands(sum(run.rejected.values())),
        rework=thousands(run.rework),
    )


def _of_bench(number: str, says: list[str], room: int, width: int, words: Words) -> list[Line]:
    """Sentences about one bench, its number before the first in a column of so many cells."""
    name = f"  {words.bench} {number:<{max(room, LEAST_NUMBER)}} "
    margin = " " * len(name)
    rows = [row for sentence in says for row in inked(sentence, width - len(name) - 1)]
    return [(Span(margin if y else name, "strong"), *row) for y, row in enumerate(rows)]
