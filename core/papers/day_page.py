"""The day's report as a page: what was made, what failed, where the leaf went, who stands out."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from core.day.report import BenchDay, DayReport, LeafDay, Output, StandOut
from core.desk.faces import LogLine
from core.desk.figures import fixed, percent
from core.house.model import Language
from core.papers.blocks import (
    Bar,
    Bars,
    Beside,
    Block,
    Column,
    Facts,
    Figure,
    Heading,
    Para,
    Points,
    Table,
)
from core.papers.page import html_page
from core.papers.words import Words, words_of

CHARTS = 12
"""Charts on a page; a room may have dozens of benches with a check out."""


class DayPaper(NamedTuple):
    """What the page tells: the report, charts of benches that stand out, entries made late."""

    report: DayReport
    charts: tuple[str, ...] = ()
    late: tuple[LogLine, ...] = ()


def day_html(paper: DayPaper, language: Language) -> str:
    """The day as one page of HTML."""
    words = words_of(language)
    return html_page(words.day.format(date=paper.report.date), list(_day(paper, words)), language)


def stand_out(report: DayReport) -> list[BenchDay]:
    """Benches with a check out of its window, the most first."""
    return sorted((b for b in report.benches if b.out), key=lambda b: -b.out)


def thousands(n: float, places: int = 0) -> str:
    """A figure; from five digits on with a blank every three, which no language misreads."""
    text = fixed(n, places)
    return f"{float(text):,.{places}f}".replace(",", "\u00a0") if abs(n) >= 10_000 else text


def _day(paper: DayPaper, words: Words) -> Iterator[Block]:
    report = paper.report
    yield Para(
        words.closed if report.closed else words.opened, "plain" if report.closed else "look"
    )
    yield from _totals(report, words)
    yield from _faults(report, words)
    if report.leaf:
        yield from _leaf(report.leaf, words)
    yield from _out(paper, words)
    yield from _output(report, words)
    if paper.late:
        yield from _late(paper.late, words)
    if report.notes:
        yield Heading(words.notes)
        yield Points(tuple(_note(n.bench, n.text, words) for n in report.notes))
    if report.warnings:
        yield Heading(words.look)
        yield Points(report.warnings, language="en")
    yield Heading(words.cautions_title)
    yield Points(words.cautions)


def _note(bench: int | str | None, text: str, words: Words) -> str:
    return text if bench is None else f"{words.bench} {bench}: {text}"


def _totals(report: DayReport, words: Words) -> Iterator[Block]:
    totals = report.totals
    pairs = [(name, thousands(getattr(totals, key))) for key, name in words.facts.items()]
    if totals.first_pass_yield is not None:
        pairs.append((words.first_time, percent(totals.first_pass_yield)))
    if not report.closed:
        pairs.append((words.leaf_yield, words.at_close))
    elif report.leaf_yield is not None:
        pairs.append((words.leaf_yield, percent(report.leaf_yield)))
    yield Facts(tuple(pairs))
    counted = words.counted.format(
        entries=thousands(report.entries), voided=thousands(report.voided)
    )
    yield Para(counted, "small")


def _faults(report: DayReport, words: Words) -> Iterator[Block]:
    yield Heading(words.faults)
    counts = sorted(report.faults().items(), key=lambda pair: (-pair[1], pair[0]))
    if not counts:
        yield Para(words.no_faults)
        return
    rows = tuple(Bar(words.fault(code), n, thousands(n), words.fate(code)) for code, n in counts)
    yield Bars(words.faults, rows)


def _leaf(rows: Sequence[LeafDay], words: Words) -> Iterator[Block]:
    """Bars of what is not in good cigars, all leaves on one scale; then every figure."""
    yield Heading(words.leaf)
    yield Para(words.leaf_note, "small")
    values = [getattr(row, part) for row in rows for part in words.parts]
    low, high = min(0.0, *values), max(0.0, *values)
    yield Beside(tuple(_bars(row, low, high, words) for row in rows))
    table = _leaf_table(rows, words)
    # Fourteen figures are wider than the paper.
    yield _only(table, range(LEAF_FIRST))
    yield _only(table, (0, *range(LEAF_FIRST, len(table.columns))))


def _bars(row: LeafDay, low: float, high: float, words: Words) -> Bars:
    bars = tuple(
        Bar(name, getattr(row, part), f"{thousands(getattr(row, part))} g")
        for part, name in words.parts.items()
    )
    title = words.leaf_of.format(leaf=row.leaf, used=thousands(row.used_standard_g))
    return Bars(title, bars, low, high, narrow=True)


_GRAMS = (
    "issued_g",
    "returned_g",
    "used_standard_g",
    "in_good_g",
    "in_seconds_g",
    "rejects_g",
    "heavy_g",
)


LEAF_FIRST = 6
"""Columns of the first leaf table: the leaf, what it was given, and what is in good cigars."""


def _only(table: Table, kept: Sequence[int]) -> Table:
    columns = tuple(table.columns[i] for i in kept)
    return Table(table.caption, columns, tuple(tuple(row[i] for i in kept) for row in table.rows))


def _leaf_table(rows: Sequence[LeafDay], words: Words) -> Table:
    names = words.columns | words.parts
    after = ("cuttings_g", "stem_g", "sweepings_g", "unexplained_g")
    columns = (
        Column(names["leaf"]),
        Column(names["class"]),
        *(Column(names[key], "g", right=True) for key in (*_GRAMS, "heavy_se_g", *after)),
        Column(names["told"]),
    )
    cells = tuple(
        (
            row.leaf,
            row.leaf_class,
            *(thousands(getattr(row, key)) for key in _GRAMS),
            "" if row.heavy_se_g is None else thousands(2 * row.heavy_se_g),
            *(thousands(getattr(row, key)) for key in after),
            "" if row.heavy_se_g is None else words.beyond if row.beyond else words.within,
        )
        for row in rows
    )
    return Table(words.leaf, columns, cells)


def _out(paper: DayPaper, words: Words) -> Iterator[Block]:
    yield Heading(words.out)
    if paper.report.standouts:
        yield Points(tuple(_why(each, words) for each in paper.report.standouts))
    out = stand_out(paper.report)
    if not out:
        yield Para(words.none_out)
        return
    yield _bench_table(words.out, out, words)
    if len(out) > len(paper.charts):
        yield Para(words.charts_left.format(n=len(paper.charts)), "small")
    yield from map(Figure, paper.charts)


def _why(each: StandOut, words: Words) -> str:
    says = words.reasons[each.reason].format(
        n=thousands(each.n),
        value="" if each.value is None else f"{each.value:+.2f}",
        share="" if each.value is None else percent(each.value),
        house="" if each.against is None else percent(each.against),
        vitola=each.vitola or "",
    )
    return f"{words.bench} {each.bench}: {says}"


def _bench_table(caption: str, benches: Sequence[BenchDay], words: Words) -> Table:
    names = words.columns | words.facts
    counts = (*words.facts, "checks", "out")
    columns = (
        *(Column(names[key]) for key in ("bench", "buncher", "vitola")),
        *(Column(names[key], right=True) for key in counts),
        Column(names["off"], "g", right=True),
    )
    rows = tuple(
        (
            *(str(b.bench), b.buncher or "", b.vitola, thousands(b.made), thousands(b.good)),
            *(thousands(sum(b.rejected.values())), thousands(b.rework)),
            *(str(b.checks), str(b.out)),
            "" if b.mean_deviation_g is None else f"{b.mean_deviation_g:+.2f}",
        )
        for b in benches
    )
    return Table(caption, columns, rows)


def _output(report: DayReport, words: Words) -> Iterator[Block]:
    busy = [b for b in report.benches if b.made or b.good or b.rejected or b.checks]
    if not busy:
        return
    yield Heading(words.benches)
    yield _bench_table(words.benches, busy, words)
    runs = [(b, run) for b in busy for run in b.runs]
    names = words.columns | words.facts
    yield Heading(words.output)
    yield _per_1000(words.output, "vitola", [(v.vitola, v) for v in report.by_vitola], words)
    yield _per_1000(words.output, "buncher", [(b.buncher, b) for b in report.by_buncher], words)
    yield Heading(words.runs)
    yield Para(words.runs_note, "small")
    columns = tuple(Column(names[key]) for key in ("bench", "buncher", "vitola", "blend"))
    yield Table(
        words.runs,
        (*columns, Column(names["good"], right=True)),
        tuple(
            (str(b.bench), b.buncher or "", run.vitola, run.blend, thousands(run.good))
            for b, run in runs
        ),
    )


def _per_1000(caption: str, by: str, rows: Sequence[tuple[str, Output]], words: Words) -> Table:
    """Good cigars and what they took of filler, against the standard, in both units."""
    names = words.columns | words.facts
    used, standard = names["used_1000"], names["standard_1000"]
    weights = ((used, "kg"), (standard, "kg"), (used, "lb"), (standard, "lb"))
    columns = (
        Column(names[by]),
        Column(names["made"], right=True),
        Column(names["good"], right=True),
        *(Column(name, unit, right=True) for name, unit in weights),
    )
    cells = tuple(
        (
            *(name, thousands(row.made), thousands(row.good)),
            *("" if value is None else fixed(value, 2) for value in _weights(row)),
        )
        for name, row in rows
    )
    return Table(f"{caption}: {names[by]}", columns, cells)


def _weights(row: Output) -> tuple[float | None, ...]:
    return (
        *(row.filler_kg_per_1000_good, row.standard_kg_per_1000),
        *(row.filler_lb_per_1000_good, row.standard_lb_per_1000),
    )


def _late(late: Sequence[LogLine], words: Words) -> Iterator[Block]:
    yield Heading(words.late)
    keys = ("entry", "at", "bench", "says")
    rows = tuple(
        (str(line.id), f"{line.at:%Y-%m-%d %H:%M}", line.bench or "", line.says) for line in late
    )
    yield Para(words.late_note, "small")
    yield Table(words.late, tuple(Column(words.columns[key]) for key in keys), rows)
