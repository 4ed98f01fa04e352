"""The Day: what was made, and where the leaf went."""

from __future__ import annotations

import datetime as dt

from core.day.report import BenchDay, DayReport, RunDay
from core.desk.figures import decimals, fixed, percent
from floor.looks.missing import no_house
from floor.looks.spans import BLANK, Line, Span, fit, inked, spread
from floor.looks.words import Words, long_date, plural, thousands
from floor.screens.day_leaf import leaf_lines
from floor.widgets.page import Page

LONGEST_BAR = 36
WHO_CELLS = 18
BAR = "█"


class DayPage(Page):
    """The working day added up, and how to close it."""

    def written(self, width: int, height: int) -> list[Line]:
        floor = self.floor
        house = floor.desk.house
        if house is None:
            return no_house(floor.desk, floor.words, width)
        report = floor.desk.report()
        return day_lines(report, decimals(house.house.scale_division_g), width, floor.words)


def day_lines(report: DayReport, places: int, width: int, words: Words) -> list[Line]:
    """Counts, faults, leaf, benches that stand out, notes."""
    if not report.entries and not report.damaged_lines:
        hint = words.first_check.format(bench=report.benches[0].bench if report.benches else 7)
        return [*_state(report, width, words), BLANK, *_indented(hint, width)]
    return [
        *_state(report, width, words),
        *_counts(report, width, words),
        *_faults(report, width, words),
        *_titled(words.leaf_grams, width),
        *leaf_lines(report, places, width, words),
        *_several_runs(report, width, words),
        *_benches_out(report, places, width, words),
        *_notes(report, width, words),
    ]


def _state(report: DayReport, width: int, words: Words) -> list[Line]:
    date = long_date(dt.date.fromisoformat(report.date), words)
    state = words.closed if report.closed else words.opened
    hint = "" if report.closed else f"{words.close_hint} "
    left = (Span(f" {date}: "), Span(state, "title"))
    return [spread(left, (Span(hint, "faint"),), width)]


def _counts(report: DayReport, width: int, words: Words) -> list[Line]:
    totals = report.totals
    counts = [
        (words.made, thousands(totals.made)),
        (words.good, thousands(totals.good)),
        (words.rejected, thousands(totals.rejected)),
        (words.rework, thousands(totals.rework)),
    ]
    known = []
    if totals.first_pass_yield is not None:
        known.append((words.first_time, percent(totals.first_pass_yield)))
    if not report.closed:
        known.append((words.leaf_yield, words.at_close))
    elif report.leaf_yield is not None:
        known.append((words.leaf_yield, percent(report.leaf_yield)))
    kept = [words.entries.format(n=thousands(report.entries))]
    kept += [words.voided.format(n=thousands(report.voided))] if report.voided else []
    rows: list[Line] = [_figures(counts), _figures(known)] if known else [_figures(counts)]
    rows.append((Span(" " + ", ".join(kept), "faint"),))
    if report.damaged_lines:
        damaged = inked(plural(words.damaged, report.damaged_lines), width - 2, "wrong")
        rows += [(Span(" "), *row) for row in damaged]
    return rows


def _figures(pairs: list[tuple[str, str]]) -> Line:
    return tuple(
        span for name, value in pairs for span in (Span(f" {name} "), Span(f"{value}  ", "strong"))
    )


def _titled(title: str, width: int) -> list[Line]:
    return [BLANK, *((Span(" "), *row) for row in inked(title, width - 2, "title"))]


def _indented(text: str, width: int) -> list[Line]:
    return [(Span("  "), *row) for row in inked(text, width - 3)]


def _faults(report: DayReport, width: int, words: Words) -> list[Line]:
    """A bar a fault, the most frequent first."""
    counts = report.faults()
    lines = _titled(words.by_fault, width)
    if not counts:
        return [*lines, *_indented(words.no_rejects, width)]
    most = max(counts.values())
    name = max(len(fault) for fault in counts)
    longest = min(LONGEST_BAR, width - name - 12)
    for fault, n in sorted(counts.items(), key=lambda pair: (-pair[1], pair[0])):
        bar = BAR * max(1, round(longest * n / most))
        lines.append((Span(f"  {fault:<{name}} {n:>5} ", "strong"), Span(bar, "heavy")))
    return lines


def _benches_out(report: DayReport, places: int, width: int, words: Words) -> list[Line]:
    lines = _titled(words.benches_out, width)
    out = sorted((b for b in report.benches if b.out), key=lambda b: -b.out)
    if not out:
        return [*lines, *_indented(words.none_out, width)]
    for bench in out:
        facts = [words.bench_out.format(out=bench.out, checks=bench.checks)]
        if bench.mean_deviation_g is not None:
            off = bench.mean_deviation_g
            sign = "+" if off > 0 else ""
            facts.append(words.mean_off.format(grams=sign + fixed(off, places + 1)))
        who = fit(" ".join(p for p in (bench.buncher, bench.vitola) if p), WHO_CELLS)
        lines += _of_bench(bench, [f"{who} {', '.join(facts)}"], width, words)
    return lines


def _several_runs(report: DayReport, width: int, words: Words) -> list[Line]:
    """What each bench did of each vitola, where it rolled more than one: pay goes by these."""
    several = [
        bench
        for bench in report.benches
        if len({bench.vitola, *(run.vitola for run in bench.runs)}) > 1 or len(bench.runs) > 1
    ]
    if not several:
        return []
    lines = _titled(words.several_runs, width)
    for bench in several:
        lines += _of_bench(bench, [_run(run, words) for run in bench.runs], width, words)
    return lines


def _run(run: RunDay, words: Words) -> str:
    return words.run.format(
        vitola=run.vitola,
        blend=run.blend,
        made=thousands(run.made),
        good=thousands(run.good),
        rejected=thousands(sum(run.rejected.values())),
        rework=thousands(run.rework),
    )


def _of_bench(bench: BenchDay, says: list[str], width: int, words: Words) -> list[Line]:
    """Sentences about one bench, its number before the first."""
    name = f"  {words.bench} {bench.bench:<4} "
    margin = " " * len(name)
    rows = [row for sentence in says for row in inked(sentence, width - len(name) - 1)]
    return [(Span(margin if y else name, "strong"), *row) for y, row in enumerate(rows)]


def _notes(report: DayReport, width: int, words: Words) -> list[Line]:
    notes = [
        f"{words.bench} {note.bench}: {note.text}" if note.bench is not None else note.text
        for note in report.notes
    ]
    texts = [*notes, *(words.note.format(note=warning) for warning in report.warnings)]
    if not texts:
        return []
    return [
        *_titled(words.notes, width),
        *(row for text in texts for row in _indented(text, width)),
    ]
