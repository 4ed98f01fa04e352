"""A bench's chart as the picture that the floor and reports draw."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence

from core.desk.dates import short_date
from core.desk.faces import BenchChart, ChartPoint
from core.desk.figures import unit_of
from core.measure import MEASURES
from core.say import joined, say
from core.sketch.chart import Spot, picture
from core.sketch.svg import Labels, svg

RULES = {
    "A": say("mean beyond a limit"),
    "B": say("readings too far apart"),
    "C": say("2 of 3 near a limit"),
    "D": say("4 of 5 off to one side"),
    "E": say("8 on one side of target"),
    "F": say("6 rising or falling"),
}
"""What each letter under a check stands for, the most pressing first."""


def letters(point: ChartPoint) -> str:
    """A letter a rule; beyond a limit is two, one of the mean and one of the spread."""
    mean_out = not point.low <= point.deviation <= point.high
    spread_out = point.spread is not None and point.spread > (point.spread_high or math.inf)
    broken = {
        "A": "beyond" in point.broke and mean_out,
        "B": "beyond" in point.broke and spread_out,
        "C": "two_of_three" in point.broke,
        "D": "four_of_five" in point.broke,
        "E": "one_side" in point.broke,
        "F": "run" in point.broke,
    }
    return "".join(letter for letter, holds in broken.items() if holds)


def spots(points: Sequence[ChartPoint], day_names: Sequence[str]) -> list[Spot]:
    """The checks' means, each with its limits, its letters and the name of its day."""
    return [
        Spot(point.deviation, point.low, point.high, letters(point), name)
        for point, name in zip(points, day_names, strict=True)
    ]


def chart_svg(chart: BenchChart, tell: Callable[[str], str] = str) -> str:
    """The chart as a small SVG document that stands alone, with what it says in words.

    `tell` says each of its words in the reader's language.
    """
    names = [tell(short_date(point.day)) for point in chart.points]
    drawn = picture(spots(chart.points, names), window=(chart.low, chart.high))
    broken = {letter for point in chart.points for letter in letters(point)}
    says = [
        chart.advice,
        *(joined(": ", (letter, name)) for letter, name in RULES.items() if letter in broken),
    ]
    labels = Labels(
        title=say(
            "bench {bench}, {vitola} of {blend}, {measure}",
            bench=chart.bench,
            vitola=chart.vitola,
            blend=chart.blend,
            measure=MEASURES[chart.measure],
        ),
        description=joined("; ", says),
        target=say("target"),
        limit=say("limit"),
        window=say("tolerance"),
        unit=unit_of(chart.measure, chart.draw),
    )
    return svg(drawn, Labels(*map(tell, labels)))
