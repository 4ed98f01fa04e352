"""The Day: what was made, and where the leaf went."""

from __future__ import annotations

import datetime as dt

from core.day.report import DayReport
from core.desk.figures import decimals, fixed, percent
from floor.looks.missing import no_house
from floor.looks.spans import BLANK, Line, Span, inked, shorten, spread
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
            return no_house(floor.words.no_house)
        report = floor.desk.report()
        return day_lines(report, decimals(house.house.scale_division_g), width, floor.words)


def day_lines(report: DayReport, places: int, width: int, words: Words) -> list[Line]:
    """Counts, faults, leaf, benches that stand out, notes."""
    if not report.entries and not report.damaged_lines:
        hint = words.first_check.format(bench=report.benches[0].bench if report.benches else 7)
        return [*_state(report, width, words), BLANK, *_indented(hint, width)]
    return [
        *_state(report, width, words),
        *_counts(report, words),
        *_faults(report, width, words),
        *_titled(words.leaf_grams, width),
        *leaf_lines(report, places, width, words),
        *_benches_out(report, places, width, words),
        *_notes(report, width, words),
    ]


def _state(report: DayReport, width: int, words: Words) -> list[Line]:
    date = long_date(dt.date.fromisoformat(report.date), words)
    state = words.closed if report.closed else words.opened
    hint = "" if report.closed else f"{words.close_hint} "
    left = (Span(f" {date}: "), Span(state, "title"))
    return [spread(left, (Span(hint, "faint"),), width)]


def _counts(report: DayReport, words: Words) -> list[Line]:
    totals = report.totals
    counts = [
        (words.made, thousands(totals.made)),
        (words.good, thousands(totals.good)),
        (words.rejected, thousands(totals.rejected)),
        (words.rework, thousands(totals.rework)),
    ]
    shares = [(words.first_time, totals.first_pass_yield), (words.leaf_yield, report.leaf_yield)]
    known = [(name, percent(share)) for name, share in shares if share is not None]
    kept = [words.entries.format(n=thousands(report.entries))]
    kept += [words.voided.format(n=thousands(report.voided))] if report.voided else []
    rows: list[Line] = [_figures(counts), _figures(known)] if known else [_figures(counts)]
    rows.append((Span(" " + ", ".join(kept), "faint"),))
    if report.damaged_lines:
        rows.append((Span(" " + plural(words.damaged, report.damaged_lines), "wrong"),))
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
    counts: dict[str, int] = {}
    for bench in report.benches:
        for fault, n in bench.rejected.items():
            counts[fault] = counts.get(fault, 0) + n
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
        who = shorten(" ".join(p for p in (bench.buncher, bench.vitola) if p), WHO_CELLS)
        lines.append(
            (
                Span(f"  {words.bench} {bench.bench:<5}", "strong"),
                Span(f" {who:<{WHO_CELLS}} " + ", ".join(facts)),
            )
        )
    return lines


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
