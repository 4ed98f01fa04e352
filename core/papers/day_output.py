"""The day's output as tables: counts, yields, filler for 1,000, and counts for piece rates."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from core.day.report import BenchDay, DayReport, Output, Totals
from core.papers.blocks import Block, Column, Heading, Para, Table
from core.papers.figures import NONE, known, share, signed, thousands
from core.papers.words import Words

if TYPE_CHECKING:
    from core.day.pay import Pay, PayLine

_AFTER = ("rework", "second", "held", "workers", "panel")


def output(report: DayReport, words: Words) -> Iterator[Block]:
    """By bench, by vitola, and by buncher where one has several benches."""
    busy = [bench for bench in report.benches if _busy(bench)]
    if not busy:
        return
    yield Heading(words.benches)
    yield _counts(busy, report.totals, words)
    if not report.closed:
        yield Para(words.open_yields, "small")
    yield _yields(busy, report, words)
    yield Heading(words.output)
    by_vitola = [(each.vitola, sum(each.rejected.values()), each) for each in report.by_vitola]
    yield _by("vitola", by_vitola, report, words)
    bunchers = [bench.buncher for bench in busy if bench.buncher is not None]
    if len(set(bunchers)) < len(bunchers):
        by_buncher = [(b.buncher, sum(b.rejected.values()), b) for b in report.by_buncher]
        yield _by("buncher", by_buncher, report, words)


def _busy(bench: BenchDay) -> bool:
    counted = bench.made or bench.good or bench.second or bench.held or bench.filler_used_kg
    return bool(counted or bench.rejected or bench.checks)


def rolled(bench: BenchDay) -> str:
    """What the bench rolled, in the order first met."""
    return ", ".join(dict.fromkeys(run.vitola for run in bench.runs)) or bench.vitola


def _counts(benches: Sequence[BenchDay], totals: Totals, words: Words) -> Table:
    names = {**words.columns, **words.facts}
    columns = (
        *(Column(names[key]) for key in ("bench", "buncher", "vitola")),
        *(Column(name, right=True) for name in words.facts.values()),
    )
    rows = tuple(
        (str(b.bench), b.buncher or NONE, rolled(b), *_counted(b, sum(b.rejected.values())))
        for b in benches
    )
    last = (words.total, NONE, NONE, *_counted(totals, totals.rejected))
    return Table(words.counts, columns, rows, (last,))


def _counted(of: Output, rejected: int) -> Iterator[str]:
    """The figures under the names of `words.facts`."""
    yield from map(thousands, (of.made, of.good, rejected))
    yield from (thousands(getattr(of, key)) for key in _AFTER)


def _yields(benches: Sequence[BenchDay], report: DayReport, words: Words) -> Table:
    names = words.columns
    columns = (
        *(Column(names[key]) for key in ("bench", "vitola")),
        *_yield_columns(words),
        *(Column(names[key], right=True) for key in ("checks", "out")),
        Column(names["off"], "g", right=True),
    )
    rows = tuple(
        (
            *(str(b.bench), rolled(b), *_yielded(b, closed=report.closed)),
            *(str(b.checks), str(b.out), signed(b.mean_deviation_g, 2)),
        )
        for b in benches
    )
    checked = (sum(b.checks for b in benches), sum(b.out for b in benches))
    whole = _yielded(report.totals, closed=report.closed)
    last = (words.total, NONE, *whole, *map(thousands, checked), NONE)
    return Table(words.yields, columns, rows, (last,))


def _yield_columns(words: Words) -> Iterator[Column]:
    names = words.columns
    yield from (Column(names[key], right=True) for key in ("first", "yield"))
    for unit in ("kg", "lb"):
        yield from (Column(names[key], unit, right=True) for key in ("used_1000", "standard_1000"))


def _yielded(of: Output, *, closed: bool) -> Iterator[str]:
    """Of an open day nothing is told that what lies on the benches would falsify."""
    yield share(of.first_pass_yield)
    yield share(of.leaf_yield) if closed else NONE
    for used, standard in (
        (of.filler_kg_per_1000_good, of.standard_kg_per_1000),
        (of.filler_lb_per_1000_good, of.standard_lb_per_1000),
    ):
        yield known(used, 2) if closed else NONE
        yield known(standard, 2)


def _by(by: str, rows: Sequence[tuple[str, int, Output]], report: DayReport, words: Words) -> Table:
    names = {**words.columns, **words.facts}
    columns = (
        Column(names[by]),
        *(Column(names[key], right=True) for key in ("made", "good", "rejected", "second")),
        *_yield_columns(words),
    )

    def cells(of: Output, rejected: int) -> Iterator[str]:
        yield from map(thousands, (of.made, of.good, rejected, of.second))
        yield from _yielded(of, closed=report.closed)

    totals = report.totals
    return Table(
        names[by] if by == "buncher" else NONE,
        columns,
        tuple((name, *cells(of, rejected)) for name, rejected, of in rows),
        ((words.total, *cells(totals, totals.rejected)),),
    )


def pay(counted: Pay, currency: str, words: Words) -> Iterator[Block]:
    """Accepted cigars times the rate, and beside it what a house may take off."""
    if not counted.lines:
        return
    names = words.columns
    yield Heading(words.pay)
    yield Para(words.pay_note.format(currency=currency), "small")
    if any(line.rate_per_1000 is None for line in counted.lines):
        yield Para(words.no_rate, "small")
    columns = (
        *(Column(names[key]) for key in ("buncher", "roller", "vitola")),
        *(Column(names[key], right=True) for key in ("accepted", "rate", "amount")),
        Column(names["not_mended"], right=True),
        Column(words.facts["second"], right=True),
    )
    lines = counted.lines
    sums = (
        *(thousands(sum(line.accepted for line in lines)), NONE, thousands(counted.amount, 2)),
        thousands(sum(line.not_mended for line in lines)),
        thousands(sum(line.second for line in lines)),
    )
    last = (words.total, NONE, NONE, *sums)
    yield Table(NONE, columns, tuple(map(_pay, lines)), (last,))


def _pay(line: PayLine) -> tuple[str, ...]:
    return (
        *(line.buncher, line.roller, line.vitola, thousands(line.accepted)),
        *(known(line.rate_per_1000, 2), known(line.amount, 2)),
        *(thousands(line.not_mended), thousands(line.second)),
    )
