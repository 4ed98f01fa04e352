"""The Chart as lines: the verdict, the plot, and the figures behind both."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from core.control.advice import LEAST_CHECKS as LEAST_TO_ADVISE
from core.control.capability import LEAST_READINGS, Bounded, Unjudged, fit
from core.control.limits import LEAST_CHECKS, SETTLED_CHECKS
from core.desk.advice import FITS, kilograms
from core.desk.dates import short_date
from core.desk.faces import BenchChart, ChartPoint, OpenCheck
from core.desk.figures import decimals, fixed, places_of, unit_of
from core.desk.picture import RULES, letters, spots
from core.entry.words import FORMS
from core.sketch.chart import Spot, signed
from floor.looks.figures import CUTS, big
from floor.looks.plot import HEADS, plot, room_for
from floor.looks.spans import BLANK, Ink, Line, Span, beside, joined, packed, width_of, wrap
from floor.looks.words import Words

LEAST_PLOT = 9
"""Rows of the plot under which the page runs over instead."""
ROOMY = 11
"""Rows it has before there is a lower plot, or a key to the signs."""
TALLEST_PLOT = 21
LOWER_PLOT = 7
"""Rows of the lower plot."""
WIDE, TALL = 110, 30
"""Cells and rows from which the mean stands in big digits beside the words."""
GAP = 4
MOST_NUMBERS = 20
VERDICT_INKS: dict[str, Ink] = {
    "heavy": "heavy",
    "light": "light",
    "noise": "within",
    "too_few": "strong",
}


def chart_lines(
    chart: BenchChart, check: OpenCheck | None, words: Words, width: int, height: int
) -> list[Line]:
    """The page, its plot as tall as the rest of it leaves room for."""
    if not chart.points:
        return [*_none_yet(chart, words, width), *_open(check, chart.division, words, width)]
    shown = chart.points[-room_for(width) :]
    wide = width >= WIDE and height >= TALL
    above = _figure_and_facts(chart, words, width) if wide else _said(chart, words, width)
    below = [*_rules(shown, words, width), *_open(check, chart.division, words, width)]
    below += [] if wide else _figures(chart, words, width)
    key = _told(words.chart_key, width, "faint")
    room = height - len(above) - len(below)
    lower = _lower(chart, shown, words, width) if room - len(key) >= ROOMY + LOWER_PLOT else []
    room -= len(lower)
    if room - len(key) < ROOMY:
        key = []
    upper = plot(
        _spots(shown, words),
        window=(chart.low, chart.high),
        target=words.target,
        places=_places(chart),
        size=(width, min(TALLEST_PLOT, max(LEAST_PLOT, room - len(key)))),
    )
    return [*above, *upper, *lower, *below, *key]


def _said(chart: BenchChart, words: Words, width: int) -> list[Line]:
    return [*_verdict(chart, words, width), _about(chart, words, width)]


def _figures(chart: BenchChart, words: Words, width: int) -> list[Line]:
    """The last checks, capability, and what is odd about the scale."""
    return [
        _numbers(chart, words, width),
        *_told(_capability(chart, words), width),
        *(row for text in chart.found for row in _told(words.tell(text), width, "wrong")),
    ]


def _figure_and_facts(chart: BenchChart, words: Words, width: int) -> list[Line]:
    """The mean in digits to be read from afar, and beside it all that is told in words."""
    by = chart.judged.per_bunch
    if by is None:
        return [*_said(chart, words, width), *_figures(chart, words, width), BLANK]
    shown = _signed(by.mean_g, chart).lstrip("+")
    unit = _unit(chart, words)
    title = words.off_target.format(unit=unit)
    if (side := words.states.get(chart.judged.verdict)) is not None:
        shown, title = shown.lstrip("-"), f"{side}, {unit}"
    digits = [(Span(" "), *row) for row in big(shown, CUTS[0])]
    figure: list[Line] = [(Span(f" {title}", VERDICT_INKS[chart.judged.verdict]),), *digits]
    cells = max(map(width_of, figure))
    right = width - cells - 2 * GAP
    facts = [*_said(chart, words, right), *_figures(chart, words, right)]
    return [*beside([figure, facts], [cells, right], GAP), BLANK]


def _places(chart: BenchChart) -> int:
    """Decimals of a mean: one more than the scale has."""
    return decimals(chart.division) + 1


def _unit(chart: BenchChart, words: Words) -> str:
    return words.tell(unit_of(chart.measure, chart.draw))


def _signed(value: float, chart: BenchChart) -> str:
    return signed(value, _places(chart))


def _told(text: str, width: int, ink: Ink = "plain") -> list[Line]:
    return [(Span(f" {row}", ink),) for row in wrap(text, width - 2)]


# -- what it says -----------------------------------------------------------------------------


def _none_yet(chart: BenchChart, words: Words, width: int) -> list[Line]:
    none, rest = words.no_chart
    none = none.format(measure=words.measures[chart.measure])
    rest = rest.format(example=_example(chart, words), least=LEAST_CHECKS)
    return [BLANK, *_told(none, width, "strong"), BLANK, *_told(rest, width), BLANK]


def _example(chart: BenchChart, words: Words) -> str:
    """A check of the measure as it is typed from anywhere."""
    if chart.measure == "bunch":
        return f"{chart.bench} 15.3 15.6 15.4"  # bunches need no word
    typed = next(form.examples[0].typed for form in FORMS if form.means == chart.measure)
    _, _, rest = words.tell(typed).partition(" ")
    return f"{chart.bench} {rest}"


def _verdict(chart: BenchChart, words: Words, width: int) -> list[Line]:
    """Whether the bench is off target, what that costs, and the worst its last check broke."""
    judged = chart.judged
    parts = [_standing(chart, words)]
    if judged.per_week is not None and judged.verdict in words.a_week:
        grams = kilograms(abs(judged.per_week.mean_g))
        parts.append(words.a_week[judged.verdict].format(grams=grams))
    last = letters(chart.points[-1])
    if last:
        parts.append(words.now_broken.format(rule=_names(words)[last[0]]))
    ink = VERDICT_INKS[judged.verdict]
    return [row for part in packed(parts, width - 2) for row in _told(part, width, ink)]


def _standing(chart: BenchChart, words: Words) -> str:
    judged = chart.judged
    by = judged.per_bunch
    if by is None:
        return words.too_few.format(n=judged.checks, needs=LEAST_TO_ADVISE)
    mean = _signed(by.mean_g, chart)
    return words.packs[judged.verdict].format(
        mean=mean if judged.verdict == "noise" else mean.lstrip("+-"),
        unit=_unit(chart, words),
        low=_signed(by.low_g, chart),
        high=_signed(by.high_g, chart),
        n=judged.checks,
    )


def _about(chart: BenchChart, words: Words, width: int) -> Line:
    """What is charted, and where its limits come from."""
    source = words.no_limits
    if chart.source is not None:
        source = words.limits_from[chart.source].format(n=chart.baseline, settled=SETTLED_CHECKS)
    what = f"{words.measures[chart.measure]}, {_unit(chart, words)}"
    parts = [what, f"{chart.vitola} {chart.blend}", source]
    return (Span(f" {joined(parts, width - 2)}", "plain"),)


def _rules(points: Sequence[ChartPoint], words: Words, width: int) -> list[Line]:
    """What is broken in the plot, by letter and name."""
    there = {letter for point in points for letter in letters(point)}
    named = [f"{letter} {name}" for letter, name in _names(words).items() if letter in there]
    ink: Ink = "wrong" if named else "plain"
    rows = packed(named or [words.none_broken], width - 2)
    return [(Span(" "), Span(row, ink)) for row in rows]


def _names(words: Words) -> dict[str, str]:
    """What each letter under a check stands for, the most pressing first."""
    return dict(zip(RULES, words.rules.values(), strict=True))


def _open(check: OpenCheck | None, division: float, words: Words, width: int) -> list[Line]:
    """The check that still waits for readings, as they land."""
    if check is None:
        return []
    places = places_of(check.measure, division)
    text = words.reading.format(
        measure=words.measures[check.measure],
        readings="  ".join(fixed(reading, places) for reading in check.readings),
        left=words.to_go.format(n=check.needs - len(check.readings)),
    )
    return _told(text, width, "strong")


def _numbers(chart: BenchChart, words: Words, width: int) -> Line:
    """The last checks' deviations, newest first, each with its time and its shape if out;
    the date where a day before begins.
    """
    room = width - 2 - len(words.last_checks) - 1
    newest: list[str] = []
    day = chart.points[-1].day
    for point in reversed(chart.points[-MOST_NUMBERS:]):
        date = "" if point.day == day else f"{_day(point, words)} "
        day = point.day
        newest.append(f"{date}{point.at:%H:%M} {_signed(point.deviation, chart)}{_shape(point)}")
    return (Span(f" {words.last_checks} "), Span(joined(newest, room, between="  "), "strong"))


def _shape(point: ChartPoint) -> str:
    if point.low <= point.deviation <= point.high:
        return ""
    return f" {HEADS['above' if point.deviation > point.high else 'below']}"


def _capability(chart: BenchChart, words: Words) -> str:
    found = chart.capability
    if isinstance(found, Unjudged):
        few = found.why == "too_few"
        text = words.capability_few if few else words.capability_none
        return text.format(n=found.readings, needs=LEAST_READINGS)
    cpk, low, high = (fixed(value, 2) for value in _three(found.cpk))
    return words.capability.format(
        fits=words.tell(FITS[fit(found)]),
        cpk=cpk,
        low=low,
        high=high,
        cp=fixed(found.cp.value, 2),
        n=found.readings,
    )


def _three(bounded: Bounded) -> tuple[float, float, float]:
    return bounded.value, bounded.low, bounded.high


# -- what it draws ----------------------------------------------------------------------------


def _spots(points: Sequence[ChartPoint], words: Words) -> list[Spot]:
    return spots(points, [_day(point, words) for point in points])


def _day(point: ChartPoint, words: Words) -> str:
    return words.tell(short_date(point.day))


def _lower(chart: BenchChart, shown: Sequence[ChartPoint], words: Words, width: int) -> list[Line]:
    """The spread within checks; of single readings, which have none, the running average."""
    unit = _unit(chart, words)
    spots = [*_spreads(shown)]
    title, target = words.spread if chart.spread == "deviation" else words.range, "0"
    if len(spots) < len(shown):
        spots = [Spot(p.ewma, p.ewma_low, p.ewma_high) for p in shown]
        title, target = words.average, words.target
    lower = plot(
        spots,
        window=None,
        target=target,
        places=_places(chart),
        size=(width, LOWER_PLOT - 1),
        feet=False,
    )
    return [(Span(f" {title.format(unit=unit)}", "faint"),), *lower]


def _spreads(points: Sequence[ChartPoint]) -> Iterator[Spot]:
    for point in points:
        if point.spread is not None:
            yield Spot(point.spread, None, point.spread_high)
