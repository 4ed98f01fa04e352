"""The benches that stand out: each with its reasons in sentences, and its control chart."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from core.day.report import DayReport, StandOut
from core.desk.dates import short_date
from core.desk.faces import BenchChart
from core.desk.figures import unit_of
from core.desk.picture import letters, spots
from core.papers.blocks import Block, Figure, Heading, Para, Points, Whole
from core.papers.figures import NONE, known, share, thousands
from core.papers.words import Words
from core.sketch.chart import picture
from core.sketch.svg import Labels, svg

CHARTS = 12
"""Charts on a page; a room may have dozens of benches with a check out."""
LATEST = 16
"""Checks on a chart of the page: more, and the letters under them run together."""


def to_chart(report: DayReport) -> list[str]:
    """The benches whose charts the page shows: those that stand out, then those with checks out."""
    out = sorted((b for b in report.benches if b.out), key=lambda b: -b.out)
    found = [*(each.bench for each in report.standouts), *(bench.bench for bench in out)]
    return list(dict.fromkeys(map(str, found)))[:CHARTS]


def standing_out(
    report: DayReport, charts: Mapping[str, BenchChart], words: Words
) -> Iterator[Block]:
    """A part for each bench that is charted; the others that stand out in a sentence each."""
    yield Heading(words.out)
    reasons: dict[str, list[str]] = {}
    for each in report.standouts:
        reasons.setdefault(str(each.bench), []).append(reason(each, words))
    shown = to_chart(report)
    if not shown:
        yield Para(words.none_out)
        return
    yield Para(words.out_note, "small")
    out = {str(bench.bench): bench for bench in report.benches}
    for number in shown:
        says = list(reasons.get(number, ()))
        if number in out and out[number].out:
            bench = out[number]
            says.append(words.checks_out.format(out=bench.out, n=bench.checks))
        chart = charts.get(number)
        heading = Heading(f"{words.bench} {number}", 3)
        if chart is None:
            yield Whole((heading, Points((*says, words.no_chart))))
        else:
            yield Whole((heading, Points(tuple(says)), drawn(chart, words)))
    yield from _rules(charts.values(), words)
    left = [f"{words.bench} {n}: {says}" for n in reasons if n not in shown for says in reasons[n]]
    if left:
        yield Para(words.charts_left.format(n=len(shown)), "small")
        yield Points(tuple(left))


def reason(each: StandOut, words: Words) -> str:
    """Why a bench stands out, as a sentence."""
    return words.reasons[each.reason].format(
        n=thousands(each.n),
        value=NONE if each.value is None else known(abs(each.value), 2),
        share=share(each.value),
        house=share(each.against),
        against=known(each.against, 2),
        vitola=each.vitola or "",
    )


def drawn(chart: BenchChart, words: Words) -> Figure:
    """The bench's last checks as a picture in the words' language."""
    points = chart.points[-LATEST:]
    laid = picture(
        spots(points, [words.tell(short_date(point.day)) for point in points]),
        window=(chart.low, chart.high),
    )
    measure = words.measures[chart.measure]
    title = words.chart.format(
        bench=chart.bench, vitola=chart.vitola, blend=chart.blend, measure=measure
    )
    unit = words.tell(unit_of(chart.measure, chart.draw))
    description = "; ".join(
        f"{words.tell(short_date(point.day))} {point.at:%H:%M} {point.deviation:+.2f}"
        for point in points
    )
    return Figure(svg(laid, Labels(title, description, **words.lines, unit=unit)))


def _rules(charts: Iterable[BenchChart], words: Words) -> Iterator[Block]:
    """What the letters under the checks stand for."""
    shown = (point for chart in charts for point in chart.points[-LATEST:])
    broken = {letter for point in shown for letter in letters(point)}
    if broken:
        told = (f"{letter}: {name}" for letter, name in words.rules.items() if letter in broken)
        yield Para("; ".join(told), "small")
