"""A day's report as lines of text."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from core.day.report import DayReport, LeafDay, Output
from core.desk.faces import LogLine
from core.desk.figures import fixed, percent
from core.papers.day_standouts import reason
from core.papers.words import words_of
from core.say import joined, say, say_as, say_many
from floor.commands import out

_LEAF_HEAD: tuple[str, ...] = (
    *(say("leaf"), say_as("column", "issued"), say_as("column", "returned")),
    *(
        say_as("column", "used"),
        say_as("column", "in good"),
        say("rejects"),
        say_as("column", "heavy"),
    ),
    *(say("±2 se"), say("cuttings")),
)
_OUTPUT_HEAD = (
    *(say("made"), say("good"), say_as("column", "rejected"), say("seconds"), say("first pass")),
    *("kg/1,000", "lb/1,000", say("standard kg"), "lb"),
)
_BENCH_HEAD = (
    *(say("bench"), say("pair"), say("vitola"), say("made"), say("good")),
    *(say_as("column", "rejected"), say("checks"), say("out"), say("off g")),
)

_ALSO = {
    "in_seconds_g": say("{grams} g in seconds"),
    "stem_g": say("{grams} g stem"),
    "sweepings_g": say("{grams} g sweepings"),
}
"""Where little of the leaf goes; --html and --csv have it by leaf and bench."""


def day_lines(report: DayReport, late: Sequence[LogLine]) -> Iterator[str]:
    """The whole day; `late` is what was recorded since it was first closed."""
    yield from _made(report)
    yield from _benches(report)
    yield from _by(
        say("By vitola"),
        say("vitola"),
        ((v.vitola, v, v.rejected) for v in report.by_vitola),
        report,
    )
    yield from _by(
        say("By pair"), say("pair"), ((b.buncher, b, b.rejected) for b in report.by_buncher), report
    )
    yield from _standing_out(report)
    yield from _leaf(report)
    for note in report.notes:
        if note.bench is None:
            yield say("note: {note}", note=note.text)
        else:
            yield say("note, bench {bench}: {note}", bench=note.bench, note=note.text)
    yield from _late(report, late)
    for warning in report.warnings:
        yield say("look: {says}", says=warning)


def _made(report: DayReport) -> Iterator[str]:
    totals = report.totals
    state = (
        say("{date}, closed, {entries} entries, {voided} void")
        if report.closed
        else say("{date}, open, {entries} entries, {voided} void")
    )
    yield state.format(date=report.date, entries=report.entries, voided=report.voided)
    yield say(
        "made {made}, good {good}, rejected {rejected}, reworked {rework}, first-pass yield "
        "{share}",
        made=totals.made,
        good=totals.good,
        rejected=totals.rejected,
        rework=totals.rework,
        share=_share(totals.first_pass_yield),
    )
    yield say(
        "seconds {second}, on hold {held}, for workers {workers}, for the panel {panel}",
        second=totals.second,
        held=totals.held,
        workers=totals.workers,
        panel=totals.panel,
    )
    faults = sorted(report.faults().items(), key=lambda item: (-item[1], item[0]))
    if faults:
        words = words_of(out.language())
        rows = ((words.fault(code), str(n), words.fate(code)) for code, n in faults)
        yield say("Rejects by fault")
        yield out.table([(say("fault"), say("rejected"), ""), *rows], right=frozenset({1}))


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
    yield say("Counts by bench")
    yield out.table([_BENCH_HEAD, *rows], right=frozenset(range(3, 9)))


def _by(
    title: str, what: str, each: Iterable[tuple[str, Output, dict[str, int]]], report: DayReport
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
        yield title
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
        says = reason(each, words_of(out.language())).replace("\u00a0", " ")
        yield say("bench {bench} stands out: {says}", bench=each.bench, says=says)


def _leaf(report: DayReport) -> Iterator[str]:
    if report.leaf:
        yield say(
            "Where the leaf went, grams at standard moisture (issued and returned as weighed)"
        )
        rest = say_as("column", "unexplained") if report.closed else say("on benches")
        leaves = [(*_LEAF_HEAD, rest), *map(_leaf_row, report.leaf)]
        yield out.table(leaves, right=frozenset(range(1, 10)))
        others = [(says, sum(getattr(r, key) for r in report.leaf)) for key, says in _ALSO.items()]
        if any(grams for _, grams in others):
            parts = (says.format(grams=fixed(grams, 0)) for says, grams in others if grams)
            yield say("also: {parts}", parts=joined(", ", parts))
    totals = report.totals
    used = _weight(totals.filler_kg_per_1000_good, totals.filler_lb_per_1000_good)
    standard = _weight(totals.standard_kg_per_1000, totals.standard_lb_per_1000)
    if report.closed and used and standard:
        yield say(
            "filler for 1,000 good cigars {used}, standard {standard}", used=used, standard=standard
        )
    if report.closed:
        yield say("leaf yield {share}", share=_share(report.leaf_yield))
    else:
        yield say("leaf yield known at the close")


def _leaf_row(row: LeafDay) -> tuple[str, ...]:
    grams = (row.issued_g, row.returned_g, row.used_standard_g, row.in_good_g, row.rejects_g)
    error = "" if row.heavy_se_g is None else fixed(2 * row.heavy_se_g, 0)
    loose = fixed(row.unexplained_g, 0)
    return (
        row.leaf,
        *(fixed(g, 0) for g in grams),
        fixed(row.heavy_g, 0),
        error,
        fixed(row.cuttings_g, 0),
        say("{grams} beyond", grams=loose) if row.beyond else loose,
    )


def _weight(kg: float | None, lb: float | None) -> str:
    return "" if kg is None or lb is None else f"{fixed(kg, 2)} kg ({fixed(lb, 2)} lb)"


def _late(report: DayReport, late: Sequence[LogLine]) -> Iterator[str]:
    """How often the day was opened again, and everything that was recorded since its close."""
    if not report.reopened:
        return
    times = say_many(report.reopened, "opened again once", "opened again {n} times")
    entries = say_many(
        report.late, "1 entry after the first close", "{n} entries after the first close"
    )
    yield say("{times}, {entries}:", times=times, entries=entries)
    for line in late:
        who = f"{line.terminal} {line.who or ''}".rstrip()
        says = joined("  ", ("", str(line.id), f"{line.at:%Y-%m-%d %H:%M}", who, line.says))
        if line.voided_by is None:
            yield says
        else:
            yield say("{says} (void by {by})", says=says, by=line.voided_by)


def _share(share: float | None) -> str:
    return say("not known yet") if share is None else percent(share)
