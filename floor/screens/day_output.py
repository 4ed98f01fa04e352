"""What the day gave: counts, yields and filler per 1,000; the same by vitola and buncher."""

from __future__ import annotations

from collections.abc import Sequence

from rich.cells import cell_len

from core.day.report import BuncherDay, DayReport, VitolaDay
from core.desk.figures import fixed, percent, thousands
from core.units import G_PER_LB
from floor.looks.spans import Line, Span, figures, fit, inked, sizes_of
from floor.looks.words import Words, plural

NAME_CELLS = 12
KG = 3
"""Decimals of kilograms for 1,000: a gram a thousand cigars."""

Pair = tuple[str, str]


def output_lines(report: DayReport, width: int, words: Words) -> list[Line]:
    """Counts, yields, filler per 1,000 against the standard, and what was recorded late."""
    totals = report.totals
    counts = [
        (words.made, thousands(totals.made)),
        (words.good, thousands(totals.good)),
        (words.rejected, thousands(totals.rejected)),
        (words.rework, thousands(totals.rework)),
    ]
    others = [
        (words.second, totals.second),
        (words.on_hold, totals.held),
        (words.workers, totals.workers),
        (words.for_panel, totals.panel),
    ]
    rows = [counts, [(name, thousands(n)) for name, n in others if n], _yields(report, words)]
    rows.append(_filler(report, words))
    lines = [line for row in rows for line in _packed(row, width)]
    kept = inked(", ".join(_kept(report, words)), width - 2, "faint")
    return [*lines, *((Span(" "), *row) for row in kept)]


def _yields(report: DayReport, words: Words) -> list[Pair]:
    known: list[Pair] = []
    if report.totals.first_pass_yield is not None:
        known.append((words.first_time, percent(report.totals.first_pass_yield)))
    if not report.closed:
        known.append((words.leaf_yield, words.at_close))
    elif report.leaf_yield is not None:
        known.append((words.leaf_yield, percent(report.leaf_yield)))
    return known


def _filler(report: DayReport, words: Words) -> list[Pair]:
    """Told at the close: until then leaf lies on the benches."""
    used, standard = report.totals.filler_kg_per_1000_good, report.totals.standard_kg_per_1000
    if used is None or not report.closed:
        return []
    pounds = fixed(used * 1000 / G_PER_LB, 2)
    told = [(words.filler_used, words.per_1000.format(kg=fixed(used, KG), lb=pounds))]
    if standard is not None:
        told.append((words.standard, f"{fixed(standard, KG)} kg"))
    return told


def _kept(report: DayReport, words: Words) -> list[str]:
    kept = [plural(words.entries, report.entries)]
    if report.voided:
        kept.append(plural(words.voided, report.voided))
    if report.reopened:
        kept.append(plural(words.reopened, report.reopened))
    if report.late:
        kept.append(plural(words.recorded_late, report.late))
    return kept


def _packed(pairs: Sequence[Pair], width: int) -> list[Line]:
    """Names and figures on as many lines as they need."""
    lines: list[Line] = []
    left = 0
    for name, value in pairs:
        wanted = cell_len(name) + cell_len(value) + 4
        spans = (Span(f" {name} "), Span(f"{value}  ", "strong"))
        if lines and wanted <= left:
            lines[-1] = (*lines[-1], *spans)
        else:
            lines.append(spans)
            left = width
        left -= wanted
    return lines


def table_lines(
    rows: Sequence[VitolaDay | BuncherDay], closed: bool, width: int, words: Words
) -> list[Line]:
    """A row each; what a day that is open cannot tell is blank. Columns go from the right."""
    if not rows:
        return []
    cells = [words.output_columns, *(_cells(row, closed=closed) for row in rows)]
    sizes = sizes_of(cells)
    names = [_name(row) for row in rows]
    longest = max(map(cell_len, names), default=0)
    name = min(NAME_CELLS, longest)
    kept = len(sizes)
    while kept > 1 and name + 3 + sum(size + 2 for size in sizes[:kept]) > width:
        kept -= 1
    name = min(longest, width - 3 - sum(size + 2 for size in sizes[:kept]))
    head, *body = (figures(row[:kept], sizes[:kept]) for row in cells)
    lines: list[Line] = [(Span(f"  {fit('', name)}{head}", "faint"),)]
    for label, row in zip(names, body, strict=True):
        lines.append((Span(f"  {fit(label, name)}", "strong"), Span(row)))
    return lines


def _name(row: VitolaDay | BuncherDay) -> str:
    return row.vitola if isinstance(row, VitolaDay) else row.buncher


def _cells(row: VitolaDay | BuncherDay, *, closed: bool) -> tuple[str, ...]:
    first = "" if row.first_pass_yield is None else fixed(100 * row.first_pass_yield, 1)
    return (
        thousands(row.made),
        thousands(row.good),
        thousands(sum(row.rejected.values())),
        thousands(row.second),
        first,
        _kg(row.filler_kg_per_1000_good if closed else None),
        _kg(row.standard_kg_per_1000),
    )


def _kg(value: float | None) -> str:
    return "" if value is None else fixed(value, KG)
