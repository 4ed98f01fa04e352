"""The day's report as a page: what was made, what failed, where the leaf went, who stands out."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import TYPE_CHECKING, NamedTuple

from core.day.report import DayReport
from core.desk.faces import BenchChart, LogLine
from core.house.model import Language
from core.papers import day_leaf, day_output, day_standouts
from core.papers.blocks import Bar, Bars, Block, Column, Facts, Heading, Para, Points, Table, Whole
from core.papers.figures import NONE, share, thousands
from core.papers.page import html_page
from core.papers.words import Words, words_of

if TYPE_CHECKING:
    from core.day.lots import LotState
    from core.day.pay import Pay


class DayPaper(NamedTuple):
    """What the page tells: the report, and what the day's records say besides.

    `charts` are of benches that stand out, `late` what was recorded after the first close, `lots`
    those that the day touched; money is in `currency`.
    """

    report: DayReport
    charts: Mapping[str, BenchChart]
    late: Sequence[LogLine] = ()
    lots: Sequence[LotState] = ()
    pay: Pay | None = None
    currency: str = ""


def day_html(paper: DayPaper, language: Language) -> str:
    """The day as one page of HTML."""
    words = words_of(language)
    return html_page(words.day.format(date=paper.report.date), list(_day(paper, words)), language)


def _day(paper: DayPaper, words: Words) -> Iterator[Block]:
    report = paper.report
    yield from _state(paper, words)
    yield from _totals(report, words)
    yield from _warnings(report, words)
    yield from _faults(report, words)
    if report.leaf:
        yield from day_leaf.leaf(report.leaf, words, closed=report.closed)
    yield from day_standouts.standing_out(report, paper.charts, words)
    yield from day_output.output(report, words)
    if report.split:
        yield from day_leaf.split(report.split, words, closed=report.closed)
    if paper.lots:
        yield from day_leaf.lots(paper.lots, words)
    if paper.pay is not None:
        yield from day_output.pay(paper.pay, paper.currency, words)
    if paper.late:
        yield from _late(paper.late, words)
    if report.notes:
        yield Heading(words.notes)
        yield Points(tuple(_note(n.bench, n.text, words) for n in report.notes))
    yield Whole((Heading(words.cautions_title), Points(words.cautions)))


def _state(paper: DayPaper, words: Words) -> Iterator[Block]:
    closed = paper.report.closed
    yield Para(words.closed if closed else words.opened, "plain" if closed else "look")
    if paper.report.late:
        yield Para(words.corrected.format(n=paper.report.late), "look")


def _note(bench: int | str | None, text: str, words: Words) -> str:
    return text if bench is None else f"{words.bench} {bench}: {text}"


def _totals(report: DayReport, words: Words) -> Iterator[Block]:
    totals = report.totals
    yield Facts(tuple((n, thousands(getattr(totals, key))) for key, n in words.facts.items()))
    facts = []
    if totals.first_pass_yield is not None:
        facts.append((words.first_time, share(totals.first_pass_yield)))
    if not report.closed:
        facts.append((words.leaf_yield, words.at_close))
    else:
        facts += _filler(report, words)
    yield Facts(tuple(facts))
    kept = ((words.entries, report.entries), (words.voided, report.voided))
    yield Para(", ".join(both[n != 1].format(n=thousands(n)) for both, n in kept), "small")


def _filler(report: DayReport, words: Words) -> Iterator[tuple[str, str]]:
    """What is known of the leaf once the day is closed."""
    totals = report.totals
    if report.leaf_yield is not None:
        yield words.leaf_yield, share(report.leaf_yield)
    if totals.filler_used_kg > 0:
        yield words.used_kg, f"{thousands(totals.filler_used_kg, 2)} kg"
    for name, kg, lb in (
        (words.used_1000, totals.filler_kg_per_1000_good, totals.filler_lb_per_1000_good),
        (words.standard_1000, totals.standard_kg_per_1000, totals.standard_lb_per_1000),
    ):
        if kg is not None and lb is not None:
            yield name, f"{thousands(kg, 2)} kg · {thousands(lb, 2)} lb"


def _warnings(report: DayReport, words: Words) -> Iterator[Block]:
    if report.warnings:
        yield Heading(words.look)
        yield Points(report.warnings)


def _faults(report: DayReport, words: Words) -> Iterator[Block]:
    yield Heading(words.faults)
    counts = sorted(report.faults().items(), key=lambda pair: (-pair[1], pair[0]))
    if not counts:
        yield Para(words.no_faults)
        return
    rows = tuple(Bar(words.fault(code), n, thousands(n), words.fate(code)) for code, n in counts)
    yield Bars(words.faults, rows, captioned=False)


def _late(late: Sequence[LogLine], words: Words) -> Iterator[Block]:
    yield Heading(words.late)
    yield Para(words.late_note, "small")
    keys = ("entry", "at", "bench", "says")
    rows = tuple(
        (str(line.id), f"{line.at:%Y-%m-%d %H:%M}", line.bench or NONE, _says(line, words))
        for line in late
    )
    yield Table(NONE, tuple(Column(words.columns[key]) for key in keys), rows)


def _says(line: LogLine, words: Words) -> str:
    says = words.tell(line.says)
    return says if line.voided_by is None else f"{says} ({words.void.format(by=line.voided_by)})"
