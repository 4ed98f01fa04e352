"""A day's report as lines of text."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from core.day.report import DayReport, LeafDay, Output
from core.desk.faces import LogLine
from core.desk.figures import fixed, percent
from core.papers.day_standouts import reason
from core.papers.words_en import ENGLISH
from floor.commands import out

_LEAF_HEAD: tuple[str, ...] = (
    "leaf", "issued", "returned", "used", "in good", "rejects", "heavy", "±2 se", "cuttings",
    "unexplained",
)  # fmt: skip
_OUTPUT_HEAD = (
    "made", "good", "rejected", "seconds", "first pass", "kg/1,000", "lb/1,000", "standard kg",
    "lb",
)  # fmt: skip
_BENCH_HEAD = ("bench", "pair", "vitola", "made", "good", "rejected", "checks", "out", "off g")

_ALSO = {"in_seconds_g": "in seconds", "stem_g": "stem", "sweepings_g": "sweepings"}
"""Where little of the leaf goes; --html and --csv have it by leaf and bench."""


def day_lines(report: DayReport, late: Sequence[LogLine]) -> Iterator[str]:
    """The whole day; `late` is what was recorded since it was first closed."""
    yield from _made(report)
    yield from _benches(report)
    yield from _by("vitola", ((v.vitola, v, v.rejected) for v in report.by_vitola), report)
    yield from _by("pair", ((b.buncher, b, b.rejected) for b in report.by_buncher), report)
    yield from _standing_out(report)
    yield from _leaf(report)
    for note in report.notes:
        yield f"note{'' if note.bench is None else f', bench {note.bench}'}: {note.text}"
    yield from _late(report, late)
    for warning in report.warnings:
        yield f"look: {warning}"


def _made(report: DayReport) -> Iterator[str]:
    totals = report.totals
    state = "closed" if report.closed else "open"
    yield f"{report.date}, {state}, {report.entries} entries, {report.voided} void"
    yield (
        f"made {totals.made}, good {totals.good}, rejected {totals.rejected}, "
        f"reworked {totals.rework}, first-pass yield {_share(totals.first_pass_yield)}"
    )
    yield (
        f"seconds {totals.second}, on hold {totals.held}, for workers {totals.workers}, "
        f"for the panel {totals.panel}"
    )
    faults = sorted(report.faults().items(), key=lambda item: -item[1])
    if faults:
        rows = ((code, str(n), ENGLISH.fate(code)) for code, n in faults)
        yield out.table([("fault", "rejected", ""), *rows], right=frozenset({1}))


def _benches(report: DayReport) -> Iterator[str]:
    busy = [b for b in report.benches if b.made or b.good or b.rejected or b.checks]
    if not busy:
        return
    rows = (
        (
            str(b.bench),
            b.buncher or "",
            b.vitola,
            str(b.made),
            str(b.good),
            str(sum(b.rejected.values())),
            str(b.checks),
            str(b.out),
            "" if b.mean_deviation_g is None else f"{b.mean_deviation_g:+.2f}",
        )
        for b in busy
    )
    yield out.table([_BENCH_HEAD, *rows], right=frozenset(range(3, 9)))


def _by(
    what: str, each: Iterable[tuple[str, Output, dict[str, int]]], report: DayReport
) -> Iterator[str]:
    """Output by vitola or pair; of an open day no filler, for some still lies on the benches."""
    rows = [
        (name, *_output(of, sum(rejected.values()), closed=report.closed))
        for name, of, rejected in each
        if of.made or of.good or of.second or rejected
    ]
    if rows:
        columns = len(rows[0])
        head = (what, *_OUTPUT_HEAD)[:columns]
        yield out.table([head, *rows], right=frozenset(range(1, columns)))


def _output(of: Output, rejected: int, *, closed: bool) -> tuple[str, ...]:
    counts = (*map(str, (of.made, of.good, rejected, of.second)),)
    first = "" if of.first_pass_yield is None else percent(of.first_pass_yield)
    if not closed:
        return (*counts, first)
    filler = (
        of.filler_kg_per_1000_good,
        of.filler_lb_per_1000_good,
        of.standard_kg_per_1000,
        of.standard_lb_per_1000,
    )
    return (*counts, first, *("" if weight is None else fixed(weight, 2) for weight in filler))


def _standing_out(report: DayReport) -> Iterator[str]:
    for each in report.standouts:
        says = reason(each, ENGLISH).replace("\u00a0", " ")
        yield f"bench {each.bench} stands out: {says}"


def _leaf(report: DayReport) -> Iterator[str]:
    if report.leaf:
        yield "leaf, grams at standard moisture (issued and returned as weighed)"
        leaves = [_LEAF_HEAD, *map(_leaf_row, report.leaf)]
        yield out.table(leaves, right=frozenset(range(1, 10)))
        others = {name: sum(getattr(r, key) for r in report.leaf) for key, name in _ALSO.items()}
        if any(others.values()):
            yield "also: " + ", ".join(f"{fixed(g, 0)} g {name}" for name, g in others.items() if g)
    totals = report.totals
    used = _weight(totals.filler_kg_per_1000_good, totals.filler_lb_per_1000_good)
    standard = _weight(totals.standard_kg_per_1000, totals.standard_lb_per_1000)
    if report.closed and used and standard:
        yield f"filler for 1,000 good cigars {used}, standard {standard}"
    yield f"leaf yield {_share(report.leaf_yield)}"


def _leaf_row(row: LeafDay) -> tuple[str, ...]:
    grams = (row.issued_g, row.returned_g, row.used_standard_g, row.in_good_g, row.rejects_g)
    error = "" if row.heavy_se_g is None else fixed(2 * row.heavy_se_g, 0)
    beyond = " beyond" if row.beyond else ""
    return (
        row.leaf,
        *(fixed(g, 0) for g in grams),
        fixed(row.heavy_g, 0),
        error,
        fixed(row.cuttings_g, 0),
        fixed(row.unexplained_g, 0) + beyond,
    )


def _weight(kg: float | None, lb: float | None) -> str:
    return "" if kg is None or lb is None else f"{fixed(kg, 2)} kg ({fixed(lb, 2)} lb)"


def _late(report: DayReport, late: Sequence[LogLine]) -> Iterator[str]:
    """How often the day was opened again, and everything that was recorded since its close."""
    if not report.reopened:
        return
    times = "once" if report.reopened == 1 else f"{report.reopened} times"
    entries = f"{report.late} {'entry' if report.late == 1 else 'entries'}"
    yield f"opened again {times}, {entries} after the first close:"
    for line in late:
        void = "" if line.voided_by is None else f" (void by {line.voided_by})"
        who = f"{line.terminal} {line.who or ''}".rstrip()
        yield f"  {line.id}  {line.at:%Y-%m-%d %H:%M}  {who}  {line.says}{void}"


def _share(share: float | None) -> str:
    return "not known yet" if share is None else percent(share)
