"""The benches that stand out and why, those with checks out, those that rolled several vitolas."""

from __future__ import annotations

from typing import TYPE_CHECKING

from core.day.report import BenchDay, DayReport, RunDay
from core.desk.figures import fixed, thousands
from core.papers.day_standouts import reason
from floor.looks.spans import Line, Span, fit, inked
from floor.looks.words import Words

if TYPE_CHECKING:
    from core.papers.words import Words as Paper

WHO_CELLS = 18


def standout_lines(report: DayReport, width: int, words: Words, paper: Paper) -> list[Line]:
    """A sentence for each reason, the bench's number before its first."""
    says: dict[str, list[str]] = {}
    for each in report.standouts:
        says.setdefault(str(each.bench), []).append(reason(each, paper))
    return [line for n, told in says.items() for line in _of_bench(n, told, width, words)]


def out_lines(report: DayReport, places: int, width: int, words: Words) -> list[Line]:
    """The benches with checks out of their window, most first."""
    lines: list[Line] = []
    for bench in sorted((b for b in report.benches if b.out), key=lambda b: -b.out):
        facts = [words.bench_out.format(out=bench.out, checks=bench.checks)]
        if bench.mean_deviation_g is not None:
            off = bench.mean_deviation_g
            sign = "+" if off > 0 else ""
            facts.append(words.mean_off.format(grams=sign + fixed(off, places + 1)))
        who = fit(" ".join(p for p in (bench.buncher, bench.vitola) if p), WHO_CELLS)
        lines += _of_bench(str(bench.bench), [f"{who} {', '.join(facts)}"], width, words)
    return lines


def several_runs(report: DayReport, width: int, words: Words) -> list[Line]:
    """What each bench did of each vitola, where it rolled more than one: pay goes by these."""
    return [
        line
        for bench in report.benches
        if _several(bench)
        for line in _of_bench(
            str(bench.bench), [_run(run, words) for run in bench.runs], width, words
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


def _of_bench(number: str, says: list[str], width: int, words: Words) -> list[Line]:
    """Sentences about one bench, its number before the first."""
    name = f"  {words.bench} {number:<4} "
    margin = " " * len(name)
    rows = [row for sentence in says for row in inked(sentence, width - len(name) - 1)]
    return [(Span(margin if y else name, "strong"), *row) for y, row in enumerate(rows)]
